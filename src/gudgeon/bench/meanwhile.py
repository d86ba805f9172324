"""What others wrote since somebody last looked at the book: who, with which device, and what."""

from collections.abc import Sequence
from dataclasses import dataclass

from gudgeon.bench.context import Bench, entries_of
from gudgeon.bench.entries import brief, entry_words, item_names
from gudgeon.book.entries import Entry


@dataclass(frozen=True, slots=True)
class Written:
    """One entry as it is told to somebody who had not seen it."""

    entry: str
    who: str
    device: str
    words: str


def written_after(bench: Bench, head: str, *, most: int) -> tuple[int, tuple[Written, ...]] | None:
    """How many entries follow a head, and the last of them; nothing where the head is not in this chain."""
    entries = entries_of(bench)
    at = next((place for place, one in enumerate(entries) if one.hash == head), None)
    if at is None:
        return None
    later, names = entries[at + 1 :], item_names(entries)
    told = (
        Written(one.id, one.who, one.device, entry_words(bench, one, names=names))
        for one in (later[-most:] if most else ())
    )
    return len(later), tuple(told)


def remarks_on_others(bench: Bench, entry: Entry, since: Sequence[Entry]) -> list[str]:
    """What was written while its sender did not look; the device is named where it is another one."""
    return [
        f"Meanwhile {_hand(one, entry)} recorded {_told(bench, one)}. Look whether both are true."
        for one in since
    ]


def _told(bench: Bench, one: Entry) -> str:
    """Its words; of long ones the begin, and where the whole of it stands."""
    words = entry_words(bench, one)
    short = brief(words)
    return words if short == words else f"{short} (whole: entry {one.number} of “What was done?”)"


def _hand(one: Entry, than: Entry) -> str:
    return one.who if one.device == than.device else f"{one.who} ({one.device})"
