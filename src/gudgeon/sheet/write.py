"""Writing one figure into a sheet, with the person's comments and order kept."""

import io
import re
from typing import Any

from pydantic import BaseModel

from gudgeon.errors import InputError
from gudgeon.sheet.checks import problems
from gudgeon.sheet.figures import Stated
from gudgeon.sheet.inspections import Characteristic
from gudgeon.sheet.model import DataSheet
from gudgeon.written.check import read_model
from gudgeon.written.errors import FileRefused, Problem
from gudgeon.written.located import Path, read_yaml

CRITICAL = (
    "torque",
    "turn",
    "verify",
    "loosen",
    "wear_limit",
    "required",
    "least_height",
    "most_off",
    "least_squish",
    "total_turn",
)
"""Figures that are asked twice: a slip in them breaks an engine."""


class NoSuchFigure(InputError):
    """A path that leads to no figure of a sheet."""

    def __init__(self, path: str, why: str) -> None:
        super().__init__(
            f"`{path}` leads to no figure of this sheet: {why}. Name it like cylinder.bore, "
            "characteristics.KEY.wear_limit or joints.KEY.program.2.torque."
        )


class NotTheSame(InputError):
    """A critical figure that was not written the same twice."""

    def __init__(self, first: str, second: str) -> None:
        super().__init__(
            f"`{first}` and `{second}` are not the same. Nothing was written: look at the page again."
        )


def parse_path(said: str) -> Path:
    """`joints.head.program.2.torque` as a path; list places count from one, as people count."""
    steps: list[str | int] = []
    for step in said.strip().split("."):
        if not step:
            raise NoSuchFigure(said, "a name is empty")
        steps.append(
            int(step) - 1 if step.isdigit() and steps and steps[-1] in ("program", "loosening") else step
        )
    return tuple(steps)


def is_critical(path: Path) -> bool:
    """Whether a figure is asked twice."""
    return path[-1] in CRITICAL


def takes_source(path: Path) -> bool:
    """Whether the figure carries a source of its own; a stage takes the source of its joint."""
    return "program" not in path and "loosening" not in path


def put_figure(text: str, *, file: str, path: Path, value: str, source: str) -> str:
    """The text of the sheet with the figure in it, or a refusal; nothing is written to disk here.

    A sheet that still has other problems takes the figure; the figure itself must bring no new one.
    """
    _must_be_figure(path)
    before = set(_problems(text, file))
    after = _put(text, path, {"value": value, "source": source} if takes_source(path) else value)
    found = _problems(after, file)
    known = {problem.message for problem in before}
    new = [problem for problem in found if problem.message not in known]
    if new:
        raise FileRefused(
            "data sheet", [Problem(problem.place, f"{problem.message} (not written)") for problem in new]
        )
    return after


def _problems(text: str, file: str) -> list[Problem]:
    written = read_yaml(text, file=file)
    sheet, found = read_model(DataSheet, written)
    return found if sheet is None else list(problems(sheet, written))


def figure_now(text: str, *, file: str, path: Path) -> str:
    """The figure as it stands in the sheet now; empty where there is none."""
    _must_be_figure(path)
    value: Any = read_yaml(text, file=file).data
    for step in path:
        try:
            value = value[step]
        except (KeyError, IndexError, TypeError):
            return ""
    return str(value.get("value", "")) if isinstance(value, dict) else str(value or "")


def _said(path: Path) -> str:
    return ".".join(str(step + 1) if isinstance(step, int) else step for step in path)


def _must_be_figure(path: Path) -> None:
    """A path that the model does not hold as a figure is refused, also in a sheet that is not whole yet."""
    said = _said(path)
    if "program" in path or "loosening" in path:
        return
    current: Any = DataSheet
    for step in path:
        current = _field(current, step)
        if current is None:
            raise NoSuchFigure(said, f"there is no `{step}` there")
    if not (isinstance(current, type) and issubclass(current, Stated)):
        raise NoSuchFigure(said, "it is not a figure")


def _field(current: Any, step: str | int) -> Any:
    from typing import get_args, get_origin

    if get_origin(current) is dict:
        return _unwrapped(get_args(current)[1])
    if isinstance(current, type) and issubclass(current, BaseModel):
        for name, field in current.model_fields.items():
            if step in (name, field.alias):
                if issubclass(current, Characteristic) and name in ("new_range", "wear_limit", "required"):
                    return Stated
                return _unwrapped(field.annotation)
    return None


def _unwrapped(annotation: Any) -> Any:
    from typing import get_args

    inner = [argument for argument in get_args(annotation) if argument is not type(None)]
    return inner[0] if type(None) in get_args(annotation) and len(inner) == 1 else annotation


def _put(text: str, path: Path, value: Any) -> str:
    from ruamel.yaml import YAML
    from ruamel.yaml.comments import CommentedMap

    yaml = YAML(typ="rt", pure=True)
    yaml.preserve_quotes = True
    yaml.width = 10_000
    yaml.indent(mapping=2, **_list_indent(text))
    root = yaml.load(text)
    holder = root
    for step in path[:-1]:
        try:
            inner = holder[step]
        except (KeyError, IndexError, TypeError):
            inner = None
        if inner is None:
            if not isinstance(step, str) or not isinstance(holder, dict):
                raise NoSuchFigure(_said(path), f"there is no `{_said((step,))}` there")
            inner = CommentedMap()
            holder[step] = inner
        holder = inner
    if not isinstance(holder, dict):
        raise NoSuchFigure(_said(path), f"`{path[-2]}` holds one value, not lines of key: value")
    if isinstance(value, dict):
        kept = CommentedMap(value)
        kept.fa.set_flow_style()
        value = kept
    holder[path[-1]] = value
    out = io.StringIO()
    yaml.dump(root, out)
    return out.getvalue()


def _list_indent(text: str) -> dict[str, int]:
    """Lists are written as the person writes them: indented below their key, or not."""
    indented = re.search(r"^( *)[^\s#-][^\n]*:\n(?:\s*#[^\n]*\n)*\1  +- ", text, flags=re.MULTILINE)
    flush = re.search(r"^( *)[^\s#-][^\n]*:\n(?:\s*#[^\n]*\n)*\1- ", text, flags=re.MULTILINE)
    return {"sequence": 2, "offset": 0} if flush and not indented else {"sequence": 4, "offset": 2}
