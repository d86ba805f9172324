"""Canonical JSON and the hash of an entry: the same content always gives the same bytes."""

import hashlib
import json
from collections.abc import Mapping
from typing import Any


def canonical(value: Mapping[str, Any]) -> bytes:
    """Keys sorted, no spaces, UTF-8; numbers are whole or they are text."""
    _no_floats(value)
    return json.dumps(value, ensure_ascii=False, sort_keys=True, separators=(",", ":")).encode()


def sha256(content: bytes) -> str:
    """The hash as 64 hexadecimal digits."""
    return hashlib.sha256(content).hexdigest()


def _no_floats(value: Any) -> None:
    if isinstance(value, float):
        raise TypeError(f"a float has no place in an entry: {value!r}")
    if isinstance(value, Mapping):
        for inner in value.values():
            _no_floats(inner)
    elif isinstance(value, list | tuple):
        for inner in value:
            _no_floats(inner)
