"""Long work in a real terminal: it says how far it is, and Ctrl-C ends it with nothing half."""

import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from gudgeon.bench import copies
from gudgeon.bench.begin import open_demo
from gudgeon.bench.context import clock, open_bench
from gudgeon.bench.photos import Sent, record_photo
from tests.ctrl_c import heard
from tests.unit.book.photos import drawn, saved

if sys.platform == "win32":
    pytest.skip("a terminal and a signal of Unix", allow_module_level=True)

PHOTOS = 20
STOPPED = (
    "Stopped. What was recorded before is in the book; what was being written is there whole, or not at all."
)
WIDE = "1500"
"""Columns of the terminal: a line is so long that the program waits after a few of them for somebody to read them."""


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The invented job with so many photos that a copy of it is not over at once."""
    folder = tmp_path_factory.mktemp("stopped") / "demo"
    open_demo(folder, now=clock().astimezone())
    bench = open_bench(folder / "book.gudgeon")
    for number in range(PHOTOS):
        photo = saved(drawn((40 + number, 30)), "JPEG")
        record_photo(bench, Sent(f"{number}.jpg", photo), caption=f"deck {number}")
    bench.store.close()
    return folder / "book.gudgeon"


@pytest.fixture(scope="module")
def archive(book: Path) -> Path:
    file = book.with_name("whole.zip")
    copies.export(book, file)
    return file


class Terminal:
    """A program with a terminal in front of it, as a person has it."""

    def __init__(self, *arguments: str, folder: Path) -> None:
        self._near, far = os.openpty()
        self.process = subprocess.Popen(
            [sys.executable, "-m", "gudgeon.cli.main", *arguments],
            stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=far, cwd=folder, preexec_fn=heard,
            env={**os.environ, "COLUMNS": WIDE, "LINES": "24"},
        )  # fmt: skip
        os.close(far)
        self.seen = ""

    def until(self, words: str) -> None:
        """Read what it shows until these words are in it; the program may die instead."""
        for more in self._pieces():
            self.seen += more
            if words in self.seen:
                return

    def stop(self) -> int:
        """Ctrl-C; the exit code."""
        self.process.send_signal(signal.SIGINT)
        self.until("\0")  # to its end
        return self.process.wait(30)

    def _pieces(self) -> Iterator[str]:
        while True:
            try:
                piece = os.read(self._near, 500)
            except OSError:  # nobody is on the other side any more
                return
            if not piece:
                return
            yield piece.decode()

    def __enter__(self) -> "Terminal":
        return self

    def __exit__(self, *_: object) -> None:
        self.process.kill()
        self.process.wait()
        os.close(self._near)


def files(folder: Path) -> dict[str, bytes]:
    """Everything that lies in a folder, the hidden too."""
    return {str(one.relative_to(folder)): one.read_bytes() for one in folder.rglob("*") if one.is_file()}


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("book", "backup", "copy.zip"), f"photo 2 of {PHOTOS}"),
        (("book", "backup"), f"writing photo 2 of {PHOTOS}"),
        (("book", "export", "copy.zip"), f"photo 2 of {PHOTOS}"),
        (("book", "restore", "{archive}"), f"photo 2 of {PHOTOS}"),
        (("book", "import", "{archive}"), f"photo 2 of {PHOTOS}"),
        (("clamp", "head", "--trials", "50000", "--picture", "bands.svg"), "tightening at random: "),
    ],
    ids=lambda said: "-".join(said[:2]) if isinstance(said, tuple) else "",
)
def test_ctrl_c_leaves_nothing_half(
    arguments: tuple[str, ...], words: str, book: Path, archive: Path, tmp_path: Path
) -> None:
    there = arguments[1] not in ("restore", "import")
    place = book if there else tmp_path / "new" / "book.gudgeon"
    place.parent.mkdir(exist_ok=True)
    before = files(book.parent)
    named = [one.format(archive=archive) for one in arguments]
    with Terminal(*named, "--book", str(place), folder=tmp_path) as terminal:
        terminal.until(words)
        assert words in terminal.seen
        assert terminal.process.poll() is None, "it is still at work"
        code = terminal.stop()
        assert "Traceback" not in terminal.seen
        assert STOPPED in terminal.seen
    assert code == 2
    assert files(tmp_path) == {}
    assert files(book.parent) == before
