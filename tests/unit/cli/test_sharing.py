"""`gudgeon share`: told before it is written, never written over unasked, refused with what there is."""

import json
from pathlib import Path

import pytest

from gudgeon.cli.main import main
from tests.unit.bench.benches import make_job


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder to work in, with a book in which the head is tight."""
    book = tmp_path / "book"
    book.mkdir()
    job = make_job(book)
    job.read_code()
    job.tighten_all()
    job.record("note", text="Robin held the lamp")
    monkeypatch.setenv("GUDGEON_BOOK", str(job.book))
    paper = tmp_path / "paper"
    paper.mkdir()
    monkeypatch.chdir(paper)
    return paper


def test_what_is_in_it_is_told_and_then_written(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["share", "--of", "joint:head"]) == 0
    said = capsys.readouterr().out
    assert (
        said.index("In the page:") < said.index("Left out:") < said.index("Written: shared-joint-head.html (")
    )
    assert "names of people, customers, shops and suppliers" in said
    assert (folder / "shared-joint-head.html").read_text("utf-8").count("<h4>") == 4


def test_nothing_is_written_over_unasked(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (folder / "mine.html").write_text("kept")
    assert main(["share", "--out", "mine.html"]) == 2
    assert capsys.readouterr().err.startswith("mine.html exists already and is left as it is.")
    assert (folder / "mine.html").read_text() == "kept"
    assert main(["share", "--out", "mine.html", "--over"]) == 0


def test_a_look_writes_nothing_and_names_what_could_go_in(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["share", "--of", "joint:head", "--look"]) == 0
    said = capsys.readouterr().out
    assert "A note: Robin held the lamp" in said
    assert "Nothing was written." in said
    assert list(folder.iterdir()) == []


def test_words_are_let_in_by_their_number(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["share", "--with", "dates", "--with", "notes=19", "--json"]) == 0
    answer = json.loads(capsys.readouterr().out)
    text = Path(answer["written"]).read_text("utf-8")
    assert answer["bytes"] == len(text.encode())
    assert "by your choice: 1 text of your own" in answer["inside"]
    assert "held the lamp" in text
    assert "2026-03-07" in text


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["--of", "joint:nowhere"], "`joint:nowhere` is no operation that the book holds something of here."),
        (["--with", "everything"], "“everything” is nothing that can be let into a shared page."),
        (["--with", "notes=all"], "“all” is no number of an entry."),
        (["--of", "joint:head", "--with", "notes=1"], "Entry 1 is not part of it."),
    ],
)
def test_what_is_refused(
    folder: Path, capsys: pytest.CaptureFixture[str], arguments: list[str], said: str
) -> None:
    assert main(["share", *arguments]) == 2
    assert capsys.readouterr().err.startswith(said)
    assert list(folder.iterdir()) == []
