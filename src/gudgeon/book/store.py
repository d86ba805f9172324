"""The contract that every store keeps."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

from gudgeon.book.entries import Draft, Entry


@dataclass(frozen=True, slots=True)
class Appended:
    """An entry that is on disk; `since` lists what others wrote after the state it was based on."""

    entry: Entry
    already: bool
    since: tuple[Entry, ...]


class Store(Protocol):
    """An append-only book: nothing in it is updated or deleted."""

    def append(self, draft: Draft) -> Appended:
        """Write one entry; it is on disk when this returns. The same draft twice counts once."""

    def append_many(self, drafts: Sequence[Draft]) -> tuple[Appended, ...]:
        """Write several entries in one transaction: all of them or none."""

    def entries(self, build: str) -> tuple[Entry, ...]:
        """Every entry of a build, in order."""

    def builds(self) -> tuple[str, ...]:
        """The builds of the book, the oldest first."""

    def head(self, build: str) -> str:
        """The hash of the last entry of a build; empty before the first."""

    def put_document(self, text: str, *, kind: str) -> str:
        """Keep a text by its hash; say the hash."""

    def document(self, sha: str) -> str:
        """A text by its hash."""

    def verify(self) -> tuple[str, ...]:
        """Everything that is wrong with the chains; nothing when all is well."""

    def close(self) -> None:
        """Let go of the book."""
