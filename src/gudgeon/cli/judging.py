"""The inspection sheet in the terminal: part by part, what is limited, what was read, what it proves."""

import textwrap
from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import TYPE_CHECKING

from gudgeon.cli.show import clean, closing, heading, table, width

if TYPE_CHECKING:
    from gudgeon.bench.good import Inspection, Row

MARK = {"outside": "!", "in doubt": "?", "not measured": "·"}
"""What stands before the place that a reason belongs to."""


def show_inspection(answer: "Inspection") -> None:
    """Every part with its characteristics, every limit with its places, and what can be done about a doubt."""
    heading(answer.heading)
    for part in dict.fromkeys(row.part for row in answer.rows):
        print(f"{clean(part).upper()}\n")
        rows = (row for row in answer.rows if row.part == part)
        for _, own in groupby(rows, key=lambda row: row.item):
            _characteristic(list(own))
    print(", ".join(f"{count} {verdict}" for verdict, count in answer.counts.items()))
    if "in doubt" in answer.counts or "outside" in answer.counts:
        _say(
            "Who lets one be says why, and it stays visible: gudgeon record accepted WHAT --by NAME --why …",
            "",
        )
    print(textwrap.fill(answer.rule, width=width()))
    closing(answer.heading)


def _characteristic(rows: Sequence["Row"]) -> None:
    """Its range and sources once, then every limit of it."""
    first = rows[0]
    new = f"new {first.new_range}" if first.new_range else ""
    source = f"source: {'; '.join(dict.fromkeys(row.source for row in rows if row.source))}"
    _say("; ".join(filter(None, [f"{first.name}: {new}".rstrip(": "), source.removesuffix("source: ")])), "")
    for gauge in dict.fromkeys(row.gauge for row in rows if row.gauge):
        _say(f"measured with: {gauge}", "  ")
    for _, own in groupby(rows, key=lambda row: row.criterion):
        _limit(list(own))
    for note, count in _notes(rows).items():
        about = f" ({count} places)" if count > 1 else ""
        _say(f"{note}{about}", "  * ")
    print()


def _limit(rows: Sequence["Row"]) -> None:
    _say(_limit_words(rows[0]), "  ")
    read = [row for row in rows if row.reading]
    if read:
        table(
            ("place", "as found", "reading", "at 20 °C", "U (k = 2)", "verdict", ""),
            [
                (
                    row.place, row.as_found, row.reading, row.at_20, row.uncertainty, row.verdict.upper(),
                    _beside(row),
                )
                for row in read
            ],
        )  # fmt: skip
    for row in rows:
        for mark, text in _below(row):
            _say(text, f"  {mark} ")


def _limit_words(row: "Row") -> str:
    stands_for = "required" if row.required else "wear limit" if row.wear_limit else ""
    if not row.criterion:
        return "no limit given"
    how = f"; decided {row.decided_by}" if row.decided_by.startswith("as read") else ""
    return f"{stands_for or 'limit'}: {row.criterion}{how}"


BESIDE = {
    "inside the wear limit": "",
    "inside the wear limit, as new": "as new",
    "inside the wear limit, no longer as new": "no longer as new",
    "inside the wear limit, in doubt whether as new": "in doubt whether as new",
    "inside what is required": "",
    "outside the wear limit": "",
    "outside what is required": "",
}
"""Reasons that the verdict says already, and what is left of them to say beside it."""


def _beside(row: "Row") -> str:
    return BESIDE.get(row.reason, "")


def _below(row: "Row") -> Iterator[tuple[str, str]]:
    """Why it is so, and what to do about it; what is simply inside says only whether it is as new."""
    place = f"{row.place}: " if row.place else ""
    mark = MARK.get(row.verdict, "-")
    if row.verdict == "not measured":
        yield mark, f"{place}NOT MEASURED, {row.reason}"
    elif row.reason and row.reason not in BESIDE:
        yield mark, f"{place}{row.reason}"
    for number, way in enumerate(row.ways_out):
        yield " ", f"{'way out' if number == 0 else 'or'}: {way}"
    if row.accepted:
        yield "=", f"{place}{row.accepted}"


def _notes(rows: Sequence["Row"]) -> dict[str, int]:
    """What is to be said of several places, once."""
    found: dict[str, int] = {}
    for row in rows:
        for note in row.notes:
            found[note] = found.get(note, 0) + 1
    return found


def _say(text: str, lead: str) -> None:
    print(
        textwrap.fill(
            clean(text), width=width(), initial_indent=lead, subsequent_indent=" " * max(4, len(lead))
        )
    )
