"""Writing one figure into a sheet, with the person's comments and order kept."""

import io
import re
from collections.abc import Callable, Iterable
from typing import Any

from pydantic import BaseModel

from gudgeon.errors import InputError
from gudgeon.sheet.checks import problems
from gudgeon.sheet.figures import Again, Stated
from gudgeon.sheet.inspections import Characteristic, difference_of, stated_of
from gudgeon.sheet.joints import Stage
from gudgeon.sheet.model import DataSheet
from gudgeon.sheet.shapes import SHAPES, AnyShape, Shape
from gudgeon.written.check import read_model
from gudgeon.written.errors import FileRefused, Problem
from gudgeon.written.fields import FigureOf
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

OWN_KIND = ("new_range", "wear_limit", "required", "grades")
"""Figures of a characteristic that are of the kind that it reads."""

COUNTED = (
    "program",
    "loosening",
    "also",
    "segments",
    "clamped",
    "limits",
    "outline",
    "openings",
    "oil_pressure",
)
"""Lists whose places a person counts from one."""


class NoSuchFigure(InputError):
    """A path that leads to no figure of a sheet."""

    def __init__(self, path: str, why: str) -> None:
        super().__init__(
            f"`{path}` leads to no figure of this sheet: {why}. Name it like cylinder.bore, "
            "characteristics.KEY.wear_limit or joints.KEY.program.2.torque."
        )


