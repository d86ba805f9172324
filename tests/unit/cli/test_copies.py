"""Copies of the book as a person types them: exit codes, what is said, JSON with a stable shape, progress."""

import io
import json
import sys
from pathlib import Path

import pytest

from gudgeon.cli.main import main
from gudgeon.cli.progress import progress


@pytest.fixture
def book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    assert main(["demo", "--folder", str(tmp_path / "job")]) == 0
    book = tmp_path / "job" / "book.gudgeon"
    monkeypatch.setenv("GUDGEON_BOOK", str(book))
    monkeypatch.chdir(tmp_path)
    return book


def said(capsys: pytest.CaptureFixture[str], *arguments: str, code: int = 0) -> str:
    capsys.readouterr()
    assert main(["book", *arguments]) == code
    told = capsys.readouterr()
    assert (told.err == "") == (code != 2)
    return told.err if code == 2 else told.out


def as_json(capsys: pytest.CaptureFixture[str], *arguments: str, code: int = 0) -> dict[str, object]:
    answer: dict[str, object] = json.loads(said(capsys, *arguments, "--json", code=code))
    return answer


def test_a_round_from_backup_to_move(book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    made = as_json(capsys, "backup", "backup.zip")
    assert set(made) == {"file", "sha256", "size", "entries", "builds", "heads", "photos", "photos_wrong"}
    verified = as_json(capsys, "verify", "backup.zip")
    assert set(verified) == {"place", "entries", "heads", "problems", "notes", "against"}
    assert (verified["heads"], verified["problems"]) == (made["heads"], [])
    restored = as_json(capsys, "restore", "backup.zip", "--book", "restored.gudgeon")
    assert set(restored) == {"file", "sha256", "place", "builds", "photos", "photos_missing"}
    assert restored["sha256"] == made["sha256"]
    refused = said(capsys, "restore", "backup.zip", "--book", "restored.gudgeon", code=2)
    assert refused.startswith("There is a book at restored.gudgeon already; it was left as it is")
    exported = as_json(capsys, "export", "export.zip", "--book", "restored.gudgeon")
    assert exported["sha256"] == made["sha256"]
    assert "demo: all" in said(capsys, "import", "export.zip")
    moved = as_json(capsys, "move", "--to", "moved.gudgeon")
    assert set(moved) == {"left", "place", "builds", "photos", "photos_wrong", "marker", "papers"}
    capsys.readouterr()
    assert main(["now"]) == 0
    assert "was moved to moved.gudgeon" in " ".join(capsys.readouterr().out.split())


def test_what_a_person_reads(book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    head = str(as_json(capsys, "verify")["heads"]["demo"])  # type: ignore[index]
    shown = said(capsys, "backup", "backup.zip")
    assert shown.startswith("Backup written and read back: backup.zip (")
    assert f"entries: {head}\n" in shown
    shown = said(capsys, "verify", "backup.zip", "--against", head[:12])
    assert "1 build(s): in order\n" in shown
    assert "; 0 came after it, so none of those up to it is missing.\n" in shown
    assert "compare a printed head with --against HEAD" in said(capsys, "verify")
    shown = said(capsys, "move", "--to", "moved.gudgeon")
    assert f"The book {book} was left as it was." in shown
    assert f"{book}.moved.txt says so beside it, and every answer from it does.\n" in shown
    assert f"The paths of sheets and kits began in {book.parent}." in shown
    assert "Go on with --book moved.gudgeon, or set GUDGEON_BOOK to it.\n" in shown


def test_a_head_that_is_not_there_is_a_problem(book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    shown = said(capsys, "verify", "--against", "0123456789ab", code=1)
    assert "! The head 0123456789ab is in no chain here" in shown
    assert "is no head of a chain" in said(capsys, "verify", "--against", "head", code=2)


def test_a_damaged_archive_is_a_problem_and_something_else_is_refused(
    book: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    said(capsys, "export", "export.zip")
    whole = Path("export.zip").read_bytes()
    Path("cut.zip").write_bytes(whole[:-100])
    assert "! cut.zip is damaged: its end is missing, it was cut off." in said(
        capsys, "verify", "cut.zip", code=1
    )
    assert "its end is missing" in said(capsys, "import", "cut.zip", code=2)
    Path("else.zip").write_bytes(b"hello")
    assert "is not an export or a backup of Gudgeon" in said(capsys, "verify", "else.zip", code=2)


@pytest.mark.parametrize(
    "command", [["backup"], ["export", "x.zip"], ["move", "--to", "x.gudgeon"], ["verify"]]
)
def test_no_book_yet(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, command: list[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    assert "There is no book at none.gudgeon." in said(capsys, *command, "--book", "none.gudgeon", code=2)
    assert list(tmp_path.iterdir()) == []


def test_on_a_new_machine_the_book_comes_back_to_where_it_is_looked_for(
    book: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    said(capsys, "backup", "backup.zip")
    monkeypatch.delenv("GUDGEON_BOOK")
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "new machine"))
    said(capsys, "restore", "backup.zip")
    assert "1 build(s): in order\n" in said(capsys, "verify")
    assert "There is no folder nowhere for the book." in said(
        capsys, "restore", "backup.zip", "--book", "nowhere/book.gudgeon", code=2
    )


def test_another_build(book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    refused = said(capsys, "export", "x.zip", "--build", "other", code=2)
    assert refused == "There is no build `other` in this book. It holds: demo.\n"
    assert not Path("x.zip").exists()


class _Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.mark.parametrize(
    ("stream", "shown"),
    [(_Terminal(), "\rreading file 1 of 2"), (io.StringIO(), "")],
    ids=["terminal", "file"],
)
def test_how_far_it_is_is_shown_on_a_terminal_alone(
    monkeypatch: pytest.MonkeyPatch, stream: io.StringIO, shown: str
) -> None:
    monkeypatch.setattr(sys, "stderr", stream)
    with progress() as tell:
        tell("reading file 1 of 2")
    assert stream.getvalue().rstrip() == shown
