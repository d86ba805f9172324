"""Every figure of a sheet with its place, its name in words and its source."""

from collections.abc import Iterator
from dataclasses import dataclass

from pydantic import BaseModel

from gudgeon.quantity.written import Printed
from gudgeon.sheet.figures import Cited, Sourced, Stated
from gudgeon.sheet.joints import Stage
from gudgeon.sheet.model import DataSheet
from gudgeon.sheet.shapes import Shape
from gudgeon.written.located import Path


@dataclass(frozen=True, slots=True)
class Figure:
    """One printed figure and where it stands."""

    path: Path
    name: str
    printed: Printed
    source: str

    @property
    def said(self) -> str:
        """The path as it is typed."""
        return path_text(self.path)


def path_text(path: Path) -> str:
    """`joints.head.program.2.torque`; list places count from one, as people count."""
    return ".".join(str(step + 1) if isinstance(step, int) else step for step in path)


def figures(sheet: DataSheet) -> Iterator[Figure]:
    """Every figure of the sheet, in the order of the model."""
    for name in type(sheet).model_fields:
        if name not in ("sources", "settled", "cautions"):
            yield from _inside(getattr(sheet, name), (name,), _label(name), None)


def _inside(value: object, path: Path, words: str, around: Cited | None) -> Iterator[Figure]:
    if isinstance(value, Printed):
        yield Figure(path, words, value, str(around or ""))
    elif isinstance(value, Stated):
        yield Figure(path, words, value.value, str(value.source or around or ""))
        for index, again in enumerate(value.also):
            yield Figure((*path, "also", index), f"{words}, again", again.value, str(again.source))
    elif isinstance(value, BaseModel):
        yield from _section(value, path, words, around)
    elif isinstance(value, dict):
        for key, inner in value.items():
            yield from _inside(inner, (*path, key), f"{_single(words)} {key}", around)
    elif isinstance(value, tuple):
        for index, inner in enumerate(value):
            named = (
                f"{words.removesuffix('s')}, {inner.shape}"
                if isinstance(inner, Shape)
                else f"{words} {index + 1}"
            )
            yield from _inside(inner, (*path, index), named, around)


def _section(part: BaseModel, path: Path, words: str, around: Cited | None) -> Iterator[Figure]:
    own = getattr(part, "source", None) if isinstance(part, Sourced) else None
    called = getattr(part, "name", None)
    title = called if isinstance(called, str) and len(path) < 3 else words
    for name, field in type(part).model_fields.items():
        label = field.alias or name
        value = getattr(part, name)
        if isinstance(value, str) or value is None:
            continue
        inner = f"{title}, {_label(label).lower()}" if len(path) > 0 else _label(label)
        if isinstance(part, Stage):
            inner = f"{title}: {_label(label).lower()}"
        yield from _inside(value, (*path, label), inner, own or around)


def _label(name: str) -> str:
    return {"program": "Stage", "loosening": "Loosening stage"}.get(name, name.replace("_", " ").capitalize())


def _single(words: str) -> str:
    """`…, grades` before a key reads `…, grade`."""
    return words[:-1] if words.endswith(("grades", "bolts", "wheels")) else words
