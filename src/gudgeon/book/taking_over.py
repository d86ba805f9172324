"""Taking over whole chains as they stand: what every store does, whatever it is kept in."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Protocol

from gudgeon.book.canonical import sha256
from gudgeon.book.chain import broken
from gudgeon.book.copy_errors import ChainsNotInOrder, ChainsPart, EntryInOtherBuild
from gudgeon.book.errors import NO_TEXT
from gudgeon.book.store import Chain, Document, Problem, Row, TakenOver


class Taking(Protocol):
    """What taking over needs of a store, inside one writing transaction."""

    def chain(self, build: str) -> tuple[Row, ...]:
        """The rows of a build, in order."""

    def builds_of(self, ids: Sequence[str]) -> Mapping[str, str]:
        """Those of the ids that are in the book already, each with its build."""

    def keep(self, document: Document) -> None:
        """Keep a text, unless it is there."""

    def insert_rows(self, build: str, *, rows: Sequence[Row]) -> None:
        """Write entries exactly as they stand."""


def refuse_broken(chains: Sequence[Chain], *, documents: Sequence[Document]) -> None:
    """Refuse chains that are not in order, before anything is written."""
    found = list(not_in_order(chains, documents=documents))
    if found:
        raise ChainsNotInOrder(found)


def not_in_order(chains: Sequence[Chain], *, documents: Sequence[Document]) -> Iterator[Problem]:
    """What is wrong with chains that come from elsewhere, and with the texts they were made against."""
    for one in documents:
        if sha256(one.text) != one.sha:
            yield Problem(f"pinned text {one.sha[:8]}", "it does not match its hash")
        if "\0" in one.text:
            yield Problem(f"pinned text {one.sha[:8]}", NO_TEXT)
    shas = {one.sha for one in documents}
    where: dict[str, str] = {}
    for chain in chains:
        if not chain.rows:
            yield Problem(f"build {chain.build}", "it has no entries")
        yield from broken(chain.build, chain.rows, documents=shas)
        for number, entry_id, _, _ in chain.rows:
            other = where.setdefault(entry_id, chain.build)
            if other != chain.build:
                yield Problem(
                    f"build {chain.build}, entry {number} ({entry_id[:8]})",
                    f"its id is one of the build {other}",
                )


def take(rows: Taking, chains: Sequence[Chain], documents: Sequence[Document]) -> tuple[TakenOver, ...]:
    """Take over chains that are in order; within a transaction, so that a refusal leaves nothing."""
    for one in documents:
        rows.keep(one)
    return tuple(_take_one(rows, chain) for chain in chains)


def _take_one(rows: Taking, chain: Chain) -> TakenOver:
    there = rows.chain(chain.build)
    common = min(len(there), len(chain.rows))
    if there[:common] != chain.rows[:common]:
        parted = next(at for at in range(common) if there[at] != chain.rows[at])
        raise ChainsPart(chain.build, parted + 1, there=len(there), come=len(chain.rows))
    new = chain.rows[common:]
    for entry_id, build in rows.builds_of([row[1] for row in new]).items():
        raise EntryInOtherBuild(entry_id, build=build, come=chain.build)
    rows.insert_rows(chain.build, rows=new)
    head = new[-1][3] if new else there[-1][3]
    return TakenOver(chain.build, len(chain.rows), len(new), len(there) - common, head)
