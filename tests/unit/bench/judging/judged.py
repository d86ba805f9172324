"""Readings judged without a book: a sheet, a kit and what was read, put together by hand."""

from dataclasses import dataclass, replace
from datetime import UTC, datetime
from pathlib import Path
from types import MappingProxyType

from gudgeon.bench.context import Bench, Papers
from gudgeon.bench.good import Row, inspect
from gudgeon.book.fold import fold
from gudgeon.book.state import Accepted, IdentityState, ReadingState, ScanState
from gudgeon.kit.load import parse_kit
from gudgeon.sheet.load import parse_sheet
from tests.unit.sheet.sheets import SMALL

KIT = """\
gudgeon: kit 1
gauges:
  feelers:
    name: feeler blades
    kind: feeler blades
    error: 0.005 mm
    blades: [0.02 mm, 0.03 mm, 0.04 mm, 0.05 mm, 0.06 mm, 0.07 mm, 0.08 mm, 0.10 mm, 0.15 mm, 0.20 mm]
  micrometer: {name: micrometer 50–75, kind: outside micrometer, range: 50–75 mm, error: 0.005 mm}
  caliper: {name: caliper, kind: caliper, range: 0–150 mm, error: 0.05 mm}
  bore_gauge: {name: bore gauge, kind: bore gauge, range: 50–160 mm, error: 0.005 mm}
  dial: {name: dial gauge, kind: dial gauge, range: 0–10 mm, error: 0.01 mm}
  pressure: {name: compression tester, kind: compression gauge, range: 0–2000 kPa, error: 30 kPa}
"""

Said = str | tuple[str | None, str | None]
Read = dict[tuple[str, str], Said]
"""By characteristic and place: a value, or what enters and what does not."""

WHEN = datetime(2026, 3, 7, 10, 0, tzinfo=UTC)


@dataclass(frozen=True)
class Scanned:
    """Points of a face [mm], and the gauge that read their heights."""

    item: str
    points: tuple[tuple[str, str, str], ...]
    instrument: str = "dial"


def bench_with(
    characteristics: str,
    read: Read,
    *,
    faces: str = "",
    kit: str = KIT,
    gauge: str | dict[str, str] = "feelers",
    unit: str = "mm",
    scan: Scanned | None = None,
    accepted: tuple[Accepted, ...] = (),
) -> Bench:
    """A bench whose sheet holds these characteristics, and whose book these readings."""
    text = SMALL[: SMALL.index("characteristics:")] + faces + "characteristics:\n" + characteristics
    sheet = parse_sheet(text, file="sheet.yaml")
    loaded = parse_kit(kit, file="kit.yaml")
    papers = Papers(sheet.sheet, text, sheet.sha256, loaded.kit, kit, loaded.sha256, (), sheet.written)
    readings = {}
    for number, ((item, place), said) in enumerate(read.items(), start=1):
        value, (low, high) = (said, (None, None)) if isinstance(said, str) else (None, said)
        used = gauge if isinstance(gauge, str) else gauge[item]
        readings[(item, place, "as found")] = ReadingState(
            f"entry{number}", item, place, value, low, high, unit, used, "as found", WHEN.isoformat(),
            sheet.sha256, loaded.sha256, order=number,
        )  # fmt: skip
    state = replace(
        fold(()),
        identity=IdentityState("entry0", "L1-A", "pad", True, None),
        readings=MappingProxyType(readings),
        accepted=accepted,
    )
    if scan is not None:
        made = ScanState(
            "scan", scan.item, "as found", "mm", scan.points, scan.instrument, "face.csv", "", WHEN.isoformat(),
            sheet.sha256, loaded.sha256,
        )  # fmt: skip
        state = replace(state, scans=MappingProxyType({(scan.item, "as found"): made}))
    return Bench(Path("none.gudgeon"), None, "mine", papers, state, WHEN)  # type: ignore[arg-type]


def rows_of(bench: Bench, item: str) -> list[Row]:
    """The rows of one characteristic."""
    return [row for row in inspect(bench, only=item).rows if row.item == item]


def by_place(bench: Bench, item: str) -> dict[str, Row]:
    """The rows of one characteristic with one limit, by place."""
    found = rows_of(bench, item)
    assert len({row.place for row in found}) == len(found)
    return {row.place: row for row in found}
