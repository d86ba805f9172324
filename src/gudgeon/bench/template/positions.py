"""Positions in a file of their own: written by the tracing, read by the template, to be pasted into the data sheet."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from gudgeon.bench.template.errors import OffUnreadable, PlaceTooLarge, PlaceTwice, PlaceUnreadable
from gudgeon.quantity.written import Printed
from gudgeon.sheet.joints import Bolt
from gudgeon.written.errors import Problem
from gudgeon.written.fields import Gap, Key, Name, Section, Text
from gudgeon.written.load import parse
from gudgeon.written.located import Written, read_text

if TYPE_CHECKING:
    from gudgeon.bench.template.tracing import TraceAnswer

FORM, OFF_FORM = "1:12.5,40", "0.4 mm"
USEFUL_MM, MOST_MM = 1.0, 3.0
"""How far off a place may be to be of use, and at most: common practice, no source. The play of a bolt of 6 to 12 mm in
its hole is 0.6 to 1.5 mm (ISO 273:1979, medium)."""
_OFF = re.compile(r"(\d{1,3}(?:\.\d{1,3})?) mm", re.ASCII)
_NUMBER = re.compile(r"[+-]?\d{1,30}(\.\d{1,30})?", re.ASCII)
MOST = 100_000
"""The largest number of a place: longer than any engine in mm, and more pixels than any photo has on a side."""


class PositionsFile(Section):
    """Where the fasteners of one joint stand."""

    gudgeon: Literal["positions 1"]
    joint: Key | None = None
    viewed_from: Text | None = None
    traced_from: Text | None = None
    off_by: Gap | None = None
    bolts: dict[Name, Bolt]


@dataclass(frozen=True, slots=True)
class Positions:
    """Places [mm] to the right and up by the names of the data sheet, and how far off they may be."""

    places: Mapping[str, tuple[float, float]]
    viewed_from: str = ""
    joint: str = ""
    said_from: str = ""
    off_by: str = ""
    off_mm: float = 0.0
    """At most, as `off_by` says it in its own unit; 0 where nothing is said."""


def read_positions(path: str | Path) -> Positions:
    """Positions from a file; what is wrong in it is told with its line."""
    what = "file of positions"
    text = read_text(path, what=what)
    file, _, _ = parse(PositionsFile, text, file=str(path), what=what, problems=_problems)
    return Positions(
        {
            name: (bolt.x.middle_in("mm"), bolt.y.middle_in("mm"))
            for name, bolt in file.bolts.items()
            if bolt.x is not None and bolt.y is not None
        },
        file.viewed_from or "",
        file.joint or "",
        file.traced_from or Path(path).name,
        file.off_by.text if file.off_by is not None else "",
        _most_off(file.off_by) or 0.0,
    )


def _most_off(said: Printed | None) -> float | None:
    """How far off at most [mm]; None where nothing says it, or says it below nothing."""
    if said is None or (said.first.low_in("mm") or 0.0) < 0:
        return None
    return said.first.high_in("mm")


def _problems(file: PositionsFile, written: Written) -> Iterator[Problem]:
    for name, bolt in file.bolts.items():
        if bolt.x is None or bolt.y is None:
            yield Problem(written.place(("bolts", name)), f"`{name}` has no place: it takes `x:` and `y:`.")
    if file.off_by is not None and _most_off(file.off_by) is None:
        yield Problem(written.place(("off_by",)), str(OffUnreadable(file.off_by.text, OFF_FORM)))
    if not file.bolts:
        yield Problem(written.place(("bolts",)), "No place stands here: one for each fastener is needed.")


def said_positions(text: str, *, viewed_from: str = "", off_by: str = "") -> Positions:
    """Positions as an address holds them [mm]: `1:12.5,40;2:80,41.5`."""
    places = {}
    for one in filter(None, (part.strip() for part in text.split(";"))):
        name, colon, where = one.rpartition(":")
        if not (colon and name.strip()):
            raise PlaceUnreadable(one, FORM)
        if name.strip() in places:
            raise PlaceTwice(name.strip())
        places[name.strip()] = pair(where, of=one, form=FORM)
    if not places:
        raise PlaceUnreadable(text, FORM)
    off = _OFF.fullmatch(off_by)
    if off_by and off is None:
        raise OffUnreadable(off_by, OFF_FORM)
    return Positions(
        places, viewed_from, said_from="the photo", off_by=off_by, off_mm=float(off[1]) if off else 0.0
    )


def pair(text: str, *, of: str, form: str) -> tuple[float, float]:
    """Two finite numbers with a comma between them."""
    parts = [one.strip() for one in text.split(",")]
    if len(parts) != 2 or not all(_NUMBER.fullmatch(one) for one in parts):
        raise PlaceUnreadable(of, form)
    across, up = (float(one) for one in parts)
    if max(abs(across), abs(up)) > MOST:
        raise PlaceTooLarge(of, most=MOST)
    return across, up


def as_address(places: Mapping[str, tuple[float, float]]) -> str:
    """What `said_positions` reads."""
    return ";".join(f"{name}:{x:.2f},{y:.2f}" for name, (x, y) in places.items())


def as_file(answer: "TraceAnswer") -> str:
    """Traced places as a file; its `bolts` can stand under the joint in the data sheet."""
    lines = [
        "gudgeon: positions 1",
        f"joint: {answer.joint}",
        f"traced_from: {_quoted(answer.photo)}",
        f"off_by: {answer.worst_mm:.1f} mm",
    ]
    if answer.viewed_from:
        lines.append(f"viewed_from: {_quoted(answer.viewed_from)}")
    lines.append("bolts:")
    lines += [
        f"  {_key(one.name)}: {{x: {one.x_mm:.1f} mm, y: {one.y_mm:.1f} mm}}  # ± {one.off_mm:.1f} mm"
        for one in answer.places
    ]
    return "\n".join(lines) + "\n"


def _quoted(text: str) -> str:
    line = " ".join(text.split()).strip("“”")
    return "'" + line.replace("'", "''") + "'"


def _key(name: str) -> str:
    return name if name.isalnum() and name.isascii() else _quoted(name)
