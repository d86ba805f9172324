"""A disk that keeps only what was synced: files and folders as they would be found after the power was cut.

It takes the calls of a program in their order. A write, a new length, a new name are pending until the file, or the
folder for a name, is synced. A cut keeps what was synced and, of what is pending, whatever the disk happened to
write: nothing, everything, or by chance, each half kilobyte for itself.
"""

import random
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

SECTOR = 512
Keeps = Callable[[], bool]


@dataclass
class Stored:
    """A file or a folder: what is on the disk, and what was done to it since it was last synced."""

    content: bytearray = field(default_factory=bytearray)
    pending: list[tuple[int, bytes | None]] = field(default_factory=list)
    is_folder: bool = False

    def sync(self) -> None:
        self.content = after(self.content, self.pending)
        self.pending = []


def after(
    content: bytearray, pending: list[tuple[int, bytes | None]], keeps: Keeps = lambda: True
) -> bytearray:
    """The content with what the disk kept of the pending calls; a call without bytes is a new length."""
    found = bytearray(content)
    for at, written in pending:
        if written is None:
            if keeps():
                found = found[:at].ljust(at, b"\0")
            continue
        for start, piece in sectors(at, written):
            if keeps():
                found = found.ljust(start + len(piece), b"\0")
                found[start : start + len(piece)] = piece
    return found


def sectors(at: int, written: bytes) -> Iterator[tuple[int, bytes]]:
    """A write in the pieces that a disk writes whole."""
    start = at
    while start < at + len(written):
        end = min((start // SECTOR + 1) * SECTOR, at + len(written))
        yield start, written[start - at : end - at]
        start = end


Naming = tuple[str, Stored | None]
"""A name that was given to a file, or taken away."""


@dataclass
class Disk:
    """The files below one folder, by their paths."""

    folder: str
    names: dict[str, Stored] = field(default_factory=dict)
    kept: dict[str, Stored] = field(default_factory=dict)
    pending: dict[str, list[Naming]] = field(default_factory=dict)

    def name(self, path: str, stored: Stored | None) -> None:
        """Give a name, or take it away."""
        if stored is None:
            del self.names[path]
        else:
            self.names[path] = stored
        self.pending.setdefault(str(Path(path).parent), []).append((path, stored))

    def rename(self, old: str, new: str) -> None:
        """Both halves together, as file systems with a journal do it within one folder."""
        stored = self.names.pop(old)
        self.names[new] = stored
        self.pending.setdefault(str(Path(new).parent), []).extend([(new, stored), (old, None)])

    def write(self, stored: Stored, at: int, written: bytes) -> None:
        stored.pending.append((at, written))

    def resize(self, stored: Stored, size: int) -> None:
        stored.pending.append((size, None))

    def sync_folder(self, folder: str) -> None:
        self.kept = named(self.kept, self.pending.pop(folder, []))

    def unsynced(self) -> list[str]:
        """What a cut now could take away."""
        lost = [path for path, stored in self.names.items() if stored.pending]
        return lost + [path for changes in self.pending.values() for path, stored in changes if stored]

    def cut(self, keeps: Keeps = lambda: False) -> dict[str, bytes]:
        """The files as they are found after the power was cut."""
        names = dict(self.kept)
        for changes in self.pending.values():
            done = next((at for at in range(len(changes)) if not keeps()), len(changes))
            names = named(names, changes[:done])
        files = {path for path, one in names.items() if not one.is_folder and self._found(path, names)}
        return {path: bytes(after(names[path].content, names[path].pending, keeps)) for path in sorted(files)}

    def _found(self, path: str, names: dict[str, Stored]) -> bool:
        """A file is found when every folder on the way to it is."""
        above = str(Path(path).parent)
        return above == self.folder or (above in names and self._found(above, names))


def named(names: dict[str, Stored], changes: list[Naming]) -> dict[str, Stored]:
    found = dict(names)
    for path, stored in changes:
        if stored is None:
            found.pop(path, None)
        else:
            found[path] = stored
    return found


def by_chance(seed: int) -> Keeps:
    """A disk that had written about half of what was pending."""
    chance = random.Random(seed)
    return lambda: chance.random() < 0.5
