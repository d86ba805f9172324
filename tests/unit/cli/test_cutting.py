"""`gudgeon cut` as a person types it. Figures are derived in tests/unit/bench/cut."""

import json
from pathlib import Path
from xml.etree import ElementTree

import pytest

from gudgeon.cli.main import main
from tests.unit.bench.benches import Job
from tests.unit.bench.stories import invented


@pytest.fixture
def job(tmp_path: Path) -> Job:
    return invented(tmp_path)


@pytest.fixture
def book(job: Job) -> str:
    return str(job.book)


def test_a_cut_that_is_asked_about(book: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["cut", "--off", "0.14 mm", "--book", book]) == 0
    said = " ".join(capsys.readouterr().out.split())  # however wide the terminal is
    assert "At most 0.15 mm (0.0059 in) may come off; the gasket binds. What cleans up is not known." in said
    assert "gasket: 0.15 mm (0.0059 in) <- binds" in said
    assert "Compression ratio: 9.92 ± " in said
    assert "Squish: 1.010 ± " in said
    assert "not worked out: the least that cleans up: missing: flatness of the head face as found" in said


def test_it_keeps_to_the_width_of_the_terminal(
    book: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "80")
    assert main(["cut", "--off", "0.0079 in", "--gasket", "repair", "--book", book]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert len(lines) > 30
    assert [line for line in lines if len(line) > 80] == []


def test_json_has_the_figures(book: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["cut", "--off", "0.20 mm", "--json", "--book", book]) == 0
    answer = json.loads(capsys.readouterr().out)
    (table,) = answer["tables"]
    assert table["cut_mm"] == 0.2
    assert table["gasket"].startswith("repair")
    ratio = next(one for one in table["lines"] if one["what"] == "Compression ratio")
    assert ratio["value"] > 9.7
    assert ratio["expanded"] > 0
    assert answer["most"]["binds"] == "gasket"


def test_the_picture_is_written_beside_the_answer(
    book: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "cut.svg"
    assert main(["cut", "--off", "0.20 mm", "--picture", str(file), "--book", book]) == 0
    assert f"Picture: {file}\n" in capsys.readouterr().out
    assert ElementTree.parse(file).getroot().tag == "{http://www.w3.org/2000/svg}svg"
    assert main(["cut", "--picture", str(file), "--book", book]) != 0
    assert (
        capsys.readouterr()
        .err.strip()
        .endswith(f"{file} exists already and is left as it is. Name another file, or take it away first.")
    )


def test_a_gasket_that_is_not_there(book: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["cut", "--gasket", "thick", "--book", book]) != 0
    assert "`thick` is no gasket here. Known: standard, repair." in capsys.readouterr().err
