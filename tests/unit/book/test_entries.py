"""Entries as they are read: each from its own text, and nothing in between."""

import json
from collections.abc import Callable
from dataclasses import FrozenInstanceError

import pytest

from gudgeon.book.entries import Entry, entries_from_rows, entry_from_text, entry_to_dict
from tests.unit.book.chains import begun


def texts() -> list[str]:
    """The texts of three entries, as they are hashed."""
    chain = begun()
    for said in ("cold", "warm"):
        chain.add("note", text=said)
    plain = [entry_to_dict(one) for one in chain.entries[:3]]
    return [json.dumps({name: one[name] for name in one if name != "hash"}) for one in plain]


def test_many_are_read_as_each_by_itself() -> None:
    rows = [(text, str(place)) for place, text in enumerate(texts())]
    assert entries_from_rows(rows) == [entry_from_text(text, digest=digest) for text, digest in rows]
    assert [one.hash for one in entries_from_rows(rows)] == ["0", "1", "2"]


def test_what_was_read_is_as_fixed_as_what_was_made() -> None:
    read = entry_from_text(texts()[1], digest="a")
    made = Entry(**json.loads(texts()[1]), hash="a")
    assert (read, hash(read.id), repr(read)) == (made, hash(made.id), repr(made))
    with pytest.raises(FrozenInstanceError):
        read.kind = "strike"  # type: ignore[misc]


@pytest.mark.parametrize("added", [{"hash": "b"}, {"more": 1}])
def test_a_field_too_many_is_no_entry(added: dict[str, object]) -> None:
    text = json.dumps({**json.loads(texts()[0]), **added})
    with pytest.raises(TypeError, match=r"^an entry has the fields "):
        entry_from_text(text, digest="a")
    with pytest.raises(TypeError, match=r"^an entry has the fields "):
        entries_from_rows([(text, "a")])


@pytest.mark.parametrize(
    "cut",
    [
        lambda one, two: (f"{one},{two}", ""),
        lambda one, two: (one[:-1], two[1:]),
        lambda one, two: (f"{one},{two}", two),
        lambda one, two: (one[:-1], f'{two[1:-1]},"body":{{}}}},{two}'),
    ],
)
def test_texts_that_run_into_each_other_are_no_entries(
    cut: Callable[[str, str], tuple[str, str]],
) -> None:
    one, two = texts()[:2]
    with pytest.raises((ValueError, TypeError)):
        entries_from_rows([(text, "a") for text in cut(one, two)])
