"""`gudgeon sheet check` and `gudgeon sheet settle`, as a person runs them."""

import json
from pathlib import Path

import pytest

from gudgeon.cli.main import main

TEXT = """gudgeon: data sheet 1
engine: {name: E, codes: [E], code_is_read: on the pad, layout: inline, cylinders: 4, numbered_from: front}
sources: {manual: {title: Manual, edition: first}}
characteristics:
  lash: {name: Run-out, part: Crankshaft, method: run-out, source: manual p. 1, required: 0.011 in (0.028 mm)}  # seen
"""


@pytest.fixture
def file(tmp_path: Path) -> str:
    path = tmp_path / "engine.yaml"
    path.write_text(TEXT, encoding="utf-8")
    return str(path)


def test_check_ends_with_1_until_its_error_is_settled(file: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["sheet", "check", file, "--json"]) == 1
    answer = json.loads(capsys.readouterr().out)
    (found,) = answer["findings"]
    assert (answer["errors"], found["line"], found["grade"], found["settled"]) == (1, 5, "error", None)
    assert main(["sheet", "settle", file, found["key"], "--kept", "--why", "printed so twice"]) == 0
    capsys.readouterr()
    assert main(["sheet", "check", file]) == 0
    said = capsys.readouterr().out
    assert "Proof-reading: nothing to look at; 1 settled" in said
    assert "ERROR (settled), line 5: Run-out, required" in said
    assert "printed so twice" in said
    assert "# seen" in Path(file).read_text(encoding="utf-8")


def test_check_says_what_was_printed_what_agrees_and_what_slipped(
    file: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["sheet", "check", file]) == 1
    said = capsys.readouterr().out
    assert said.startswith(f"{file}: can be read; 1 error by proof-reading. ")
    assert "ERROR, line 5: Run-out, required" in said
    assert "printed: 0.011 in (0.028 mm) [manual p. 1]" in said
    assert "would agree: 0.011 in is 0.279 mm" in said
    assert "0.028 mm for 0.28 mm: a ten-fold slip" in said


def test_an_unknown_key_is_refused_and_nothing_written(file: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["sheet", "settle", file, "pair-0", "--asked", "--why", "the supplier"]) == 2
    assert "`pair-0` is no finding here." in capsys.readouterr().err
    assert Path(file).read_text(encoding="utf-8") == TEXT


def test_one_of_a_thing_is_said_as_one(file: str, capsys: pytest.CaptureFixture[str]) -> None:
    main(["sheet", "check", file])
    assert "1 characteristic, 0 joints, 1 source\n" in capsys.readouterr().out
