"""The contract of a store: what is written stays, once, in order, chained."""

import hashlib
import json
from dataclasses import replace
from typing import Any

import pytest

from gudgeon.book.entries import Draft, Entry, entry_to_dict
from gudgeon.book.errors import (
    BodyRefused,
    BuildBegunTwice,
    BuildNotBegun,
    DocumentMissing,
    DocumentRefused,
    SameIdOtherContent,
    StrikeRefused,
    UnknownKind,
)
from gudgeon.book.store import Store
from tests.contract.stores import NOW, Shelf, draft, pull


def hash_by_hand(entry: Entry) -> str:
    """SHA-256 over all fields but the hash, as JSON with sorted keys and no spaces (HAND: the rule itself)."""
    rest = {key: value for key, value in entry_to_dict(entry).items() if key != "hash"}
    text = json.dumps(rest, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(text.encode("utf-8")).hexdigest()


def test_what_is_appended_is_read_back_by_whoever_opens_the_book(shelf: Shelf, store: Store) -> None:
    sent = draft("reading", item="bore", place="1 top", value="81.50", unit="mm", condition="as found")
    done = store.append(sent)
    assert (done.already, done.stale, done.since) == (False, False, ())
    with shelf.open() as other:
        entry = other.entries("van")[-1]
    assert entry == done.entry
    assert (entry.id, entry.kind, entry.version, entry.number) == (sent.id, "reading", 2, 2)
    assert (entry.who, entry.device, entry.device_time) == ("Ada", "bench", NOW.isoformat())
    assert entry.server_time == "2026-03-07T10:00:00.000+00:00"
    assert entry.body == {
        "item": "bore", "place": "1 top", "value": "81.50", "low": None, "high": None, "unit": "mm",
        "instrument": "", "condition": "as found", "shown": {}, "note": "", "repeats": [], "part_temperature": None,
        "gauge_temperature": None, "temperature_unit": None, "gauge_as_part": False,
    }  # fmt: skip


def test_each_entry_is_chained_to_the_one_before(store: Store) -> None:
    for bolt in ("1", "2", "3 µ–"):
        store.append(pull(1, bolt))
    entries = store.entries("van")
    assert [entry.number for entry in entries] == [1, 2, 3, 4]
    assert [entry.prev for entry in entries] == ["", *(entry.hash for entry in entries[:-1])]
    assert [entry.hash for entry in entries] == [hash_by_hand(entry) for entry in entries]
    assert store.head("van") == entries[-1].hash


def test_an_entry_is_plain_data(store: Store) -> None:
    entry = store.append(pull(1, "1")).entry
    assert Entry(**json.loads(json.dumps(entry_to_dict(entry)))) == entry


def test_builds_have_chains_of_their_own(store: Store) -> None:
    store.append(draft("build-opened", build="boat"))
    store.append(draft(build="van"))
    store.append(draft(build="boat"))
    assert store.builds() == ("van", "boat")
    assert [entry.number for entry in store.entries("boat")] == [1, 2]
    assert {entry.build for entry in store.entries("van")} == {"van"}
    assert store.head("van") != store.head("boat")
    assert (store.entries("plane"), store.head("plane")) == ((), "")


def test_sent_twice_counts_once(store: Store) -> None:
    sent = draft(text="cold")
    first = store.append(sent)
    store.append(draft(text="warm"))
    again = store.append(sent)
    assert (again.already, again.entry) == (True, first.entry)
    assert len(store.entries("van")) == 3
    # Whoever sends it again may have looked again in between: the fact is the same.
    assert store.append(replace(sent, basis=store.head("van"))).already


@pytest.mark.parametrize(
    "change", [{"body": {"text": "warm"}}, {"who": "Bo"}, {"device_time": "2026-03-07T11:00:00+00:00"}, {"build": "boat"}]
)  # fmt: skip
def test_one_id_with_other_content_is_refused(store: Store, change: dict[str, Any]) -> None:
    store.append(draft("build-opened", build="boat"))
    sent = draft(text="cold")
    store.append(sent)
    with pytest.raises(SameIdOtherContent) as refused:
        store.append(replace(sent, **change))
    assert str(refused.value) == (
        f"The entry {sent.id[:8]} is in the book already with other content. Nothing was recorded; use a new id."
    )
    assert len(store.entries("van")) == 2


def test_the_sender_is_told_what_it_had_not_seen(store: Store) -> None:
    seen = store.head("van")
    first = store.append(pull(1, "1", basis=seen)).entry
    second = store.append(pull(1, "2", basis=first.hash)).entry
    late = store.append(pull(1, "3", basis=seen))
    assert (late.stale, late.since) == (True, (first, second))
    assert store.entries("van")[-1] == late.entry


def test_the_sender_is_told_again_when_it_sends_again(store: Store) -> None:
    seen = store.head("van")
    other = store.append(pull(1, "1")).entry
    sent = pull(1, "2", basis=seen)
    store.append(sent)
    store.append(draft())
    again = store.append(sent)
    assert (again.already, again.stale, again.since) == (True, True, (other,))


def test_a_sender_that_saw_another_chain_is_stale(store: Store) -> None:
    late = store.append(pull(1, "1", basis="a" * 64))
    assert (late.stale, late.since) == (True, ())


def test_many_are_written_together_or_not_at_all(store: Store) -> None:
    done = store.append_many([draft(text="one"), draft(text="two")])
    assert [one.entry.body["text"] for one in done] == ["one", "two"]
    assert [entry.number for entry in store.entries("van")] == [1, 2, 3]
    with pytest.raises(BodyRefused):
        store.append_many([draft(text="three"), draft(text="  ")])
    with pytest.raises(BuildNotBegun):
        store.append_many([draft(text="three"), draft(build="plane")])
    assert len(store.entries("van")) == 3
    assert store.append_many([]) == ()


def test_a_build_begins_with_its_opening_once(store: Store) -> None:
    with pytest.raises(BuildNotBegun) as not_begun:
        store.append(draft(build="plane"))
    assert str(not_begun.value) == (
        "The build `plane` is not in this book. Nothing was recorded; begin it with `gudgeon begin`."
    )
    with pytest.raises(BuildBegunTwice) as twice:
        store.append(draft("build-opened"))
    assert str(twice.value) == (
        "The build `van` is in this book already. Nothing was recorded; choose another name."
    )
    assert store.builds() == ("van",)


def test_what_is_no_entry_is_refused(store: Store) -> None:
    with pytest.raises(UnknownKind):
        store.append(draft("hunch", name="x"))
    with pytest.raises(BodyRefused):
        store.append(draft("note", text="cold", size=1.5))
    assert len(store.entries("van")) == 1


def test_strikes_that_are_refused(store: Store) -> None:
    first = store.entries("van")[0]
    store.append(draft("build-opened", build="boat"))
    elsewhere = store.append(draft(build="boat")).entry
    wrong = store.append(draft()).entry
    strike = store.append(draft("strike", entry=wrong.id, why="not so")).entry
    causes = {
        first.id: "it begins the build",
        strike.id: "a strike is not struck",
        elsewhere.id: "it is not in this build",
        "f" * 32: "it is not in this build",
    }
    for target, cause in causes.items():
        with pytest.raises(StrikeRefused) as refused:
            store.append(draft("strike", entry=target, why="not so"))
        assert str(refused.value) == (
            f"The entry {target[:8]} cannot be struck: {cause}. Write the fact again as a new entry instead."
        )
    # Two people may strike the same entry; both reasons are kept.
    assert not store.append(draft("strike", entry=wrong.id, why="not so, I saw it")).already


def test_documents_are_kept_by_their_hash(shelf: Shelf, store: Store) -> None:
    text = "gudgeon: kit 1\n# µm, ±\r\n"
    sha = store.put_document(text, kind="kit")
    assert sha == hashlib.sha256(text.encode("utf-8")).hexdigest()
    assert store.put_document(text, kind="kit") == sha
    with shelf.open() as other:
        assert other.document(sha) == text
    with pytest.raises(DocumentMissing):
        store.document("a" * 64)


NUL = "it holds NUL, a sign that no text holds"


@pytest.mark.parametrize(
    ("sent", "where"),
    [
        (draft("note", text="cold\0er"), "text"),
        (draft("note", text="cold", build="va\0n"), "build"),
        (replace(draft(), who="A\0da"), "who"),
        (draft("reading", item="bore", place="1 top", value="81.50", unit="mm", condition="as found", shown={"target": "8\0"}), "shown"),
        (draft("reading", item="bore", place="1 top", value="81.50", unit="mm", condition="as found", shown={"\0": "8"}), "shown"),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)  # fmt: skip
def test_a_text_that_not_every_store_can_keep_is_refused_by_all(
    store: Store, sent: Draft, where: str
) -> None:
    with pytest.raises(BodyRefused) as refused:
        store.append(sent)
    assert str(refused.value) == (f"This {sent.kind} is not complete: {where}: {NUL}. Nothing was recorded.")
    assert len(store.entries("van")) == 1


@pytest.mark.parametrize(("text", "why"), [("kit\0", NUL), ("kit \ud800", "it is not readable text")])
def test_a_document_that_not_every_store_can_keep_is_refused_by_all(
    store: Store, text: str, why: str
) -> None:
    with pytest.raises(DocumentRefused) as refused:
        store.put_document(text, kind="kit")
    assert str(refused.value) == (
        f"The text of the kit cannot be kept ({why}). Nothing was recorded; write the file anew in an editor."
    )
    assert store.documents() == ()


@pytest.mark.parametrize(
    "text", ["\u0001\u001f", "a\r\nb\tc", "e\u0301 \U0001f527 \u202e", "\ufeff%s \\ ' \""]
)
def test_every_other_sign_is_kept_as_it_was_written(shelf: Shelf, store: Store, text: str) -> None:
    sha = store.put_document(text, kind="sheet")
    sent = store.append(draft("note", text=f"x{text}x")).entry
    with shelf.open() as other:
        assert other.document(sha) == text
        assert other.entries("van")[-1] == sent
        assert other.entries("van")[-1].body["text"] == f"x{text}x"
        assert other.verify() == ()


def test_a_book_as_it_was_written_verifies(store: Store) -> None:
    sha = store.put_document("gudgeon: kit 1\n", kind="kit")
    store.append(draft("build-opened", build="boat"))
    wrong = store.append(replace(draft(), kit=sha)).entry
    store.append(draft("strike", entry=wrong.id, why="not so"))
    assert store.verify() == ()


def test_the_entries_after_a_number_are_the_rest_of_all(shelf: Shelf, store: Store) -> None:
    for bolt in ("1", "2", "3"):
        store.append(pull(1, bolt))
    entries = store.entries("van")
    with shelf.open() as other:
        for number in range(6):
            assert other.entries_after("van", number) == entries[number:]
        assert other.entries_after("boat", 0) == ()
        store.append(pull(1, "4"))
        assert [one.body["bolt"] for one in other.entries_after("van", 4)] == ["4"]
        assert other.entries("van") == store.entries("van")
