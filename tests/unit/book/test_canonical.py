"""Canonical JSON and its hash."""

from typing import Any

import pytest

from gudgeon.book.canonical import canonical, sha256


def test_keys_are_sorted_by_code_point_and_nothing_is_escaped_without_need() -> None:
    value = {"b": [1, None, True], "a": {"µ": "45°", "Z": 'say "tight"', "é": "\n"}}
    assert canonical(value) == '{"a":{"Z":"say \\"tight\\"","µ":"45°","é":"\\n"},"b":[1,null,true]}'


def test_the_hash_of_the_standard() -> None:
    """MEMORY: SHA-256 of "abc", the first example to FIPS 180-4."""
    assert sha256("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"


@pytest.mark.parametrize(
    "value", [{"a": 0.5}, {"a": [1, float("nan")]}, {"a": {"b": 1e3}}, {"a": b"x"}, {1: "a"}]
)
def test_what_has_no_one_spelling_is_refused(value: Any) -> None:
    with pytest.raises(TypeError):
        canonical(value)
