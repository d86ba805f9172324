"""Files that are no book, or a book no more: told in words, left as they are to the last byte, the way back named."""

import os
import random
import shutil
import sqlite3
import stat
from collections.abc import Callable
from pathlib import Path

import pytest

from gudgeon.book.errors import BookDamaged, BookTooNew, LogOfAnother, NotABook
from gudgeon.book.sqlite import open_book
from gudgeon.cli.main import main
from gudgeon.errors import GudgeonError, InputError
from tests.contract.stores import NOW, draft

PAGE = 4096
WAY_BACK = (
    "It was left untouched; keep it, and bring a backup back under another name with `gudgeon book restore`."
)


def write(path: Path, notes: int, *, build: str = "van", first: int = 0) -> None:
    """A book whose pages lie alike each time: the names of all its entries are given, and with them the order of the index."""
    with open_book(path, clock=lambda: NOW, create=True) as store:
        if build not in store.builds():
            store.append(draft("build-opened", build=build, entry_id=f"{len(build)}{'f' * 31}"))
        store.append_many(
            draft(
                build=build, entry_id=f"{len(build)}{number:031x}", text=f"{number} {'y' * (number % 50) * 9}"
            )
            for number in range(first, first + notes)
        )


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A book of some fifty pages, put away in good order."""
    path = tmp_path_factory.mktemp("whole") / "book"
    write(path, 200)
    return path


@pytest.fixture(scope="module")
def torn_off(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A book whose program was killed: the last five acts are in its log alone."""
    folder = tmp_path_factory.mktemp("torn off")
    path = folder / "running" / "book"
    path.parent.mkdir()
    write(path, 200)
    with open_book(path, clock=lambda: NOW) as store:
        for number in range(900, 905):
            store.append(draft(entry_id=f"{number:032x}", text=f"late {number}"))
        for rest in ("", "-wal"):
            shutil.copy(f"{path}{rest}", folder / f"book{rest}")
    return folder / "book"


def copied(source: Path, folder: Path) -> Path:
    for rest in ("", "-wal"):
        if Path(f"{source}{rest}").exists():
            shutil.copy(f"{source}{rest}", folder / f"book{rest}")
    return folder / "book"


def content(path: Path) -> dict[str, bytes]:
    return {
        rest: Path(f"{path}{rest}").read_bytes() for rest in ("", "-wal") if Path(f"{path}{rest}").exists()
    }


def read(path: Path) -> tuple[list[str], list[str]]:
    """What is in a book, and what verifying finds; every refusal is one of ours."""
    with open_book(path, clock=lambda: NOW) as store:
        found = [one.id for build in store.builds() for one in store.entries(build)]
        return found, [str(one) for one in store.verify()]


def looked_at(path: Path) -> str:
    """What is said of a file, by an error or by verifying; a file that is refused keeps its bytes."""
    before = content(path)
    refused = ""
    try:
        found, wrong = read(path)
    except InputError as error:
        refused = str(error)
    if refused:
        assert content(path) == before, refused
        return refused
    return "; ".join(wrong) or f"{len(found)} entries"


def test_the_files_as_they_are_before_anything_is_done_to_them(
    whole: Path, torn_off: Path, tmp_path: Path
) -> None:
    assert looked_at(copied(whole, tmp_path)) == "201 entries"
    assert looked_at(copied(torn_off, tmp_path)) == "206 entries"


