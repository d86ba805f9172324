"""The first start and what proved the engine after it: turned by the starter, pressures, oil, coolant, signatures."""

from collections.abc import Iterator

from gudgeon.bench.closed.model import Row, Section, Table
from gudgeon.bench.closed.proofs import CRANK, HEADS, missing_of, rows_of
from gudgeon.bench.closed.told import Told, asked, table
from gudgeon.bench.context import Bench
from gudgeon.bench.entries import TASK_KINDS
from gudgeon.bench.holds import standings
from gudgeon.bench.reason import WORDS
from gudgeon.bench.running.answers import Running
from gudgeon.bench.running.question import running
from gudgeon.book.entries import Entry

STARTER = "turn by starter"
"""How an entry names that it was done with the starter."""


def first_start(told: Told) -> Section:
    """What is written of starter, first fire, proving, and who signed before which of them."""
    bench = told.bench
    own = [one for one in standings(bench.sheet, bench.state) if one.hold.before != CRANK]
    starter = [one for one in told.entries if _by_starter(one)]
    answer, locked = asked(lambda: running(bench)) if _pressures_read(bench) else (None, ())
    signed = list(told.of("signed-off"))
    missing = [*locked, *missing_of(own)]
    if not any(told.struck(one) is None for one in starter):
        missing.append("By the book the starter never turned it.")
    left = set(WORDS) - {one.body["milestone"] for one in signed if told.struck(one) is None}
    unsigned = [WORDS[one] for one in WORDS if one in left]
    if unsigned:
        missing.append(f"Nobody signed before: {'; '.join(unsigned)}.")
    return Section(
        "start",
        "First start and proving",
        tables=(
            *told.listed("The starter", (one for one in starter if one.kind in ("turned", *TASK_KINDS))),
            *table("Proved after it was cranked", HEADS, rows_of(told, own)),
            *(tuple(_tables(answer)) if answer is not None else ()),
            *told.listed("Signed", signed),
        ),
        missing=tuple(missing),
    )


def _by_starter(one: Entry) -> bool:
    """Whether the starter turned it there: said by itself, or as what a task or a proof was done with."""
    if one.kind == "turned":
        return bool(one.body["by"] == "starter")
    doing = one.body.get("doing")
    return isinstance(doing, dict) and STARTER in (doing.get("acts") or ())


def _pressures_read(bench: Bench) -> bool:
    """Whether a pressure of a cylinder is in the book; else there is nothing to work out."""
    after = bench.sheet.after_start
    keys = {after.cranking_pressure, after.wet, after.leak_down} if after is not None else set()
    return any(item in keys for item, _, _ in bench.state.readings)


def _tables(answer: Running) -> Iterator[Table]:
    pressures = answer.compression
    rows = (
        Row((one.place, one.dry, one.wet, one.share, one.verdict, one.why))
        for one in pressures.cylinders
        if one.dry or one.wet
    )
    heads = ("Cylinder", "Dry", "With oil", "Of the highest", "Verdict", "Why")
    expected = f"expected here: {pressures.expected.text}" if pressures.expected is not None else ""
    yield from table("Cranking pressure", heads, rows, note=expected)
    leaks = (
        Row((one.place, one.reading, one.lost, one.hole)) for one in answer.leak_down.lines if one.reading
    )
    yield from table("Under air", ("Cylinder", "Reading", "Lost", "As large a hole as"), leaks)
