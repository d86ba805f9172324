"""`gudgeon print`: files land where they are asked for, and nothing is written over unasked."""

import json
from pathlib import Path

import pytest

from gudgeon.cli.main import main
from tests.unit.bench.benches import KIT
from tests.unit.sheet.sheets import SMALL


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder to work in, with a book whose engine code has not been read."""
    (tmp_path / "sheet.yaml").write_text(SMALL, encoding="utf-8")
    (tmp_path / "kit.yaml").write_text(KIT, encoding="utf-8")
    monkeypatch.setenv("GUDGEON_BOOK", str(tmp_path / "book.gudgeon"))
    paper = tmp_path / "paper"
    paper.mkdir()
    monkeypatch.chdir(paper)
    assert main(["begin", "my engine/2", "--sheet", "../sheet.yaml", "--kit", "../kit.yaml"]) == 0
    return paper


def read_code() -> None:
    assert main(["record", "identity", "L1-A", "--read-from", "pad"]) == 0


@pytest.mark.parametrize("what", [["card", "head"], ["cards"], ["cards", "--folder", "all"]], ids=" ".join)
def test_cards_are_locked_until_the_code_is_read(
    folder: Path, capsys: pytest.CaptureFixture[str], what: list[str]
) -> None:
    capsys.readouterr()
    assert main(["print", *what]) == 2
    assert capsys.readouterr().err.startswith(
        "Figures are locked: the engine code has not been read off the engine."
    )
    assert list(folder.iterdir()) == []


def test_files_land_where_they_are_asked_for(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    read_code()
    (folder / "sub").mkdir()
    assert main(["print", "card", "head"]) == 0
    assert main(["print", "cards", "--out", "sub"]) == 0
    assert main(["print", "cards", "--folder", "new/all", "--size", "letter"]) == 0
    assert main(["print", "why-not", "--for", "fire", "--out", "list.pdf"]) == 0
    found = sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file())
    assert found == [
        "list.pdf", "my-engine-2-card-head.pdf", "new/all/my-engine-2-card-head.pdf", "sub/my-engine-2-cards.pdf",
    ]  # fmt: skip
    assert all((folder / name).read_bytes().startswith(b"%PDF-") for name in found)
    said = capsys.readouterr().out
    assert "Written: list.pdf\n" in said


def test_nothing_is_written_over_unasked(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    read_code()
    (folder / "mine.pdf").write_bytes(b"a letter")
    capsys.readouterr()
    assert main(["print", "card", "head", "--out", "mine.pdf"]) == 2
    assert capsys.readouterr().err == (
        "mine.pdf exists already and is left as it is. Name another file with --out, or write over it with --over.\n"
    )
    assert (folder / "mine.pdf").read_bytes() == b"a letter"
    assert main(["print", "card", "head", "--out", "mine.pdf", "--over", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["written"] == ["mine.pdf"]
    assert (folder / "mine.pdf").read_bytes().startswith(b"%PDF-")
    assert main(["print", "card", "head", "--out", "no/such/folder.pdf"]) == 2
    assert "no/such" in capsys.readouterr().err


def test_a_sheet_without_a_joint(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    read_code()
    bare = SMALL.partition("joints:")[0]
    (folder.parent / "sheet.yaml").write_text(bare, encoding="utf-8")
    capsys.readouterr()
    assert main(["print", "cards"]) == 2
    assert (
        capsys.readouterr().err
        == "The data sheet of Little one holds no joint, so there is no card to print.\n"
    )


A4, LETTER = b"[0 0 595.2", b"[0 0 612 792]"
"""ISO 216 (210 x 297 mm) and ANSI Y14.1 size A (8.5 x 11 in), in points of 1/72 in."""


def test_the_size_of_paper_is_chosen_once_in_the_kit(folder: Path) -> None:
    read_code()
    assert main(["print", "card", "head", "--out", "unsaid.pdf"]) == 0
    kit = folder.parent / "kit.yaml"
    kit.write_text(kit.read_text("utf-8") + "paper: letter\n", encoding="utf-8")
    assert main(["print", "card", "head", "--out", "kit.pdf"]) == 0
    assert main(["print", "card", "head", "--size", "a4", "--out", "asked.pdf"]) == 0
    found = {path.stem: path.read_bytes() for path in folder.glob("*.pdf")}
    assert {name for name, pdf in found.items() if LETTER in pdf} == {"kit"}
    assert {name for name, pdf in found.items() if A4 in pdf} == {"unsaid", "asked"}


def test_a_size_that_no_printer_of_the_list_holds_is_refused(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    kit = folder.parent / "kit.yaml"
    kit.write_text(kit.read_text("utf-8") + "paper: a5\n", encoding="utf-8")
    capsys.readouterr()
    assert main(["kit", "check", str(kit)]) == 2
    assert "paper" in capsys.readouterr().err


def test_the_whole_book_is_printed_also_before_the_code_is_read(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    capsys.readouterr()
    assert main(["print", "book", "--size", "letter", "--without-photos"]) == 0
    assert capsys.readouterr().out.startswith("Written: my-engine-2-book.pdf")
    assert (folder / "my-engine-2-book.pdf").read_bytes().startswith(b"%PDF-")
    assert main(["print", "book"]) == 2
    assert "my-engine-2-book.pdf exists already and is left as it is." in capsys.readouterr().err


def test_a_full_disk_leaves_no_half_print(
    folder: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """The disk is what is outside of us: it takes some of the file, and then no more."""
    read_code()
    capsys.readouterr()

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("gudgeon.written.replace.os.fsync", full)
    assert main(["print", "card", "head", "--out", "mine.pdf"]) == 2
    assert capsys.readouterr().err.startswith("mine.pdf: No space left on device. Nothing was written;")
    assert list(folder.iterdir()) == []


@pytest.mark.parametrize("letter", ["x", "漢"])
def test_a_build_with_a_long_name_is_printed_into_a_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, letter: str
) -> None:
    (tmp_path / "sheet.yaml").write_text(SMALL, encoding="utf-8")
    (tmp_path / "kit.yaml").write_text(KIT, encoding="utf-8")
    monkeypatch.setenv("GUDGEON_BOOK", str(tmp_path / "book.gudgeon"))
    monkeypatch.chdir(tmp_path)
    assert main(["begin", letter * 203, "--sheet", "sheet.yaml", "--kit", "kit.yaml"]) == 0
    assert main(["print", "why-not", "--for", "fire"]) == 0
    (made,) = tmp_path.glob("*.pdf")
    assert made.name.startswith(letter * 26)
    assert len(made.name.encode()) < 120
