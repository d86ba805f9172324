"""`gudgeon running`: readable at 80 columns, whole as JSON, what is refused."""

import json
from pathlib import Path

import pytest

from gudgeon.cli.main import main
from tests.unit.bench.running.engines import engine, read


@pytest.fixture
def book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("COLUMNS", "80")
    job = engine(tmp_path, altitude="500 m")
    read(job, "cranking", "11.0", "6.0", "6.1", "10.9")
    read(job, "leak", "75", "40", "42", "76", unit="psi")
    return job.book


def test_it_is_readable_at_80_columns(book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["running", "--book", str(book)]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert max(len(line) for line in lines) <= 80
    titles = [line for line in lines if line and not line.startswith((" ", "*", "(", "The maker"))]
    assert titles[1:] == [
        "Cranking pressure",
        "Leak-down test",
        "Oil pressure",
        "Coolant",
        "Look again",
        "Not known",
    ]
    text = " ".join(" ".join(lines).split())
    assert (
        "EXPECTED 9.69–12.06 bar (140.5–174.9 psi)" in text
    )  # 0.94213 of 1028.3 and 1279.7 kPa, standard air at 500 m
    assert "> cylinder 2 and cylinder 3, beside each other, are both low" in text
    assert "POUR IN 3.79 L (4.00 US qt) of concentrate and 4.71 L (4.98 US qt) of clean water" in text


def test_the_same_as_json(book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["running", "--left-in", "2 L", "--glycol", "30 %", "--json", "--book", str(book)]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert answer["heading"]["question"] == "Does it run right?"
    assert [one["share"] for one in answer["compression"]["cylinders"]] == ["100 %", "55 %", "55 %", "99 %"]
    assert answer["coolant"]["concentrate"] == "3.19 L (3.37 US qt)"
    assert [one["where"] for one in answer["leak_down"]["heard"]][-1] == "at the plug hole next door"


def test_what_is_no_volume_is_refused(book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["running", "--left-in", "2 mm", "--book", str(book)]) == 2
    assert capsys.readouterr().err.startswith("coolant still in it: ")
