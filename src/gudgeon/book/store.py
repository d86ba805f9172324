"""The contract that every store keeps; one suite of tests runs on all of them."""

from collections.abc import Iterable, Sequence
from contextlib import AbstractContextManager
from dataclasses import dataclass
from types import TracebackType
from typing import Literal, Protocol, Self

from gudgeon.book.canonical import sha256
from gudgeon.book.entries import Draft, Entry
from gudgeon.book.errors import NO_TEXT, DocumentRefused

DocumentKind = Literal["sheet", "kit"]
Row = tuple[int, str, str, str]
"""Number, id, text and hash of an entry, as they stand in a store."""


@dataclass(frozen=True, slots=True)
class Document:
    """A text that is pinned in a book by its hash."""

    sha: str
    kind: DocumentKind
    text: str


@dataclass(frozen=True, slots=True)
class Chain:
    """The whole chain of one build, exactly as it stands: the texts that were hashed, and their hashes."""

    build: str
    rows: tuple[Row, ...]

    @property
    def head(self) -> str:
        """The hash of the last entry."""
        return self.rows[-1][3] if self.rows else ""


@dataclass(frozen=True, slots=True)
class TakenOver:
    """A chain that is in the book now: how many of its entries were new there, how many more the book has."""

    build: str
    entries: int
    added: int
    ahead: int
    head: str


@dataclass(frozen=True, slots=True)
class Appended:
    """An entry that is on disk.

    `already` says that it was there before. `stale` says that its sender had not seen the head of the
    chain; `since` lists what had been written in between (nothing when its basis is not in the chain).
    """

    entry: Entry
    already: bool
    stale: bool = False
    since: tuple[Entry, ...] = ()


@dataclass(frozen=True, slots=True)
class Problem:
    """Something in a book that is not as it was written."""

    where: str
    what: str

    def __str__(self) -> str:
        return f"{self.where}: {self.what}"


def pinned(text: str, *, kind: DocumentKind) -> str:
    """The hash by which a text is pinned; refuses one that not every store can keep as it is."""
    if "\0" in text:
        raise DocumentRefused(kind, NO_TEXT)
    try:
        return sha256(text)
    except UnicodeEncodeError:
        raise DocumentRefused(kind, "it is not readable text") from None


class Store(Protocol):
    """An append-only book: nothing in it is updated or deleted."""

    def append(self, draft: Draft) -> Appended:
        """Write one entry; it is on disk when this returns. The same draft twice counts once."""

    def append_many(self, drafts: Iterable[Draft]) -> tuple[Appended, ...]:
        """Write several entries of one sender in one transaction: all of them or none.

        Each stands on the one before it, so only the basis of the first says what its sender had seen.
        """

    def entries(self, build: str) -> tuple[Entry, ...]:
        """Every entry of a build, in order."""

    def entries_after(self, build: str, number: int) -> tuple[Entry, ...]:
        """The entries of a build with greater numbers, in order."""

    def builds(self) -> tuple[str, ...]:
        """The builds of the book, the oldest first."""

    def head(self, build: str) -> str:
        """The hash of the last entry of a build; empty before the first."""

    def put_document(self, text: str, *, kind: DocumentKind) -> str:
        """Keep a text by its hash; say the hash."""

    def document(self, sha: str) -> str:
        """A text by its hash."""

    def at_one_moment(self) -> AbstractContextManager[None]:
        """What is read in the block is of one moment, whatever others write meanwhile."""

    def chain(self, build: str) -> Chain:
        """The chain of a build as it stands, whether it is in order or not."""

    def documents(self) -> tuple[Document, ...]:
        """Every pinned text, in the order of the hashes."""

    def take_over(self, chains: Sequence[Chain], *, documents: Sequence[Document]) -> tuple[TakenOver, ...]:
        """Take whole chains as they stand, with the texts they were made against: all of them or none.

        A chain of which the book has the beginning is continued; one that the book has whole is there already.
        One that parts from the book's own, or that is not in order, is refused.
        """

    def verify(self) -> tuple[Problem, ...]:
        """Everything that is not as it was written; nothing when all is well.

        A chain cannot show that its tail was cut off: for that its head is compared with a printed one.
        """

    def close(self) -> None:
        """Let go of the book."""

    def __enter__(self) -> Self:
        """The store itself, closed at the end of the block."""

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Let go of the book."""
