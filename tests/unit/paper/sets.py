"""Bench sets for the tests of paper, each made and printed once: of the invented job, of a blank book, of names of any length."""

from dataclasses import dataclass
from datetime import UTC, datetime
from functools import lru_cache
from pathlib import Path
from tempfile import TemporaryDirectory

from gudgeon.bench.begin import open_demo
from gudgeon.bench.context import open_bench
from gudgeon.bench.on_paper.whole_set import WholeSet, whole_set
from gudgeon.paper.whole_set import set_pdf
from tests.unit.bench.benches import KIT, make_job
from tests.unit.bench.stories import DEMO
from tests.unit.paper.cards import NASTY, quoted, sheet

AT = datetime(2026, 11, 28, 20, 0, tzinfo=UTC)
LONG = "Donaudampfschifffahrtsgesellschaft" * 5
NAMED = f"{NASTY} {LONG}"


@dataclass(frozen=True, slots=True)
class Printed:
    """A set as the bench answers it, and as it is printed."""

    answer: WholeSet
    pdf: bytes


@lru_cache(maxsize=8)
def printed(which: str, size: str) -> Printed:
    """The set `demo`, `blank` (nothing recorded but the engine code), `locked` (nothing at all) or `nasty`."""
    with TemporaryDirectory() as folder:
        answer = {"demo": _demo, "blank": _blank, "locked": _locked, "nasty": _nasty}[which](Path(folder))
    return Printed(answer, set_pdf(answer, size=size))


def _demo(folder: Path) -> WholeSet:
    open_demo(folder / "job", now=AT)
    bench = open_bench(folder / "job" / "book.gudgeon", now=AT)
    bench.store.close()
    return whole_set(bench)


def _locked(folder: Path, *, code: str = "") -> WholeSet:
    made = make_job(
        folder,
        sheet=(DEMO / "sheet.yaml").read_text(encoding="utf-8"),
        kit=(DEMO / "kit.yaml").read_text(encoding="utf-8"),
    )
    if code:
        made.record("identity-read", code=code, read_from="pad")
    return whole_set(made.bench())


def _blank(folder: Path) -> WholeSet:
    return _locked(folder, code="TW18-D4")


def _nasty(folder: Path) -> WholeSet:
    """Every name of sheet and book is as long and as wild as a person could write it."""
    text = sheet(bolts=4, stages=8, placed=True, where=NAMED, name=NAMED)
    for plain in (
        "Head face, flatness",
        "cylinder head\n    method",
        "Crank journal",
        "crankshaft",
        "Head nuts",
    ):
        name, _, more = plain.partition("\n")
        assert f": {plain}" in text
        text = text.replace(f": {plain}", f": {quoted(f'{name} {NAMED}')}" + (f"\n{more}" if more else ""))
    text = text.replace("places: [A, B]", f"places: [{quoted('A ' + NAMED)}, B]\n    how: {quoted(NAMED)}")
    kit = KIT.replace("name: micrometer 25–50,", f"name: {quoted(NAMED)},")
    made = make_job(folder, sheet=text, kit=kit)
    made.read_code()
    made.record("reading", item="journal", place="B", value="29.985 mm", instrument="micrometer")
    made.record("left-in", item="rag", name=NAMED, where=NAMED, due_before="crank")
    made.record("plugged", item="port", name=NAMED, where=NAMED, due_before="fire")
    made.record(
        "taken-off",
        group="bolt",
        item="bolts",
        name=NAMED,
        place=NAMED,
        count=9,
        bag=LONG,
        due_before="crank",
    )
    made.record("provisional-made", item="loose", name=NAMED, why=NAMED, due_task=NAMED, due_before="drive")
    made.record("hold-proved", hold="figures_checked", value=NAMED)
    return whole_set(made.bench())
