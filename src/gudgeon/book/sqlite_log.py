"""The write-ahead log beside a book: looked at before SQLite may take it over into the book.

SQLite takes whatever log lies beside a file for its own, and stops reading it at the first page that is not as it
was written. The one would put another book in the place of this one, the other would lose, without a word, entries
that had been acknowledged. The layout of the log and of its index is in SQLite's manual (“WAL-mode File Format”).
"""

import re
import struct
import sys
from collections.abc import Iterator
from dataclasses import dataclass

_HEADER, _FRAME = 32, 24
INDEX_BYTES = 48
"""How much of the index tells how far SQLite reads the log."""
_MAGIC = (0x377F0682, 0x377F0683)  # the checksums count in words of little, or of big, endian


@dataclass(frozen=True, slots=True)
class _Log:
    """A log in one piece, as it was read."""

    content: bytes
    page: int
    salts: bytes
    order: str

    @property
    def frames(self) -> int:
        return (len(self.content) - _HEADER) // (_FRAME + self.page)

    def frame(self, number: int) -> bytes:
        """A frame by its number, which counts from one."""
        start = _HEADER + (number - 1) * (_FRAME + self.page)
        return self.content[start : start + _FRAME + self.page]

    def is_ours(self, frame: bytes) -> bool:
        """Whether a frame is of this run of the log, and none that an earlier run has left behind."""
        return frame[8:16] == self.salts

    def follows(self, frame: bytes, before: bytes) -> bool:
        """Whether a frame was written after another one, and both have come through as they were."""
        seed = struct.unpack(">2I", before[16:24])
        summed = _sum(frame[:8] + frame[_FRAME:], seed, self.order)
        return summed == struct.unpack(">2I", frame[16:24])


_NAME = re.compile(rb"book:[0-9a-f]{32};")


def is_of_another(log: bytes, *, beginning: bytes) -> bool:
    """Whether a log is that of another book than the one that begins so.

    Each book has a name of its own on the page where its entries are counted, which every entry writes again. In the
    middle of a copy from the log into the book a power cut may have torn that page; then nothing can be said.
    """
    own, found = set(_NAME.findall(beginning)), set(_NAME.findall(log))
    return bool(own) and bool(found) and own.isdisjoint(found)


def what_is_wrong(log: bytes, *, index: bytes, name: str) -> str:
    """What shows that acknowledged entries in a log are out of reach; empty when nothing does.

    Of the index its beginning serves.

    The log was read before its index: what a living writer adds in between is then only in the index.
    """
    read = _read(log)
    if read is None:
        return f"the log {name} does not begin as a log does" if any(log[:_HEADER]) else ""
    end = _end(index, read)
    if end is not None and max(_acts(read, after=end), default=0) > 1:
        return f"the log {name} is broken after its page {end}, and recorded entries lie behind that"
    return ""


def _read(content: bytes) -> _Log | None:
    if len(content) < _HEADER:
        return None
    magic, _, page = struct.unpack(">3I", content[:12])
    order = ">" if magic & 1 else "<"
    summed = _sum(content[:24], (0, 0), order)
    if magic not in _MAGIC or summed != struct.unpack(">2I", content[24:32]):
        return None
    return _Log(content, page, content[16:24], order)


def _end(index: bytes, log: _Log) -> int | None:
    """The last page of the log that SQLite reads; nothing where its index speaks of another run of the log."""
    if len(index) < INDEX_BYTES or index[32:40] != log.salts:
        return None
    return int.from_bytes(index[16:20], sys.byteorder)


def _acts(log: _Log, *, after: int) -> Iterator[int]:
    """How many acts lie beyond the end in each unbroken run of pages.

    A power cut leaves one at most, which was never acknowledged: the one before it had been synced.
    """
    run, before = 0, b""
    for number in range(after + 1, log.frames + 1):
        frame = log.frame(number)
        if not log.is_ours(frame):
            break
        if before and not log.follows(frame, before):
            yield run
            run = 0
        run += frame[4:8] != b"\0\0\0\0"  # the last page of an act says how long the book is then
        before = frame
    yield run


def _sum(content: bytes, seed: tuple[int, ...], order: str) -> tuple[int, int]:
    """SQLite's checksum of a log."""
    first, second = seed
    words = struct.unpack(f"{order}{len(content) // 4}I", content)
    for one, other in zip(words[::2], words[1::2], strict=True):
        first = (first + one + second) & 0xFFFFFFFF
        second = (second + other + first) & 0xFFFFFFFF
    return first, second
