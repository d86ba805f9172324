"""The invented job with `--show`: every question that it names is answered, as if it had been typed."""

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
