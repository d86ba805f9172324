"""A place of the data sheet in words: what a person calls it who never opens the file."""

from dataclasses import dataclass

from gudgeon.bench.context import Bench
from gudgeon.bench.sheet_figures import SECTIONS, SheetFigure, SheetPart, data_sheet
from gudgeon.bench.sheet_parts import label
from gudgeon.sheet.write import is_figure, parse_path


@dataclass(frozen=True, slots=True)
class InWords:
    """A place of the sheet in words; `figure` is its path where a form can write it, `part` the part it stands in."""

    words: str
    figure: str
    part: str


def in_words(bench: Bench, path: str) -> InWords:
    """What the sheet calls a place, by its dotted path."""
    part, _, name = found_at(bench, path)
    figure = path if is_figure(parse_path(path)) else ""
    if part is not None:
        return InWords(f"{part.title}: {name[0].lower()}{name[1:]}", figure, part.key)
    section, *steps = path.split(".")
    said = dict(SECTIONS).get(section, label(section))
    return InWords(f"{said}: {_steps(steps)}" if steps else said, figure, "")


def found_at(bench: Bench, asked: str) -> tuple[SheetPart | None, SheetFigure | None, str]:
    """The part that a path stands in, its figure where there is one, and its name in words."""
    for section in data_sheet(bench).sections:
        for group in section.groups:
            for part in group.parts:
                for figure in part.figures:
                    if figure.path == asked:
                        return part, figure, figure.name
                for empty in part.not_stated:
                    if empty.path == asked:
                        return part, None, empty.name
                if asked.startswith(f"{part.key}."):
                    words = _steps(asked.removeprefix(f"{part.key}.").split("."))
                    return part, None, words[0].upper() + words[1:]
    return None, None, ""


def _steps(steps: list[str]) -> str:
    """The steps of a path within its part: `oil pressure no. 2, temperature`."""
    said = ""
    for step in steps:
        words = label(step)
        said += f" no. {step}" if step.isdecimal() else f"{', ' if said else ''}{words[0].lower()}{words[1:]}"
    return said.strip()
