"""The engine, the papers that it was measured against, and who wrote the book."""

from collections import Counter
from collections.abc import Iterator, Sequence

from gudgeon.bench.closed.model import Row, Section
from gudgeon.bench.closed.told import Told, hour, table


def identity(told: Told) -> Section:
    """Which engine it is, by whom it was read, against which papers, and what was noted of it."""
    bench = told.bench
    tables = (
        *table("The engine and its papers", ("What", "What the book says"), _facts(told)),
        *told.listed("The code as it was read off the engine", told.of("identity-read")),
        *told.listed("Distance", told.of("odometer-read")),
        *told.listed(
            "Notes", told.of("note"), note="Owner, registration and chassis number stand where somebody noted them."
        ),
    )  # fmt: skip
    missing = []
    if bench.state.identity is None:
        missing.append("Nobody has read the code off the engine: figures to work by stay locked.")
    if bench.state.odometer is None:
        missing.append("No distance of the odometer in the book.")
    if not any(told.standing("note")):
        missing.append("No note in the book: neither owner nor chassis number is written down.")
    return Section("identity", "The engine", tables=tables, missing=tuple(missing))


def _facts(told: Told) -> Iterator[Row]:
    bench, engine = told.bench, told.bench.sheet.engine
    read = bench.state.identity
    yield Row(("Engine, by the data sheet", engine.name))
    yield Row(("Codes that the sheet is for", ", ".join(engine.codes)))
    if read is not None:
        match = (
            "one of the sheet's"
            if bench.code_matches
            else f"NOT the sheet's; why the sheet serves: {read.why_not or 'no reason given'}"
        )
        yield Row(
            ("Code read off the engine", f"{read.code}, {read.read_from}; {match}"),
            (told.numbers[read.entry],),
        )
    if bench.sheet.notice:
        yield Row(("Said in the sheet", bench.sheet.notice))
    for book in bench.sheet.sources.values():
        yield Row(("Source", ", ".join(filter(None, [book.title, book.edition]))))
    yield from _papers(
        "Data sheet", bench.papers.sheet_sha, [(one.sheet, one.number) for one in told.entries]
    )
    yield from _papers("Kit", bench.papers.kit_sha, [(one.kit, one.number) for one in told.entries])
    first, last = told.entries[0], told.entries[-1]
    yield Row(("Build", f"{bench.build}, begun {hour(first.device_time)}"), (first.number,))
    yield Row(("Last entry", f"{last.number}, {hour(last.device_time)}"))
    hands = Counter((one.who, one.device) for one in told.entries)
    for (who, device), count in hands.items():
        yield Row(("Written by", f"{who}, on {device}: {count} {'entry' if count == 1 else 'entries'}"))


def _papers(name: str, now: str, made: Sequence[tuple[str, int]]) -> Iterator[Row]:
    """The text by which the print judges; where others were in force, those too, and how many entries name them."""
    words = f"{name}, SHA-256 of its text"
    by = {sha: [number for one, number in made if one == sha] for sha, _ in made if sha}
    if set(by) == {now}:
        yield Row((words, now))
        return
    yield Row((words, f"{now}, by which this print judges"))
    for sha, numbers in by.items():
        count = f"{len(numbers)} {'entry' if len(numbers) == 1 else 'entries'}"
        yield Row(
            (f"{name} as entries were made against it", f"{sha}: {count}, No. {numbers[0]} to {numbers[-1]}")
        )
    if now not in by:
        why = "No entry was made against the one by which this print judges: the archive does not hold it."
        yield Row((name, why))
