"""What is in a page and what was left out, told before it is written; and what he may let in, one by one."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from gudgeon.bench.context import Bench, entries_of
from gudgeon.bench.shared_page.choices import PLAIN, Choices
from gudgeon.bench.shared_page.deeds import NUMBERS, PLANS, PRICES, deed, own_words
from gudgeon.bench.shared_page.model import Day
from gudgeon.bench.shared_page.scope import entries_in, photo_entries, scope_said
from gudgeon.book.entries import Entry


@dataclass(frozen=True, slots=True)
class Offer:
    """Something of his own that may go in: the number of its entry, what was done, and the words, or the photo."""

    number: int
    what: str
    words: str
    sha: str = ""


def inside(days: Iterable[Day], choices: Choices) -> Iterator[str]:
    """What goes in, in a list."""
    steps = [step for day in days for step in day.steps]
    tables = sum(step.rows is not None for step in steps)
    drawings = sum(step.drawn is not None for step in steps)
    yield f"the engine as your data sheet calls it, and {_many(len(steps), 'step')} in the order in which they happened"
    if tables:
        yield f"{_many(tables, 'table')} of pulls, readings and consequences, each with its source"
    if drawings:
        yield _many(drawings, "drawing")
    yield "the numbers of the entries and the head of the chain; with them a page can be held against the book"
    for name, words in PLAIN.items():
        if getattr(choices, name):
            yield f"by your choice: {words}"
    texts = sum(len(step.words) for step in steps)
    if texts:
        yield f"by your choice: {_many(texts, 'text')} of your own"
    for photo in (step.photo for step in steps if step.photo is not None):
        pins = f" and {_many(len(photo.pins), 'pin')}" if photo.pins else ""
        yield f"by your choice: the photo of entry {photo.number} with its caption{pins}"


def left_out(
    bench: Bench,
    belonging: Sequence[Entry],
    *,
    choices: Choices,
    photos: Mapping[str, int],
) -> Iterator[str]:
    """What stays out, in a list that the page itself shows."""
    if not choices.names:
        yield "names of people, customers, shops and suppliers"
    if not choices.hours:
        yield "hours of the day" if choices.dates else "dates and hours"
    if not choices.numbers:
        yield "numbers by which the engine or the car could be known"
    if not choices.devices:
        yield "names of devices"
    if not choices.tools:
        yield "what the tools are called in this garage: they are told by kind and range"
    kinds = Counter(one.kind for one in belonging)
    prices = sum(kinds[kind] for kind in PRICES)
    if not choices.prices:
        yield f"prices and sums ({_many(prices, 'entry')})" if prices else "prices and sums"
    plans = sum(kinds[kind] for kind in PLANS)
    if plans:
        yield f"plans and promises ({_many(plans, 'entry')})"
    by_kind = PLANS if choices.prices else PLANS | PRICES
    own = sum(
        bool(own_words(one)) and one.number not in choices.notes
        for one in belonging
        if one.kind not in by_kind
    )
    if own:
        yield f"what was written freely in {_many(own, 'entry')}"
    others = {one.body["sha"] for one in photo_entries(bench, belonging)} - photos.keys()
    if others:
        yield _many(len(others), "photo")
    yield "the name of the book and where it lies"


def words_offered(bench: Bench, of: str, choices: Choices) -> tuple[Offer, ...]:
    """His own words in what is shared, each with the number that lets it in; and every plain note of the book."""
    scope, every = scope_said(bench, of), entries_of(bench)
    of_it = {one.id for one in entries_in(bench, every, scope)}
    return tuple(
        Offer(one.number, deed(bench, one), own_words(one))
        for one in every
        if (one.id in of_it or one.kind == "note") and own_words(one)
        if one.kind not in PLANS | NUMBERS and (choices.prices or one.kind not in PRICES)
    )


def photos_offered(bench: Bench, of: str) -> tuple[Offer, ...]:
    """Every photo of the build that counts, those of what is shared first."""
    scope, every = scope_said(bench, of), entries_of(bench)
    of_it = {one.body["sha"] for one in entries_in(bench, every, scope) if one.kind == "photo"}
    found = [
        Offer(one.number, one.body["caption"], "; ".join(_pin_words(one)), one.body["sha"])
        for one in photo_entries(bench, every)
    ]
    return tuple(sorted(found, key=lambda one: (one.sha not in of_it, one.number)))


def _pin_words(one: Entry) -> Iterator[str]:
    for pin in one.body["pins"]:
        yield f"{pin['number']}: {pin['text']}"


def _many(count: int, what: str) -> str:
    if count == 1:
        return f"1 {what}"
    return f"{count} {what.removesuffix('y')}ies" if what.endswith("y") else f"{count} {what}s"
