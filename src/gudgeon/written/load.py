"""From text to a checked model: the way that every hand-written file is read."""

import hashlib
from collections.abc import Callable, Iterable
from typing import TypeVar

from pydantic import BaseModel

from gudgeon.written.check import in_order, read_model
from gudgeon.written.errors import BLANKS, FileRefused, OtherFile, Problem
from gudgeon.written.located import Written, read_yaml

Model = TypeVar("Model", bound=BaseModel)


def parse(
    model: type[Model],
    text: str,
    *,
    file: str,
    what: str,
    problems: Callable[[Model, Written], Iterable[Problem]] = lambda model, written: (),
) -> tuple[Model, Written, str]:
    """The model, where its values stand, and the hash that pins the text; else every problem found."""
    written = read_yaml(text, file=file, what=what)
    _of_its_kind(written, what)
    read, found = read_model(model, written)
    if read is not None:
        found = in_order(problems(read, written))
    if read is None or found:
        raise FileRefused(what, found)
    return read, written, hashlib.sha256(text.encode()).hexdigest()


def _of_its_kind(written: Written, what: str) -> None:
    """A file that says it is of another kind is told in one line, not key by key."""
    said = written.data.get("gudgeon") if isinstance(written.data, dict) else None
    other = next((kind for kind in BLANKS if isinstance(said, str) and said.startswith(f"{kind} ")), "")
    if said is not None and other and what in BLANKS and other != what:
        raise OtherFile(other, wanted=what, written=str(said), place=written.place(("gudgeon",)))
