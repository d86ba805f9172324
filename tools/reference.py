"""Writes docs/calculators.md from the registration of the calculators: python tools/reference.py."""

from collections.abc import Iterable, Sequence
from pathlib import Path

from gudgeon.calc.calculator import Calculator, Parameter, Result, calculator, names

PAGE = Path(__file__).resolve().parents[1] / "docs" / "calculators.md"
HEAD = """# Calculators

Sums that can be had by themselves, without a data sheet or a book. `gudgeon calc` lists them, `gudgeon calc NAME`
shows the inputs of one, `gudgeon calc NAME key=value …` runs it, `--json` gives the answer to other programs.
Figures take units (`'95 N·m'`, `'70 lbf·ft'`, `'0.002 in'`); a bare number is in the unit of the table.
A bare compliance or hardening that no bolt has in that unit is refused: 7.5 is meant in µm/kN.
The maker's current manual overrules every figure here.

This page is written by `tools/reference.py` from the program itself.
"""


def calculators_page() -> str:
    """The whole page, as it should stand in the file."""
    found = [calculator(name) for name in names()]
    contents = [f"- [`{one.name}`](#{anchor(one)}): {one.title}" for one in found]
    return "\n".join([HEAD, *contents, "", *(line for one in found for line in section(one))])


def anchor(one: Calculator) -> str:
    """The anchor that readers of Markdown make of the heading."""
    return one.name.replace(".", "")


def section(one: Calculator) -> Iterable[str]:
    """What the page says of one calculator."""
    yield f"## {one.name}"
    yield f"\n{one.title[0].upper()}{one.title[1:].rstrip('.')}.\n"
    yield from table(("input", "what it is", "unit", "where it is not given"), map(input_row, one.parameters))
    yield ""
    yield from table(("result", "what it is", "unit"), map(result_row, one.results))
    yield f"\nMethod: {one.method.rstrip('.')}.\n\nSource: {one.source.rstrip('.')}.\n"


def input_row(parameter: Parameter) -> tuple[str, ...]:
    """One input: its name, meaning, unit, and what holds without it."""
    example = f"; like `{parameter.example}`" if parameter.example else ""
    choices = (
        f"; one of {', '.join(f'`{choice}`' for choice in parameter.choices)}" if parameter.choices else ""
    )
    if parameter.default is not None:
        absent = f"`{parameter.default}`"
    else:
        absent = "may be left out" if parameter.optional else "needed"
    also = "".join(f"; also `{name}`" for name in parameter.also)
    return f"`{parameter.name}`", f"{parameter.text}{choices}{example}{also}", unit(parameter), absent


def result_row(result: Result) -> tuple[str, ...]:
    """One result: its name, meaning and unit."""
    return f"`{result.name}`", result.text, unit(result)


def unit(one: Parameter | Result) -> str:
    """The unit of a figure; a plain number and text have none."""
    if isinstance(one, Result) and one.several:
        return "list of numbers"
    if one.kind is None:
        return "text"
    if one.unit in (None, "1"):
        return "number"
    return one.unit


def table(heads: Sequence[str], rows: Iterable[Sequence[str]]) -> Iterable[str]:
    """A table of Markdown."""
    yield f"| {' | '.join(heads)} |"
    yield f"|{' --- |' * len(heads)}"
    for row in rows:
        yield f"| {' | '.join(cell.replace('|', chr(92) + '|') for cell in row)} |"


if __name__ == "__main__":
    PAGE.parent.mkdir(exist_ok=True)
    PAGE.write_text(calculators_page(), "utf-8")
