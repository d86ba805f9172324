"""Canonical JSON and its hash: the same content always gives the same bytes."""

import hashlib
import json
from collections.abc import Mapping
from typing import Any


def canonical(value: Mapping[str, Any]) -> str:
    """Keys sorted, no spaces; numbers are whole or they are text, because a float has no one spelling."""
    _refuse_what_has_no_one_spelling(value)
    return _spelled(value)


def parsed(text: str) -> tuple[Any, str]:
    """What a text says, and how that is spelled canonically; refused where it holds what has no one spelling."""
    value = json.loads(text, parse_float=_no_float, parse_constant=_no_float)
    return value, _spelled(value)


def _spelled(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False, sort_keys=True, separators=(",", ":"))


def _no_float(said: str) -> Any:
    raise ValueError(f"an entry holds text and whole numbers, not {said}")


def sha256(text: str) -> str:
    """The hash of a text in UTF-8 as 64 hexadecimal digits."""
    return hashlib.sha256(text.encode()).hexdigest()


def _refuse_what_has_no_one_spelling(value: Any) -> None:
    if value is None or isinstance(value, str | int):
        return
    if isinstance(value, Mapping):
        for key, inner in value.items():
            if not isinstance(key, str):
                raise TypeError(f"a key of an entry is text, not {key!r}")
            _refuse_what_has_no_one_spelling(inner)
    elif isinstance(value, list | tuple):
        for inner in value:
            _refuse_what_has_no_one_spelling(inner)
    else:
        raise TypeError(f"an entry holds text and whole numbers, not {value!r}")
