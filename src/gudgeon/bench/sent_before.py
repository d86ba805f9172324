"""What is said of a fact that is sent again: it counts once, or something that was recorded later counts instead."""

import uuid
from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import Any

from gudgeon.bench.context import Bench, entries_of, entry_of
from gudgeon.bench.entries import entry_words
from gudgeon.book.entries import Entry
from gudgeon.book.state import State

SENT_BEFORE = "It was in the book already, and counts once."
NOT_AGAIN = "It was in the book already, and is not written again."
MOST_NAMED = 5
"""So many later entries are named one by one."""
LEFT_TO_THE_LIST: Mapping[str, tuple[str, ...]] = {
    "pull": ("bolt", "stage", "round", "tool", "setting"),
    "bolt-loosened": ("bolt", "stage", "round", "tool"),
}
"""What a sender may leave out because the list of the joint knows it."""


def ids_before(last: str, count: int) -> tuple[str, ...]:
    """The ids of the entries that are written in one go before the last one: they follow from its id."""
    return tuple(uuid.uuid5(uuid.UUID(last), str(place)).hex for place in range(count))


def sent_before(bench: Bench, state: State, *, ids: Sequence[str]) -> tuple[str, ...]:
    """The remarks on entries that are sent again, by their ids."""
    entries = {one.id: one for one in entries_of(bench)}
    sent = [entries[one] for one in ids if one in entries]
    told = (*_struck(state, sent, entries), *_replaced(bench, state, sent, entries))
    return (NOT_AGAIN, *told) if told else (SENT_BEFORE,)


def told_before(remarks: Sequence[str]) -> bool:
    """Whether these remarks were made on something that was sent again."""
    return bool(remarks) and remarks[0] in (SENT_BEFORE, NOT_AGAIN)


def as_sent_before(bench: Bench, entry: str, *, kind: str, fields: Mapping[str, Any]) -> dict[str, Any]:
    """The fields of what is sent again: what its sender leaves to the list is what it was the first time.

    The list has gone on since, so that the next pull of it is another one.
    """
    known = entry_of(bench, entry)
    if known is None or known.kind != kind or kind not in LEFT_TO_THE_LIST:
        return dict(fields)
    return {
        name: known.body.get(name) if said in (None, "") and name in LEFT_TO_THE_LIST[kind] else said
        for name, said in fields.items()
    }


def _struck(state: State, sent: Sequence[Entry], entries: Mapping[str, Entry]) -> Iterator[str]:
    struck = [one for one in sent if one.id in state.struck]
    for one in struck[:MOST_NAMED]:
        by = entries[state.struck[one.id].by].number
        yield (
            f"Entry {one.number} was struck by entry {by} and does not count. If it is right after all, record it "
            "anew; of a file, add a note or a line that begins with #."
        )
    if len(struck) > MOST_NAMED:
        yield f"{len(struck) - MOST_NAMED} more of it were struck and do not count."


def _replaced(
    bench: Bench, state: State, sent: Sequence[Entry], entries: Mapping[str, Entry]
) -> Iterator[str]:
    later = [
        (one, entries[counts])
        for one in sent
        if one.id not in state.struck and (counts := _counting(state, one)) not in ("", one.id)
    ]
    for one, now in later[:MOST_NAMED]:
        called = (
            f"entry {now.number}, from {now.body['file']},"
            if now.kind == "face-scanned"
            else f"entry {now.number} ({entry_words(bench, now)})"
        )
        yield (
            f"It no longer counts (entry {one.number}): {called} was recorded later and counts now. Strike it if it is "
            f"wrong: gudgeon strike {now.number} --why …"
        )
    if len(later) > MOST_NAMED:
        numbers = [now.number for _, now in later[MOST_NAMED:]]
        yield (
            f"{len(numbers)} more of it no longer count: entries {min(numbers)} to {max(numbers)} hold later ones "
            "(gudgeon book show)."
        )


def _counting(state: State, one: Entry) -> str:
    """The entry that counts for what an entry is about; empty where only the entry itself can."""
    body = one.body
    if one.kind == "reading":
        reading = state.readings.get((body["item"], body["place"], body["condition"]))
        return reading.entry if reading is not None else ""
    if one.kind == "face-scanned":
        scan = state.scans.get((body["item"], body["condition"]))
        return scan.entry if scan is not None else ""
    return ""


def seen_through(bench: Bench, basis: str, *, own: Collection[str]) -> str:
    """What a device had seen that wrote several entries before the book had any of them.

    Its basis is the head before the first; it knew its own ones besides, as far as nobody else wrote between them. What
    another device wrote it did not know, whatever it says: else it could keep from its hand what that was to see.
    """
    entries, device = entries_of(bench), bench.writer.device if bench.writer is not None else ""
    at = next((place for place, one in enumerate(entries) if one.hash == basis), None)
    if at is None:
        return basis
    for one in entries[at + 1 :]:
        if one.id not in own or one.device != device:
            break
        basis = one.hash
    return basis
