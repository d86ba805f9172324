"""The invented job with `--show`: every question that it names is answered, as if it had been typed."""

import re
from pathlib import Path

import pytest

from gudgeon.cli.demo import QUESTIONS
from gudgeon.cli.main import main


def test_every_question_is_answered_at_once(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["demo", "--folder", str(tmp_path / "job"), "--show"]) == 0
    shown = capsys.readouterr().out
    parts = shown.split("\n$ gudgeon ")[1:]
    assert [part.splitlines()[0] for part in parts] == [
        "now",
        "tighten head",
        'judge "cylinder head"',
        "cut",
        "ready --for crank",
    ]
    assert len(parts) == len(QUESTIONS)
    for part in parts:
        assert "licensed practice overrule this" in part.replace("\n", " ")


def test_the_first_session_of_the_readme_looks_at_the_pull_that_the_book_names(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["demo", "--folder", str(tmp_path / "job")]) == 0
    assert main(["now", "--book", str(tmp_path / "job" / "book.gudgeon")]) == 0
    (named,) = set(re.findall(r"gudgeon record looked \d+", capsys.readouterr().out))
    readme = (Path(__file__).parents[3] / "README.md").read_text("utf-8")
    assert set(re.findall(r"gudgeon record looked \d+", readme)) == {named}