class NoSuchSource(InputError):
    """A source that the sheet does not name."""

    def __init__(self, key: str, known: Iterable[str]) -> None:
        super().__init__(
            f"`{key}` is no source of this sheet. It has: {', '.join(known) or 'none'}. "
            "A new one is written in the file, under `sources:`."
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
        steps.append(int(step) - 1 if step.isdigit() and steps and steps[-1] in COUNTED else step)
    return tuple(steps)


def is_critical(path: Path) -> bool:
    """Whether a figure is asked twice."""
    return path[-1] in CRITICAL or ("limits" in path and path[-1] not in Shape.spans)


def takes_source(path: Path) -> bool:
    """Whether the figure carries a source of its own; a stage or a bolt takes that of its joint."""
    found = _figure_at(path)
    return isinstance(found, type) and issubclass(found, Stated | Again)


def takes_note(path: Path) -> bool:
    """Whether a note can stand with the figure: its own, or that of its stage."""
    return takes_source(path) or _in_stage(path)


def is_figure(path: Path) -> bool:
    """Whether the model holds a figure at this path."""
    try:
        _figure_at(path)
    except NoSuchFigure:
        return False
    return True


def kind_of(path: Path, sheet: DataSheet) -> tuple[str, tuple[str, ...]]:
    """The kind of quantity of a figure, and how such a figure is written."""
    found = _figure_at(path)
    item = sheet.characteristics.get(str(path[1])) if path[0] == "characteristics" else None
    if item is not None and path[2] in OWN_KIND:
        found = stated_of(item.kind)
    elif item is not None and path[2] == "limits":
        shape = item.limits[path[3]] if isinstance(path[3], int) and path[3] < len(item.limits) else None
        own = shape is not None and shape.own_kind and path[-1] == "limit"
        found = difference_of(item.kind) if own else _field(type(shape), path[-1]) or found
    marks = (
        found.model_fields["value"].metadata
        if isinstance(found, type) and issubclass(found, Stated)
        else getattr(found, "__metadata__", ())
    )
    mark = next((one for one in marks if isinstance(one, FigureOf)), None)
    if mark is None:
        return ("angle", ("fully", "180°")) if path[-1] == "loosen" else ("", ())
    return mark.kind, tuple(mark.examples)


def put_figure(text: str, *, file: str, path: Path, value: str, source: str, note: str | None = None) -> str:
    """The text of the sheet with the figure in it, or a refusal; nothing is written to disk here.

    A sheet that still has other problems takes the figure; the figure itself must bring no new one.
    A `note` of None leaves a note that is there; an empty one takes it away.
    """
    own_source = takes_source(path)
    figure = {"value": value, **({"source": source} if own_source else {})}
    if note is not None and takes_note(path):
        figure["note"] = note
    return checked(text, after=changed(text, lambda root: _put_figure(root, path, figure)), file=file)


def put_photo(text: str, *, file: str, source: str, page: str, photo: str) -> str:
    """The text of the sheet with a photo named for a page of one of its sources, or a refusal."""

    def put(root: Any) -> None:
        if source not in (root.get("sources") or {}):
            raise NoSuchSource(source, root.get("sources") or {})
        photos = _holder(root, ("sources", source, "photos", page))
        photos[_key(photos, page)] = photo

    return checked(text, after=changed(text, put), file=file)


def checked(before: str, *, after: str, file: str) -> str:
    """The new text, unless it has a problem that the old one did not have."""
    known = {problem.message for problem in _problems(before, file)}
    new = [problem for problem in _problems(after, file) if problem.message not in known]
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
    return figure_in(read_yaml(text, file=file).data, path)


def figure_in(data: Any, path: Path) -> str:
    """The figure as it stands in what was read of a sheet; empty where there is none."""
    _figure_at(path)
    value = data
    for step in path:
        try:
            value = value[step]
        except (KeyError, IndexError, TypeError):
            return ""
    return str(value.get("value", "")) if isinstance(value, dict) else str(value or "")


def _said(path: Path) -> str:
    return ".".join(str(step + 1) if isinstance(step, int) else step for step in path)


def _in_stage(path: Path) -> bool:
    return "program" in path or "loosening" in path


def _figure_at(path: Path) -> Any:
    """What the model holds at a path: a stated figure, or one that stands without a source of its own.

    A path that leads to anything else is refused, also in a sheet that is not whole yet.
    """
    current: Any = DataSheet
    for step in path:
        current = _field(current, step)
        if current is None:
            raise NoSuchFigure(_said(path), f"there is no `{_said((step,))}` there")
    stated = isinstance(current, type) and issubclass(current, Stated | Again)
    bare = any(isinstance(mark, FigureOf) for mark in getattr(current, "__metadata__", ()))
    if not (stated or bare or (_in_stage(path) and path[-1] == "loosen")):
        raise NoSuchFigure(_said(path), "it is not a figure")
    return current


def _field(current: Any, step: str | int) -> Any:
    from typing import Annotated, get_args, get_origin

    if current is AnyShape or get_origin(current) is Annotated:
        return _of_any_shape(step) if current == AnyShape else None
    if get_origin(current) is dict:
        return _unwrapped(get_args(current)[1])
    if get_origin(current) is tuple:
        return get_args(current)[0] if isinstance(step, int) and step >= 0 else None
    if isinstance(current, type) and issubclass(current, BaseModel):
        for name, field in current.model_fields.items():
            if step == (field.alias or name) or (step == name and not issubclass(current, Stage)):
                if issubclass(current, Characteristic) and name in OWN_KIND and name != "grades":
                    return Stated
                marks = [mark for mark in field.metadata if isinstance(mark, FigureOf)]
                if marks and not issubclass(current, Stated | Again):
                    return Annotated[field.annotation, marks[0]]  # a figure that must be there
                return _unwrapped(field.annotation)
    return None


def _of_any_shape(step: str | int) -> Any:
    """What a limit holds under a name, whatever its shape; a shape that has no such figure refuses it later."""
    return next((found for shape in SHAPES if (found := _field(shape, step)) is not None), None)


def _unwrapped(annotation: Any) -> Any:
    from typing import get_args

    inner = [argument for argument in get_args(annotation) if argument is not type(None)]
    return inner[0] if type(None) in get_args(annotation) and len(inner) == 1 else annotation


def changed(text: str, change: Callable[[Any], None]) -> str:
    """The text after a change of what it holds; comments, order and the person's indents stay."""
    from ruamel.yaml import YAML

    yaml = YAML(typ="rt", pure=True)
    yaml.preserve_quotes = True
    yaml.width = 10_000
    yaml.indent(mapping=2, **_list_indent(text))
    root = yaml.load(text)
    change(root)
    out = io.StringIO()
    yaml.dump(root, out)
    return out.getvalue()


def _put_figure(root: Any, path: Path, figure: dict[str, str]) -> None:
    """Put value, source and note where they belong: into the lines that are there, as far as they are."""
    from ruamel.yaml.comments import CommentedMap

    around = _source_around(root, path)
    holder = _holder(root, path)
    key = _key(holder, path[-1])
    now = holder[key] if isinstance(holder, list) or key in holder else None
    if isinstance(now, dict):
        if "source" not in now and figure.get("source") == around:
            figure = {name: text for name, text in figure.items() if name != "source"}
        _into(now, figure)
    elif "source" not in figure:
        note = figure.get("note")
        holder[key] = figure["value"]
        if note is not None:
            _into(holder, {"note": note})
    elif now is not None and figure["source"] == around and not figure.get("note"):
        holder[key] = figure["value"]
    else:
        kept = CommentedMap({name: text for name, text in figure.items() if text or name != "note"})
        kept.fa.set_flow_style()
        holder[key] = kept


def _into(lines: Any, figure: dict[str, str]) -> None:
    for name, text in figure.items():
        if text or name != "note":
            lines[name] = text
        else:
            lines.pop(name, None)


def _holder(root: Any, path: Path) -> Any:
    """What a path's last step stands in, made where it is not there yet."""
    from ruamel.yaml.comments import CommentedMap

    holder = root
    for step in path[:-1]:
        key = _key(holder, step)
        try:
            inner = holder[key]
        except (KeyError, IndexError, TypeError):
            inner = None
        if inner is None:
            if not isinstance(key, str) or not isinstance(holder, dict):
                raise NoSuchFigure(_said(path), f"there is no `{_said((step,))}` there")
            inner = CommentedMap()
            holder[key] = inner
        holder = inner
    if not isinstance(holder, dict if isinstance(path[-1], str) else list):
        raise NoSuchFigure(_said(path), f"`{path[-2]}` holds one value, not lines of key: value")
    if isinstance(path[-1], int) and path[-1] >= len(holder):
        raise NoSuchFigure(_said(path), f"`{path[-2]}` has {len(holder)} only")
    return holder


def _key(holder: Any, step: str | int) -> Any:
    """A key as the file holds it: `1` may stand there as a number."""
    if not isinstance(holder, dict) or step in holder:
        return step
    return next((key for key in holder if str(key) == step), step)


def _source_around(root: Any, path: Path) -> str:
    """The source that a figure takes from the parts it stands in; empty for none."""
    around, current = "", root
    for step in path[:-1]:
        try:
            current = current[_key(current, step)]
        except (KeyError, IndexError, TypeError):
            return around
        if isinstance(current, dict) and current.get("source"):
            around = str(current["source"])
    return around


def _list_indent(text: str) -> dict[str, int]:
    """Lists are written as the person writes them: indented below their key, or not."""
    indented = re.search(r"^( *)[^\s#-][^\n]*:\n(?:\s*#[^\n]*\n)*\1  +- ", text, flags=re.MULTILINE)
    flush = re.search(r"^( *)[^\s#-][^\n]*:\n(?:\s*#[^\n]*\n)*\1- ", text, flags=re.MULTILINE)
    return {"sequence": 2, "offset": 0} if flush and not indented else {"sequence": 4, "offset": 2}
