"""The measuring sheets on paper: a row for each place, filled with what the book has, blank where it has nothing."""

from typing import Any

from gudgeon.bench.on_paper.as_read import AsRead
from gudgeon.bench.on_paper.measuring_sheets import Line, MeasuringSheet, MeasuringSheets
from gudgeon.paper.press import press
from gudgeon.paper.words import dated, page_words, without_commands

QUIET = ("inside", "no limit given")
"""Verdicts that call for nothing."""
RULE = (
    "± is U (k = 2). A verdict stands where the book has a reading; where it has none the line is blank. Read each "
    "place twice before it is written; new range and wear limit are two different things."
)

NOTHING = "the data sheet states nothing to measure in this job."


def measuring_pdf(answer: MeasuringSheets, *, size: str) -> bytes:
    """The measuring sheets of the job on paper."""
    return press("measuring.typ", measuring_data(answer), size=size, dated_as=dated(answer.heading))


def measuring_data(answer: MeasuringSheets) -> dict[str, Any]:
    """Everything that stands on the sheets, part by part."""
    parts: dict[str, list[dict[str, Any]]] = {}
    for one in answer.sheets:
        parts.setdefault(one.part, []).append(_sheet(one))
    return {
        "page": page_words(answer.heading, about="Measuring sheets"),
        "state": f"{answer.job}: {_count(answer) if answer.sheets else 'nothing to measure'}",
        "nothing": "" if answer.sheets else NOTHING,
        "rule": RULE,
        "left_out": answer.locked,
        "parts": [{"name": name, "sheets": sheets} for name, sheets in parts.items()],
        "not_measured": list(answer.not_measured),
    }


def _count(answer: MeasuringSheets) -> str:
    """How much there is to read, and how much of it the book has."""
    lines = [line for one in answer.sheets if not one.worked_out_from for line in one.lines]
    read = sum(line.found is not None or line.left is not None for line in lines)
    return f"{read} of {len(lines)} places read"


def _sheet(one: MeasuringSheet) -> dict[str, Any]:
    return {
        "name": one.name,
        "how": one.how,
        "from": list(one.worked_out_from),
        "limits": [[limit.stands_for, limit.words, limit.source] for limit in one.limits],
        "decides": without_commands(one.decides),
        "lines": [_line(line) for line in one.lines],
        "rules": [
            {"words": rule.words, "source": rule.source, "lines": [_line(line) for line in rule.lines]}
            for rule in one.rules
        ],
    }


def _line(line: Line) -> dict[str, Any]:
    """A row; what is renewed whatever it measures has no place, but a box to tick."""
    return {
        "place": line.place or "the one place",
        "tick": not line.place and not line.gauge,
        "gauge": line.gauge,
        "found": _read(line.found),
        "left": _read(line.left),
    }


def _read(one: AsRead | None) -> dict[str, Any] | None:
    if one is None:
        return None
    return {
        "value": one.value,
        "doubt": one.plus_minus,
        "verdict": one.verdict,
        "alarm": one.verdict not in QUIET,
    }