def test_cut_at_every_page(whole: Path, tmp_path: Path) -> None:
    path, every = tmp_path / "book", whole.read_bytes()
    for pages in range(1, len(every) // PAGE):
        path.write_bytes(every[: pages * PAGE])
        assert looked_at(path) == (
            f"The book {path} is damaged ({pages * PAGE:,} bytes are there, {len(every):,} should be). {WAY_BACK}"
        )


def pages_in(log: bytes) -> set[int]:
    """The pages of the book that a log holds (the format of SQLite's log: a head of 32 bytes, then frames)."""
    return {int.from_bytes(log[at : at + 4], "big") for at in range(32, len(log), 24 + PAGE)}


def test_cut_at_every_page_with_a_log_beside(torn_off: Path, tmp_path: Path) -> None:
    """The log holds only the pages of the last acts; where it makes up for the cut nothing is missing, and else that is told."""
    every = torn_off.read_bytes()
    whole = len(every) // PAGE
    kept = pages_in(Path(f"{torn_off}-wal").read_bytes())
    made_up = []
    for pages in range(1, whole):
        path = copied(torn_off, tmp_path)
        path.write_bytes(every[: pages * PAGE])
        said = looked_at(path)
        if kept.issuperset(range(pages + 1, whole + 1)):
            made_up.append(pages)
            assert said == "206 entries"
        else:
            assert said.startswith(f"The book {path} is damaged (")
    assert made_up, "no cut that the log makes up for was tried"


@pytest.mark.parametrize("seed", range(3))
def test_bytes_changed_anywhere_in_the_file(whole: Path, tmp_path: Path, seed: int) -> None:
    """Where all the entries can be read as before and nothing is wrong, the byte was in room that is not used."""
    chance = random.Random(seed)
    path, every = tmp_path / "book", whole.read_bytes()
    told = 0
    for _ in range(60):
        changed = bytearray(every)
        for _ in range(chance.choice((1, 1, 8))):
            changed[chance.randrange(len(changed))] ^= 1 << chance.randrange(8)
        path.write_bytes(changed)
        if (said := looked_at(path)) != "201 entries":
            told += 1
            assert said
    assert told > 30


@pytest.mark.parametrize("step", [11, pytest.param(1, marks=pytest.mark.long)])
def test_bits_of_the_first_hundred_bytes(whole: Path, tmp_path: Path, step: int) -> None:
    """The header says what the file is: no bit of it leads to a traceback, or to another answer without a word."""
    path, every = tmp_path / "book", whole.read_bytes()
    for bit in range(0, 800, step):
        changed = bytearray(every)
        changed[bit // 8] ^= 1 << bit % 8
        path.write_bytes(changed)
        said = looked_at(path)
        assert said == "201 entries" or "book" in said or "the file" in said, f"bit {bit}: {said}"


def test_a_byte_changed_in_the_log(torn_off: Path, tmp_path: Path) -> None:
    """SQLite stops at the first page that is not as it was written; what lies behind it had been acknowledged."""
    log = Path(f"{torn_off}-wal").read_bytes()
    frame = PAGE + 24
    acts = [at for at in range(32, len(log), frame) if log[at + 4 : at + 8] != b"\0\0\0\0"]
    assert len(acts) == 5
    for at in range(32, acts[2], 1009):
        whole_acts = [(one - 32) // frame + 1 for one in acts if one + frame <= at]
        path = copied(torn_off, tmp_path)
        changed = bytearray(log)
        changed[at] ^= 1
        Path(f"{path}-wal").write_bytes(changed)
        before = content(path)
        with pytest.raises(BookDamaged) as refused:
            read(path)
        assert str(refused.value) == (
            f"The book {path} is damaged (the log book-wal is broken after its page {max(whole_acts, default=0)}, "
            f"and recorded entries lie behind that). {WAY_BACK}"
        )
        assert content(path) == before


def test_an_act_that_was_never_acknowledged_is_no_damage(torn_off: Path, tmp_path: Path) -> None:
    """The last act may be torn by a power cut while it is written: then it was not, and the book opens."""
    log = Path(f"{torn_off}-wal").read_bytes()
    for length in range(len(log) - PAGE - 23, len(log), 513):
        path = copied(torn_off, tmp_path)
        Path(f"{path}-wal").write_bytes(log[:length])
        assert looked_at(path) == "205 entries"


@pytest.mark.parametrize("begins", [b"\1" * 32, b"7\x7f\6\x82" + b"\1" * 28], ids=["no log", "a wrong sum"])
def test_a_log_that_does_not_begin_as_one(torn_off: Path, tmp_path: Path, begins: bytes) -> None:
    path = copied(torn_off, tmp_path)
    log = Path(f"{path}-wal")
    log.write_bytes(begins + log.read_bytes()[32:])
    before = content(path)
    with pytest.raises(BookDamaged) as refused:
        read(path)
    assert str(refused.value) == (
        f"The book {path} is damaged (the log book-wal does not begin as a log does). {WAY_BACK}"
    )
    assert content(path) == before


@pytest.mark.parametrize("notes", [1, 200], ids=["a smaller one", "one as large"])
def test_the_log_of_another_book(whole: Path, tmp_path: Path, notes: int) -> None:
    """SQLite would put the other book in the place of this one."""
    other = tmp_path / "other"
    write(other, notes, build="boat")
    path = copied(whole, tmp_path)
    with open_book(other, clock=lambda: NOW) as store:
        store.append(draft(build="boat"))
        shutil.copy(f"{other}-wal", f"{path}-wal")
    before = content(path)
    with pytest.raises(LogOfAnother) as refused:
        read(path)
    assert str(refused.value) == (
        f"The log {path}-wal beside the book {path} is the log of another book. Both were left untouched; "
        "put the log back beside its own book, or bring a backup back with `gudgeon book restore`."
    )
    assert content(path) == before
    Path(f"{path}-wal").unlink()
    assert looked_at(path) == "201 entries"


def test_a_log_left_behind_where_a_new_book_is_made(torn_off: Path, tmp_path: Path) -> None:
    """Somebody deleted the book, and its log stayed: the new one must not come out as the old one."""
    shutil.copy(f"{torn_off}-wal", tmp_path / "book-wal")
    with pytest.raises(LogOfAnother):
        write(tmp_path / "book", 1)


def of_another_program(path: Path) -> None:
    connection = sqlite3.connect(path)
    connection.executescript("CREATE TABLE entry (id); INSERT INTO entry VALUES (1)")
    connection.close()


def of_a_later_format(path: Path) -> None:
    write(path, 1)
    connection = sqlite3.connect(path)
    connection.execute("PRAGMA user_version = 2")
    connection.close()


def without_its_tables(path: Path) -> None:
    connection = sqlite3.connect(path)
    connection.executescript(
        f"PRAGMA application_id = {0x47554447}; PRAGMA user_version = 1; CREATE TABLE x (y)"
    )
    connection.close()


NO_BOOK = "{path} is not a book of Gudgeon ({why}). It was left untouched; name another file with --book."
REFUSED: list[tuple[Callable[[Path], object], type[GudgeonError], str]] = [
    (lambda path: path.touch(), NotABook, NO_BOOK.replace("{why}", "it is empty")),
    (lambda path: path.write_bytes(b"\0" * 9000), NotABook, NO_BOOK.replace("{why}", "it is no SQLite file")),
    (lambda path: path.mkdir(), NotABook, NO_BOOK.replace("{why}", "it is a folder")),
    (lambda path: os.mkfifo(path), NotABook, NO_BOOK.replace("{why}", "it is no file")),
    (lambda path: path.symlink_to("/dev/zero"), NotABook, NO_BOOK.replace("{why}", "it is no file")),
    (of_another_program, NotABook, NO_BOOK.replace("{why}", "it is an SQLite file of another program")),
    (of_a_later_format, BookTooNew,
     "The book {path} has format 2, this program knows up to 1. It was left untouched; use the newer program."),
    (without_its_tables, BookDamaged, "The book {path} is damaged (no such table: format). " + WAY_BACK),
]  # fmt: skip


@pytest.mark.skipif(os.name == "nt", reason="no pipes and devices among the files")
@pytest.mark.parametrize("make, error, said", REFUSED, ids=[said[7:60] for _, _, said in REFUSED])
def test_the_terminal_refuses_what_is_no_book(
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    make: Callable[[Path], object],
    error: type[GudgeonError],
    said: str,
) -> None:
    path = tmp_path / "thing"
    make(path)
    before = path.read_bytes() if stat.S_ISREG(path.stat().st_mode) else b""
    with pytest.raises(error) as refused:
        read(path)
    assert str(refused.value) == said.format(path=path)
    for command in (["book", "verify"], ["now"], ["record", "note", "x"]):
        assert main([*command, "--book", str(path)]) == 2
        assert capsys.readouterr() == ("", said.format(path=path) + "\n")
    assert before == (path.read_bytes() if stat.S_ISREG(path.stat().st_mode) else b"")
