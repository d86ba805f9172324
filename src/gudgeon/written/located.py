"""YAML to plain data, every scalar kept as written, with the place of every value.

Nothing is guessed: `no`, `1.10` and `0x1F` stay the text they are, and the model that
reads them says what they mean. Aliases are refused, so that a small file stays small.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path as FilePath
from typing import Any

from gudgeon.errors import Place
from gudgeon.written.errors import (
    MOST_BYTES,
    MOST_DEPTH,
    AliasRefused,
    DuplicateKey,
    FileMissing,
    FileTooLarge,
    FileUnreadable,
    NotAMapping,
    NotYaml,
    TooDeep,
)

Path = tuple[str | int, ...]


@dataclass(frozen=True, slots=True)
class Written:
    """A hand-written file: its data and where each value and key stands."""

    file: str
    text: str
    data: dict[str, Any]
    values: dict[Path, Place] = field(repr=False)
    keys: dict[Path, Place] = field(repr=False)

    def place(self, path: Path, *, key: bool = False) -> Place:
        """The place of a value (or its key); of the nearest parent when the value is missing."""
        if key and path in self.keys:
            return self.keys[path]
        while path and path not in self.values:
            path = path[:-1]
        return self.values.get(path, Place(self.file))


def read_text(path: str | FilePath, *, what: str = "") -> str:
    """The text of a file of reasonable size, or a clear refusal; `what` is the kind of file that is expected."""
    file = FilePath(path)
    try:
        size = file.stat().st_size
        if size > MOST_BYTES:
            raise FileTooLarge(str(path), size)
        return file.read_text(encoding="utf-8")
    except FileNotFoundError:
        raise FileMissing(str(path), what=what) from None
    except UnicodeDecodeError:
        raise FileUnreadable(str(path), "it is not text in UTF-8") from None
    except OSError as error:
        raise FileUnreadable(str(path), error.strerror or type(error).__name__) from None


def read_file(path: str | FilePath) -> Written:
    """Read a hand-written YAML file."""
    return read_yaml(read_text(path), file=str(path))


def read_yaml(text: str, *, file: str, what: str = "") -> Written:
    """Read YAML text; `file` is the name that messages carry, `what` the kind of file that is expected."""
    builder = _built_fast(text, file) or _built(text, file)
    if not isinstance(builder.root, dict):
        root = builder.root
        found = "a list" if isinstance(root, list) else "an empty file" if root is None else "a single value"
        raise NotAMapping(found, place=Place(file, 1, 1), what=what)
    return Written(file, text, builder.root, builder.values, builder.keys)


def _built_fast(text: str, file: str) -> "_Builder | None":
    """By the parser in C, some twenty times as fast; nothing where it refuses, or is not there.

    Of tabs it takes more than the other one, which writes figures into the file and would then stumble.
    """
    import yaml

    builder = _Builder(file)
    if "\t" in text or not yaml.__with_libyaml__:
        return None
    try:
        builder.take(yaml.parse(text, Loader=yaml.CSafeLoader))
    except yaml.YAMLError:
        return None
    return builder


def _built(text: str, file: str) -> "_Builder":
    """By the parser of YAML 1.2, which says where and why it cannot go on."""
    from ruamel.yaml import YAML
    from ruamel.yaml.error import MarkedYAMLError, YAMLError

    builder = _Builder(file)
    try:
        builder.take(YAML(typ="safe", pure=True).parse(text))
    except MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        place = Place(file, mark.line + 1, mark.column + 1) if mark else Place(file)
        raise NotYaml((error.problem or error.context or "cannot be read").rstrip("."), place=place) from None
    except YAMLError as error:
        raise NotYaml(str(error).splitlines()[0].rstrip("."), place=Place(file)) from None
    return builder


class _Builder:
    """Builds the data from parser events, one open collection on the stack at a time."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.root: Any = None
        self.values: dict[Path, Place] = {}
        self.keys: dict[Path, Place] = {}
        self.stack: list[tuple[Any, Path]] = []
        self.key: str | None = None
        self.documents = 0

    def take(self, events: Iterable[Any]) -> None:
        """One event after the other: what is refused is refused at once, however long the file is."""
        for event in events:
            self._take(event)

    def _place(self, event: Any) -> Place:
        return Place(self.file, event.start_mark.line + 1, event.start_mark.column + 1)

    def _take(self, event: Any) -> None:
        name = type(event).__name__
        if name == "DocumentStartEvent":
            self.documents += 1
            if self.documents > 1:
                raise NotYaml("a second document begins here", place=self._place(event))
        elif name == "AliasEvent":
            raise AliasRefused("The alias", place=self._place(event))
        elif name in ("ScalarEvent", "MappingStartEvent", "SequenceStartEvent"):
            if event.anchor is not None:
                raise AliasRefused("The anchor", place=self._place(event))
            if name == "ScalarEvent":
                self._scalar(event)
            else:
                self._open({} if name == "MappingStartEvent" else [], event)
        elif name in ("MappingEndEvent", "SequenceEndEvent"):
            self.stack.pop()

    def _scalar(self, event: Any) -> None:
        if self.stack and isinstance(self.stack[-1][0], dict) and self.key is None:
            self._new_key(event)
            return
        plain = event.style in (None, "")
        self._put(None if plain and event.value in ("", "~", "null") else event.value, event)

    def _new_key(self, event: Any) -> None:
        holder, path = self.stack[-1]
        key = event.value
        if key in holder:
            raise DuplicateKey(key, self.keys[(*path, key)], place=self._place(event))
        self.keys[(*path, key)] = self._place(event)
        self.key = key

    def _open(self, holder: Any, event: Any) -> None:
        if len(self.stack) >= MOST_DEPTH:
            raise TooDeep(place=self._place(event))
        if self.stack and isinstance(self.stack[-1][0], dict) and self.key is None:
            raise NotYaml("a key must be plain text", place=self._place(event))
        self.stack.append((holder, self._put(holder, event)))

    def _put(self, value: Any, event: Any) -> Path:
        """Store a value under the open key or at the end of the open list; say its path."""
        path: Path = ()
        if not self.stack:
            self.root = value
        else:
            holder, parent = self.stack[-1]
            if isinstance(holder, list):
                path = (*parent, len(holder))
                holder.append(value)
            else:
                assert self.key is not None
                path = (*parent, self.key)
                holder[self.key] = value
                self.key = None
        # An empty value has no place of its own: the parser stands on the line after it.
        self.values[path] = self.keys[path] if value is None and path in self.keys else self._place(event)
        return path
