"""The archive of a book: what lies in it under which name, and how much of it is taken.

Everything in it but the photos follows from the entries and the pinned texts, so the same builds give the same bytes,
and a reader can work out again what a table or the page of words has to say.
"""

import json
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import cached_property

from gudgeon import __version__
from gudgeon.book.archive_words import page_of_words
from gudgeon.book.entries import Entry, entry_from_text
from gudgeon.book.store import Chain, Document
from gudgeon.book.tables import tables

FORMAT = 1
WORDS, ABOUT, CHECKSUMS = "README.txt", "book.json", "checksums.txt"
PHOTO_ENDINGS = {"jpeg": "jpg", "png": "png", "webp": "webp"}
_HEX = "[0-9a-f]{64}"
NAMES = re.compile(
    rf"README\.txt|book\.json|checksums\.txt|build-[1-9]\d{{0,4}}/(entries\.jsonl|tables/[a-z-]{{1,40}}\.csv)"
    rf"|(sheets|kits)/{_HEX}\.yaml|photos/{_HEX}\.(jpg|png|webp)"
)
"""The only names that lie in an archive."""

MEBIBYTE = 1024 * 1024
MOST_FILES = 100_000
MOST_IN_ALL = 16 * 1024 * MEBIBYTE
MOST_ENTRIES_BYTES = 512 * MEBIBYTE
MOST_LINE_BYTES = 8 * MEBIBYTE
MOST_TEXT_BYTES = 64 * MEBIBYTE
MOST_PHOTO_BYTES = 64 * MEBIBYTE
MOST_KEPT = 1024 * MEBIBYTE
"""How much of entries and pinned texts is held at a time."""
MOST_TIMES = 100
"""How many times larger than in the archive anything above a mebibyte may be unpacked."""
STORED_FROM = 25
"""What shrinks further than this is not packed at all when it is written, so that no copy of ours is ever refused."""

LINE_START, LINE_MIDDLE, LINE_END = b'{"entry":', b',"hash":"', b'"}'


@dataclass(frozen=True)
class Contents:
    """What an archive is made of, and what was read out of one."""

    chains: tuple[Chain, ...]
    documents: tuple[Document, ...]
    photos: tuple[str, ...]
    missing: tuple[str, ...]

    @cached_property
    def read(self) -> tuple[tuple[Entry, ...], ...]:
        """The entries of each build; only of chains that are in order."""
        return tuple(entries_of(chain) for chain in self.chains)

    def with_papers(
        self, *, documents: tuple[Document, ...], photos: tuple[str, ...], missing: tuple[str, ...]
    ) -> "Contents":
        """The same builds with their texts and photos; the entries are not read a second time."""
        made = Contents(self.chains, documents, photos, missing)
        made.__dict__["read"] = self.read
        return made

    @property
    def entries(self) -> int:
        """How many entries it holds in all."""
        return sum(len(chain.rows) for chain in self.chains)

    @property
    def heads(self) -> dict[str, str]:
        """The head of each build."""
        return {chain.build: chain.head for chain in self.chains}


def entries_of(chain: Chain) -> tuple[Entry, ...]:
    """The entries of a chain that is in order."""
    return tuple(entry_from_text(text, digest=digest) for _, _, text, digest in chain.rows)


def folder_of(number: int) -> str:
    """The folder of a build, counted from one: names of builds may hold what no name of a folder can."""
    return f"build-{number}"


def line_of(text: str, *, digest: str) -> bytes:
    """One line of `entries.jsonl`: the text exactly as it was hashed, and its hash."""
    return b"".join((LINE_START, text.encode(), LINE_MIDDLE, digest.encode(), LINE_END, b"\n"))


def named_texts(entries: Iterable[Entry]) -> dict[str, set[str]]:
    """The hashes that entries name as the sheet and as the kit they were made against."""
    found: dict[str, set[str]] = {"sheet": set(), "kit": set()}
    for entry in entries:
        for role, sha in (("sheet", entry.sheet), ("kit", entry.kit)):
            if sha:
                found[role].add(sha)
    return found


def named_photos(entries: Iterable[Entry]) -> dict[str, str]:
    """The photos that entries name: how each is called in an archive, by its hash."""
    return {
        entry.body["sha"]: f"{entry.body['sha']}.{PHOTO_ENDINGS.get(entry.body['type'], 'jpg')}"
        for entry in entries
        if entry.kind == "photo"
    }


def written_files(contents: Contents) -> Iterator[tuple[str, bytes]]:
    """Everything in the archive that follows from entries and texts: all but the photos and the checksums."""
    yield WORDS, page_of_words(contents.chains, missing=contents.missing).encode()
    yield ABOUT, about(contents)
    roles: dict[str, set[str]] = {"sheet": set(), "kit": set()}
    for number, (chain, entries) in enumerate(zip(contents.chains, contents.read, strict=True), start=1):
        for role, shas in named_texts(entries).items():
            roles[role] |= shas
        yield (
            f"{folder_of(number)}/entries.jsonl",
            b"".join(line_of(row[2], digest=row[3]) for row in chain.rows),
        )
        for name, table in tables(entries):
            yield f"{folder_of(number)}/tables/{name}.csv", table
    for one in contents.documents:
        for role, shas in roles.items():
            if one.sha in shas:
                yield f"{role}s/{one.sha}.yaml", one.text.encode()


def about(contents: Contents) -> bytes:
    """What a program has to know first."""
    said = {
        "gudgeon": "book",
        "format": FORMAT,
        "program": __version__,
        "builds": [
            {
                "folder": folder_of(number),
                "name": chain.build,
                "entries": len(chain.rows),
                "head": chain.head,
            }
            for number, chain in enumerate(contents.chains, start=1)
        ],
        "missing_photos": list(contents.missing),
    }
    return (json.dumps(said, ensure_ascii=False, indent=1) + "\n").encode()


def checksums(shas: Iterable[tuple[str, str]]) -> bytes:
    """Name and hash of every file, as `sha256sum -c` reads them."""
    return "".join(f"{sha}  {name}\n" for name, sha in sorted(shas)).encode()


def time_of(contents: Contents) -> tuple[int, int, int, int, int, int]:
    """The time that all files in the archive carry: that of the last entry, in UTC."""
    last = max(
        datetime.fromisoformat(json.loads(chain.rows[-1][2])["server_time"]).astimezone(UTC)
        for chain in contents.chains
    )
    year = min(max(last.year, 1980), 2107)  # no other years can be written in an archive
    return (year, last.month, last.day, last.hour, last.minute, last.second // 2 * 2)
