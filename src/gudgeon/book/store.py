"""The contract that every store keeps; one suite of tests runs on all of them."""

from collections.abc import Iterable
from dataclasses import dataclass
from types import TracebackType
from typing import Literal, Protocol, Self

from gudgeon.book.entries import Draft, Entry

DocumentKind = Literal["sheet", "kit"]


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

    def builds(self) -> tuple[str, ...]:
        """The builds of the book, the oldest first."""

    def head(self, build: str) -> str:
        """The hash of the last entry of a build; empty before the first."""

    def put_document(self, text: str, *, kind: DocumentKind) -> str:
        """Keep a text by its hash; say the hash."""

    def document(self, sha: str) -> str:
        """A text by its hash."""

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
