"""What a fold has said of a state, and what it does not change any more when it goes on."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import TypeVar

_Key = TypeVar("_Key")
_Value = TypeVar("_Value")


def as_it_is(known: Mapping[_Key, _Value]) -> Mapping[_Key, _Value]:
    """A mapping as it is now, that nobody changes."""
    return MappingProxyType(dict(known))
