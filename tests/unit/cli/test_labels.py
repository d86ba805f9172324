"""`gudgeon label` and `gudgeon print labels` in the terminal."""

import json
from pathlib import Path

import pytest

from gudgeon.cli.main import main
from tests.unit.bench.benches import KIT
from tests.unit.sheet.sheets import SMALL


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Path:
    """A book in which two things came off, and a folder to print into."""
    (tmp_path / "sheet.yaml").write_text(SMALL, encoding="utf-8")
    (tmp_path / "kit.yaml").write_text(KIT, encoding="utf-8")
    monkeypatch.setenv("GUDGEON_BOOK", str(tmp_path / "book.gudgeon"))
    monkeypatch.chdir(tmp_path)
    assert main(["begin", "mine", "--sheet", "sheet.yaml", "--kit", "kit.yaml"]) == 0
    for group, key, name, place in (("hose", "top", "Top hose", "H1"), ("connector", "coil", "Coil 1", "5")):
        said = ["record", "off", group, key, "--name", name, "--place", place, "--before", "crank"]
        assert main(said) == 0
    capsys.readouterr()
    return tmp_path


def code_of(capsys: pytest.CaptureFixture[str], folder: Path) -> str:
    from gudgeon.bench.context import open_bench
    from gudgeon.bench.labels.things import labeled

    bench = open_bench(folder / "book.gudgeon")
    try:
        return next(one.code for one in labeled(bench) if one.key == "top")
    finally:
        bench.store.close()


def test_a_code_is_looked_up(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    code = code_of(capsys, folder)
    assert main(["label", code[:3].lower(), code[3:]]) == 0
    said = capsys.readouterr().out
    assert (
        f"{code[:3]} {code[3:]}   Top hose\n  number:  H1\n  where:   place H1\n  state:   off since " in said
    )
    assert "gudgeon record refitted top\n" in said
    assert main(["label", code, "--json"]) == 0
    found = json.loads(capsys.readouterr().out)["label"]
    assert (found["key"], found["kind"], found["open"]) == ("top", "hose", True)
    assert main(["label", code[:5]]) == 2
    assert f"it has 5 signs, and one has 6. It may be {code[:3]} {code[3:]}." in capsys.readouterr().err


def test_labels_are_printed(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["print", "labels", "--kind", "hose", "--kind", "connector"]) == 0
    assert capsys.readouterr().out.startswith("2 labels on 1 sheet.\nWritten: mine-labels.pdf\n")
    assert (folder / "mine-labels.pdf").read_bytes().startswith(b"%PDF-")
    own = ["--rows", "20", "--columns", "5", "--label", "38x10 mm", "--start", "20,5", "--out", "own.pdf"]
    assert main(["print", "labels", "--only", "H1", "--only", "coil", *own]) == 0
    said = capsys.readouterr().out
    assert said.startswith("2 labels on 2 sheets.\n") and "no room for the code as a picture" in said
    flag = ["--flag", "--sheet", "A4, 2 × 7, 99.1 × 38.1 mm", "--out", "flag.pdf", "--size", "a4", "--json"]
    assert main(["print", "labels", *flag]) == 0
    assert json.loads(capsys.readouterr().out)["written"] == ["flag.pdf"]


def test_what_cannot_be_is_refused_before_anything_is_written(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["print", "labels", "--rows", "30", "--columns", "3", "--label", "60x10 mm"]) == 2
    assert capsys.readouterr().err == (
        "The labels do not fit: 30 rows of 10 mm take 300.00 mm, and the sheet is 297.00 mm high. Take fewer rows, lower "
        "labels, smaller gaps, or measure the sheet again.\n"
    )
    assert main(["print", "labels", "--flag", "--wire", "30 mm"]) == 2
    assert (
        "A flag of 63.5 mm is too short for a wire of 30 mm: 96.2 mm go round it" in capsys.readouterr().err
    )
    for asked, told in (
        (
            ["--sheet", "a4-3x8-70x37", "--size", "letter"],
            "You named the sheet a4-3x8-70x37mm, and letter as its size",
        ),
        (
            ["--sheet", "a4-3x8-70x37", "--paper", "200x200 mm"],
            "and measures of your own (paper): they exclude each other",
        ),
        (
            ["--rows=-1", "--columns", "3", "--label", "60x10 mm"],
            "“-1” rows: a sheet has a whole number of them",
        ),
    ):
        assert main(["print", "labels", *asked]) == 2
        assert told in capsys.readouterr().err.replace("\n", " ")
    assert not list(folder.glob("*.pdf"))


def test_common_sheets_are_listed(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["print", "labels", "--sheet", "list"]) == 0
    listed = capsys.readouterr().out.splitlines()
    assert len(listed) == 9 and listed[0].split("  ")[0] == "a4-3x8-63.5x33.9mm"
