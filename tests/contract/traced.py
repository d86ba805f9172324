"""What a program asked of the system, in its order: the calls that touch one folder, and the lines that it said."""

import os
import re
import shutil
import subprocess
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

import pytest

from tests.contract.disk import Disk, Stored

ROOT = Path(__file__).resolve().parents[2]
_CALL = re.compile(r"^\d+ +(\w+)\((.*)\) += (-?\d+|0x[0-9a-f]+|\?)(.*)$")
_TEXT = re.compile(r'"((?:\\x[0-9a-f]{2})*)"')
_OPEN_FILE = re.compile(r"(-?\d+)<((?:\\x[0-9a-f]{2})*)>")
_HARMLESS = re.compile(
    "read|pread64|lseek|close|fcntl|.*stat.*|statx|access|faccessat2|readlink|getdents64|ioctl|fadvise64|fchmod|"
    "fchown|mmap|execve|chdir"
)


@dataclass(frozen=True)
class Call:
    """One call that succeeded: its name, its arguments as the tracer wrote them, what it gave back."""

    name: str
    arguments: str
    gave: int
    rest: str

    def texts(self) -> list[bytes]:
        return [plain(text) for text in _TEXT.findall(self.arguments)]

    def file(self) -> str:
        """The file that the first argument has open."""
        found = _OPEN_FILE.match(self.arguments)
        return plain(found[2]).decode() if found else ""

    def numbers(self) -> list[int]:
        return [int(one) for one in re.findall(r"(?<=, )\d+\b", self.arguments)]


def plain(text: str) -> bytes:
    return bytes.fromhex(text.replace("\\x", ""))


def tracer() -> str:
    """The tracer, where it is there and the system lets it work; else the test is skipped, or fails where it must run."""
    found = shutil.which("strace")
    works = found and subprocess.run([found, "-o", os.devnull, "true"], capture_output=True).returncode == 0
    if found and works:
        return found
    why = "strace is not installed" if not found else "strace may not trace here"
    if os.environ.get("GUDGEON_REQUIRE_STRACE") == "1":
        pytest.fail(f"{why}, and GUDGEON_REQUIRE_STRACE asks for it")
    pytest.skip(f"{why}: what is on the disk when an entry is acknowledged is not looked at")


def trace(command: Sequence[str], into: Path, folder: Path) -> list[Call]:
    """Run a program to its end; the calls that touched the folder, and what was said."""
    options = ["-f", "-y", "-xx", "-s", "100000", "-e", "trace=%desc,%file", "-o", str(into)]
    done = subprocess.run(
        [tracer(), *options, *command], cwd=ROOT, capture_output=True, text=True, encoding="utf-8"
    )
    assert done.returncode == 0, done.stderr
    about = "".join(f"\\x{byte:02x}" for byte in os.fsencode(folder))
    lines = [
        line for line in into.read_text(encoding="utf-8").splitlines() if about in line or " write(1<" in line
    ]
    return list(calls(lines))


def calls(lines: Sequence[str]) -> Iterator[Call]:
    """The calls of a trace that succeeded; a program with one thread has each in one line."""
    for line in lines:
        found = _CALL.match(line)
        assert found is not None, f"not one call in one line: {line[:200]}"
        if found[3] != "?" and not found[3].startswith("-"):
            yield Call(found[1], found[2], int(found[3], 0), found[4])


@dataclass
class Replay:
    """A disk that does again what a program did."""

    disk: Disk

    def steps(self, made: Sequence[Call]) -> Iterator[str]:
        """Do the calls in turn; after each that changed or synced something `""`, or the line that was said."""
        for call in made:
            if call.name in ("write", "writev") and call.arguments.startswith("1<"):
                yield from (text.decode() for text in call.texts() if text.strip())
            elif self._take(call):
                yield ""

    def _inside(self, path: str) -> bool:
        return path == self.disk.folder or path.startswith(f"{self.disk.folder}/")

    def _take(self, call: Call) -> bool:
        """Do one call; whether it changed anything. Shared memory beside a book is made anew after a cut."""
        paths = [text.decode("utf-8", "replace") for text in call.texts()] if "(" not in call.name else []
        about = [
            path for path in (call.file(), *paths[:2]) if self._inside(path) and not path.endswith("-shm")
        ]
        if not about:
            return False
        if _HARMLESS.fullmatch(call.name):
            assert "MAP_SHARED" not in call.arguments or "PROT_WRITE" not in call.arguments, call
            return False
        if call.name in ("openat", "open", "creat"):
            return self._opened(call, about[-1])
        getattr(self, f"_{call.name}")(call, about)
        return True

    def _opened(self, call: Call, path: str) -> bool:
        made = "O_CREAT" in call.arguments and path not in self.disk.names
        if made:
            self.disk.name(path, Stored())
        if "O_TRUNC" in call.arguments and not made:
            self.disk.resize(self.disk.names[path], 0)
        return made or "O_TRUNC" in call.arguments

    def _pwrite64(self, call: Call, about: list[str]) -> None:
        written = call.texts()[0]
        assert len(written) == call.gave, "a write that was cut short"
        self.disk.write(self.disk.names[about[0]], call.numbers()[-1], written)

    def _ftruncate(self, call: Call, about: list[str]) -> None:
        self.disk.resize(self.disk.names[about[0]], call.numbers()[-1])

    def _fsync(self, call: Call, about: list[str]) -> None:
        there = self.disk.names.get(about[0])
        if there is None or there.is_folder:
            self.disk.sync_folder(about[0])
        else:
            there.sync()

    _fdatasync = _fsync

    def _unlink(self, call: Call, about: list[str]) -> None:
        self.disk.name(about[0], None)

    def _link(self, call: Call, about: list[str]) -> None:
        self.disk.name(about[1], self.disk.names[about[0]])

    def _rename(self, call: Call, about: list[str]) -> None:
        self.disk.rename(about[0], about[1])

    def _mkdir(self, call: Call, about: list[str]) -> None:
        self.disk.name(about[0], Stored(is_folder=True))
