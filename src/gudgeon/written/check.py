"""From a pydantic refusal to a problem with line, column and what would be right."""

import difflib
import re
from collections.abc import Iterable
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from gudgeon.written.errors import Problem
from gudgeon.written.located import Path, Written

Model = TypeVar("Model", bound=BaseModel)


def read_model(model: type[Model], written: Written) -> tuple[Model | None, list[Problem]]:
    """The file as a model, or everything that is wrong with it."""
    try:
        return model.model_validate(written.data), []
    except ValidationError as error:
        found = [_problem(detail, model, written) for detail in error.errors(include_url=False)]
        return None, in_order(found)


def in_order(problems: Iterable[Problem]) -> list[Problem]:
    """Each problem once, in the order of the file."""
    unique = dict.fromkeys(problems)
    return sorted(unique, key=lambda found: (found.place.line or 0, found.place.column or 0))


def _problem(detail: Any, model: type[BaseModel], written: Written) -> Problem:
    path = _real_path(detail, written)
    kind = detail["type"]
    if path and path[-1] == "[key]":
        path = path[:-1]
        return Problem(
            written.place(path, key=True), f"`{path[-1]}`: a key has small letters, digits and _ only."
        )
    if kind == "extra_forbidden":
        known = _known_keys(model, path[:-1])
        return Problem(written.place(path, key=True), unknown("key", value=str(path[-1]), known=known))
    place = written.place(path)
    if kind == "missing":
        return Problem(place, f"`{path[-1]}` is missing here. Write it with its value.")
    name = next((step for step in reversed(path) if isinstance(step, str)), "")
    return Problem(place, f"{name}: {_words(kind, detail)}" if name else _words(kind, detail))


def _real_path(detail: Any, written: Written) -> Path:
    """The path in the file: what pydantic adds to name the shape of a value is left out."""
    path: Path = ()
    *inner, last = detail["loc"] or ("",)
    for step in inner:
        if (*path, step) in written.values:
            path = (*path, step)
    known = (*path, last) in written.values or (*path, last) in written.keys
    return (
        (*path, last)
        if known or detail["type"] in ("missing", "extra_forbidden") or last == "[key]"
        else path
    )


def _words(kind: str, detail: Any) -> str:
    if kind == "refused":
        return str(detail["ctx"]["message"])
    found = _shown(detail.get("input"))
    if kind in ("dict_type", "model_type", "model_attributes_type"):
        return f"Lines of `key: value` were expected, {found} was found."
    if kind in ("list_type", "tuple_type"):
        return f"A list was expected, like [1, 2] or lines beginning with `- `; {found} was found."
    if kind in ("literal_error", "enum"):
        return f"{found} is not one of: {detail['ctx']['expected']}."
    if kind == "union_tag_invalid":
        what = _told_by(detail)
        return unknown(
            what,
            value=str(detail["ctx"]["tag"]),
            known=re.findall(r"'([^']+)'", detail["ctx"]["expected_tags"]),
        )
    if kind == "union_tag_not_found":
        return (
            f"It does not say its {_told_by(detail)}: write `{_told_by(detail)}:` with it; {found} was found."
        )
    if kind == "too_short":
        return f"At least {detail['ctx']['min_length']} was expected, {detail['ctx']['actual_length']} was found."
    if kind in ("string_type", "string_too_short"):
        return f"Text was expected, {found} was found."
    if kind.startswith(("greater_than", "less_than")):
        return f"{found} is out of range: {detail['msg'][0].lower()}{detail['msg'][1:]}."
    return f"{found}: {detail['msg']}."


def _told_by(detail: Any) -> str:
    """The key that tells which of several models is meant: `_shape_of()` reads `shape`."""
    return str(detail["ctx"]["discriminator"]).strip("'").removesuffix("_of()").strip("_")


def _shown(value: Any) -> str:
    if value is None:
        return "nothing"
    if isinstance(value, dict):
        return "a mapping"
    if isinstance(value, list):
        return "a list"
    text = str(value)
    return f"`{text[:57]}…`" if len(text) > 60 else f"`{text}`"


def unknown(what: str, *, value: str, known: Iterable[str]) -> str:
    """The refusal of a word that is not one of the known ones, with the nearest of them."""
    names = sorted(str(name) for name in known)
    near = difflib.get_close_matches(value, names, n=1)
    hint = f"Did you mean `{near[0]}`?" if near else f"Known here: {', '.join(names) or 'none'}."
    return f"`{value}` is not a known {what} here. {hint}"


def _known_keys(model: type[BaseModel], path: Path) -> list[str]:
    """The keys that the model takes at a path; empty where the path leaves the models."""
    current: Any = model
    for step in path:
        current = _inside(current, step)
        if current is None:
            return []
    if isinstance(current, type) and issubclass(current, BaseModel):
        return [field.alias or name for name, field in current.model_fields.items()]
    return []


def _inside(current: Any, step: str | int) -> Any:
    from typing import get_args

    if isinstance(current, type) and issubclass(current, BaseModel):
        for name, field in current.model_fields.items():
            if step in (name, field.alias):
                return _first_model(field.annotation)
        return None
    arguments = [_first_model(argument) for argument in get_args(current)]
    models = [argument for argument in arguments if argument is not None]
    return models[-1] if models else None


def _first_model(annotation: Any) -> Any:
    """The model (or container of one) inside an annotation such as `X | None`."""
    from typing import get_args, get_origin

    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    if get_origin(annotation) in (dict, list, tuple):
        return annotation
    for argument in get_args(annotation):
        found = _first_model(argument)
        if found is not None:
            return found
    return None
