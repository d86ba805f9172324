"""Adding to a chain, and checking one: what every store does, whatever it is kept in."""

from collections.abc import Container, Iterator, Mapping, Sequence
from typing import Any, Protocol

from gudgeon.book.bodies import header_problems, problems
from gudgeon.book.canonical import canonical, parsed, sha256
from gudgeon.book.entries import Entry, entry_from_text
from gudgeon.book.errors import BuildBegunTwice, BuildNotBegun, SameIdOtherContent, StrikeRefused
from gudgeon.book.store import Appended, Problem, Row

FIRST = "build-opened"
NEVER_STRUCK = {"strike": "a strike is not struck", FIRST: "it begins the build"}


class Rows(Protocol):
    """What adding needs of a store, inside one writing transaction."""

    def find(self, entry_id: str) -> Entry | None:
        """The entry with this id, in whichever build."""

    def last(self, build: str) -> tuple[int, str]:
        """Number and hash of the last entry of a build; 0 and nothing before the first."""

    def number(self, build: str, *, digest: str) -> int | None:
        """The number of the entry of a build that has this hash."""

    def between(self, build: str, *, after: int, before: int) -> tuple[Entry, ...]:
        """The entries with numbers between two others."""

    def insert(self, entry: Entry, *, text: str) -> None:
        """Write one entry, and the text that its hash was taken of."""


def add(rows: Rows, sent: Mapping[str, Any], *, server_time: str) -> Appended:
    """Put one validated draft at the end of its chain, unless it stands in the book already."""
    known = rows.find(sent["id"])
    if known is not None:
        _same(known, sent)
        return _appended(rows, known, already=True)
    number, prev = rows.last(sent["build"])
    _may_follow(rows, sent, number=number)
    text = canonical({**sent, "number": number + 1, "prev": prev, "server_time": server_time})
    entry = entry_from_text(text, digest=sha256(text))
    rows.insert(entry, text=text)
    return _appended(rows, entry, already=False)


def _same(known: Entry, sent: Mapping[str, Any]) -> None:
    """One id is one fact; what the sender had seen when it sent it again is no part of the fact."""
    if any(getattr(known, name) != value for name, value in sent.items() if name != "basis"):
        raise SameIdOtherContent(known.id)


def _may_follow(rows: Rows, sent: Mapping[str, Any], *, number: int) -> None:
    if (number == 0) != (sent["kind"] == FIRST):
        raise (BuildNotBegun if number == 0 else BuildBegunTwice)(sent["build"])
    if sent["kind"] == "strike":
        target = rows.find(sent["body"]["entry"])
        if target is None or target.build != sent["build"]:
            raise StrikeRefused(sent["body"]["entry"], "it is not in this build")
        if target.kind in NEVER_STRUCK:
            raise StrikeRefused(target.id, NEVER_STRUCK[target.kind])


def _appended(rows: Rows, entry: Entry, *, already: bool) -> Appended:
    """Tell the sender what it had not seen; who names no basis had not looked, and is told nothing."""
    if not entry.basis or entry.basis == entry.prev:
        return Appended(entry, already)
    seen = rows.number(entry.build, digest=entry.basis)
    since = () if seen is None else rows.between(entry.build, after=seen, before=entry.number)
    return Appended(entry, already, True, since)


_UNREADABLE = "its text cannot be read as an entry"


def broken(build: str, rows: Sequence[Row], *, documents: Container[str]) -> Iterator[Problem]:
    """What is wrong with the chain of one build; after a break it is looked at from there on."""
    expected, prev = 1, ""
    kinds: dict[str, str] = {}
    for number, entry_id, text, digest in rows:
        where = f"build {build}, entry {number} ({entry_id[:8]})"
        if number != expected:
            missing = str(expected) if number == expected + 1 else f"{expected} to {number - 1}"
            yield Problem(where, f"entry {missing} before it is missing")
        try:
            content, spelled = parsed(text)
        except (ValueError, RecursionError):
            content, spelled = None, ""
        wrong = [
            *_wrong_chain(content, (build, number, entry_id), prev=prev),
            *_wrong_body(content, kinds, documents),
        ]
        if content is not None and spelled != text:
            wrong.insert(0, "its text is not in canonical form")
        if sha256(text) != digest:
            wrong.insert(0, "its content does not match its hash")
        for what in dict.fromkeys(wrong):
            yield Problem(where, what)
        expected, prev = number + 1, digest


def _wrong_chain(content: Any, place: tuple[str, int, str], *, prev: str) -> Iterator[str]:
    try:
        if (content["build"], content["number"], content["id"]) != place:
            yield "it stands in another place than it says"
        if content["prev"] != prev:
            yield "it is not chained to the entry before it"
    except (TypeError, KeyError):
        yield _UNREADABLE


def _wrong_body(content: Any, kinds: dict[str, str], documents: Container[str]) -> Iterator[str]:
    """A chain may hold and still say what nobody could have recorded."""
    try:
        entry = Entry(**content, hash="")
    except TypeError:
        yield _UNREADABLE
        return
    around = header_problems(entry)
    if around:
        yield from around
        return
    yield from problems(kind=entry.kind, version=entry.version, body=entry.body)
    if (not kinds) != (entry.kind == FIRST):
        yield "a build begins with `build-opened`, once"
    if entry.kind == "strike":
        struck = kinds.get(str(entry.body.get("entry", "")))
        if struck is None or struck in NEVER_STRUCK:
            yield NEVER_STRUCK.get(struck or "", "it strikes an entry that is not before it")
    for name, sha in (("data sheet", entry.sheet), ("kit", entry.kit)):
        if sha and sha not in documents:
            yield f"the {name} it was made against is not in the book"
    kinds[entry.id] = entry.kind
