"""`gudgeon buy` in the terminal: its words, its code, its JSON, and its print."""

import json
from pathlib import Path

import pytest

from gudgeon.cli.main import main
from tests.unit.bench.buying.purchases import SHEET, SHOP_KIT


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A book whose engine code was read, beside its papers."""
    (tmp_path / "sheet.yaml").write_text(SHEET, encoding="utf-8")
    (tmp_path / "kit.yaml").write_text(SHOP_KIT, encoding="utf-8")
    monkeypatch.setenv("GUDGEON_BOOK", str(tmp_path / "book.gudgeon"))
    monkeypatch.chdir(tmp_path)
    assert main(["begin", "mine", "--sheet", "sheet.yaml", "--kit", "kit.yaml"]) == 0
    assert main(["record", "identity", "L1-A", "--read-from", "pad"]) == 0
    return tmp_path


def test_the_code_is_1_while_something_is_to_be_ordered(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    capsys.readouterr()
    assert main(["buy"]) == 1
    said = capsys.readouterr().out
    assert "2 lines to order, 44.60 EUR at least." in said
    assert "Südhof Engines: goods 40.10 EUR, shipping 4.50 EUR, together 44.60 EUR, there in 7 days" in said
    for name, count in (("head_gasket", "1"), ("exhaust_nuts", "4")):
        assert main(["record", "ordered", name, "--supplier", "south", "--quantity", count]) == 0
    assert main(["buy"]) == 0


def test_without_delay(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    capsys.readouterr()
    assert main(["buy", "--no-delay"]) == 1
    said = capsys.readouterr().out
    assert "From whom, without delay (EUR)" in said
    assert "Nordrand Parts: goods 46.20 EUR" in said


def test_as_json(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    capsys.readouterr()
    assert main(["buy", "--json"]) == 1
    answer = json.loads(capsys.readouterr().out)
    assert [one["name"] for one in answer["lines"]] == ["Head gasket", "Exhaust nuts"]
    assert (answer["purchases"][0]["total"], answer["purchases"][0]["proven"]) == ("44.60 EUR", True)


def test_figures_are_locked_until_the_code_is_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "sheet.yaml").write_text(SHEET, encoding="utf-8")
    (tmp_path / "kit.yaml").write_text(SHOP_KIT, encoding="utf-8")
    monkeypatch.setenv("GUDGEON_BOOK", str(tmp_path / "book.gudgeon"))
    monkeypatch.chdir(tmp_path)
    assert main(["begin", "mine", "--sheet", "sheet.yaml", "--kit", "kit.yaml"]) == 0
    assert main(["buy"]) == 2


def test_a_part_that_the_sheet_does_not_have_is_told(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    capsys.readouterr()
    assert main(["record", "price", "head gaskt", "north", "40", "EUR"]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert (
        "The sheet has no part called “head gaskt”: it is kept under that name, as one of your own." in said
    )
    assert "If “Head gasket” was meant: gudgeon strike" in said


def test_it_is_printed(folder: Path) -> None:
    assert main(["print", "buy", "--no-delay", "--out", "list.pdf"]) == 0
    assert (folder / "list.pdf").read_bytes().startswith(b"%PDF-")


def test_what_is_locked_is_told_in_one_line(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "sheet.yaml").write_text(SHEET, encoding="utf-8")
    (tmp_path / "kit.yaml").write_text(SHOP_KIT, encoding="utf-8")
    monkeypatch.setenv("GUDGEON_BOOK", str(tmp_path / "book.gudgeon"))
    monkeypatch.chdir(tmp_path)
    assert main(["begin", "mine", "--sheet", "sheet.yaml", "--kit", "kit.yaml"]) == 0
    for question in ("money", "now"):
        capsys.readouterr()
        main([question])
        said = " ".join(capsys.readouterr().out.split())
        assert "Figures are locked" in said
        assert ". Read it " in said
