"""Finding Chromium: the person may name it, and is told plainly when there is none."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.browser.conftest import REQUIRED
from tests.house.code import ROOT
from tools.chromium import VARIABLE, NoChromium, program

HOW = "Install Chromium (on Debian and Ubuntu: apt install chromium), or set GUDGEON_CHROMIUM to the program."


def test_the_one_that_is_named_is_taken(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(VARIABLE, sys.executable)
    assert program() == sys.executable


def test_a_name_that_leads_nowhere_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(VARIABLE, "no-such-program")
    with pytest.raises(NoChromium) as caught:
        program()
    assert str(caught.value) == f"GUDGEON_CHROMIUM names `no-such-program`, which is no program. {HOW}"


def test_none_on_the_path_is_told(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.delenv(VARIABLE, raising=False)
    monkeypatch.setenv("PATH", str(tmp_path))
    with pytest.raises(NoChromium) as caught:
        program()
    assert str(caught.value) == f"No Chromium was found. {HOW}"


@pytest.mark.long
@pytest.mark.parametrize(("required", "code", "word"), [("", 0, "1 skipped"), ("1", 1, "1 error")])
def test_without_it_tests_skip_and_where_it_is_required_they_fail(
    required: str, code: int, word: str
) -> None:
    command = [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", "-rs"]
    done = subprocess.run(
        [*command, "tests/browser/test_pages.py::test_titles_tell_the_pages_apart"],
        cwd=ROOT,
        env={**os.environ, VARIABLE: "no-such-program", REQUIRED: required},
        capture_output=True,
        encoding="utf-8",
    )
    assert (done.returncode, word in done.stdout) == (code, True), done.stdout
    assert "apt install chromium" in done.stdout
