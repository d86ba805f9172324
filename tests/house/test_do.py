"""The script at the root: what it refuses, and what it does when a set-up is torn."""

import json
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

import do
from tests.house.code import ROOT

CLEAN = {"packages": "other", "project": "other"}


@pytest.fixture
def clone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with what a set-up reads, so that nothing of the real one is touched."""
    for name in (do.RUN, do.DEV, "pyproject.toml"):
        shutil.copy(ROOT / name, tmp_path / name)
    monkeypatch.setattr(do, "ROOT", tmp_path)
    monkeypatch.setattr(do, "VENV", tmp_path / ".venv")
    monkeypatch.setattr(do, "STAMP", tmp_path / ".venv" / "stamp.json")
    monkeypatch.setattr(do, "PYTHON", tmp_path / ".venv" / "python")
    return tmp_path


@pytest.fixture
def steps(clone: Path, monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """What a set-up would have done, in order: installers are outside programs and are not run."""
    done: list[str] = []

    def make() -> None:
        done.append("environment")
        (clone / ".venv").mkdir(exist_ok=True)
        (clone / ".venv" / "python").touch()

    monkeypatch.setattr(do, "make_environment", make)
    monkeypatch.setattr(do, "install", lambda *what: done.append(Path(what[-1]).name))
    monkeypatch.setattr(do, "compile_bytecode", lambda: None)
    return done


def test_set_up_happens_once(clone: Path, steps: list[str]) -> None:
    do.set_up(do.RUN)
    assert steps == ["environment", do.RUN, clone.name]
    steps.clear()
    do.set_up(do.RUN)
    assert steps == []


def test_the_tests_add_to_what_is_there_and_serve_both_afterwards(clone: Path, steps: list[str]) -> None:
    do.set_up(do.RUN)
    steps.clear()
    do.set_up(do.DEV)
    assert steps == [do.DEV, clone.name]
    steps.clear()
    do.set_up(do.RUN)
    assert steps == []


def test_another_lock_makes_the_environment_anew(clone: Path, steps: list[str]) -> None:
    do.set_up(do.RUN)
    steps.clear()
    (clone / do.RUN).write_text("other==1\n", "utf-8")
    do.set_up(do.RUN)
    assert steps == ["environment", do.RUN, clone.name]


def test_another_project_file_installs_the_project_alone(clone: Path, steps: list[str]) -> None:
    do.set_up(do.DEV)
    steps.clear()
    (clone / "pyproject.toml").write_text("[project]\n", "utf-8")
    do.set_up(do.RUN)
    assert steps == [clone.name]
    assert do.stamp() == do.wanted(do.DEV)


def test_a_torn_set_up_starts_over(clone: Path, steps: list[str], monkeypatch: pytest.MonkeyPatch) -> None:
    do.set_up(do.RUN)
    (clone / do.RUN).write_text("other==1\n", "utf-8")
    whole = do.install

    def torn(*_: str) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(do, "install", torn)
    with pytest.raises(KeyboardInterrupt):
        do.set_up(do.RUN)
    assert do.stamp() == {}
    monkeypatch.setattr(do, "install", whole)
    steps.clear()
    do.set_up(do.RUN)
    assert steps == ["environment", do.RUN, clone.name]
    assert do.stamp() == do.wanted(do.RUN)


@pytest.mark.parametrize("content", ["", "[]", "{", json.dumps(CLEAN)])
def test_a_stamp_that_is_not_ours_counts_for_nothing(clone: Path, steps: list[str], content: str) -> None:
    (clone / ".venv").mkdir()
    (clone / ".venv" / "python").touch()
    do.STAMP.write_text(content, "utf-8")
    do.set_up(do.RUN)
    assert steps[0] == "environment"


def test_a_lost_interpreter_is_noticed(clone: Path, steps: list[str]) -> None:
    do.set_up(do.RUN)
    (clone / ".venv" / "python").unlink()
    steps.clear()
    do.set_up(do.RUN)
    assert steps[0] == "environment"


@pytest.mark.parametrize(
    ("printed", "message"),
    [
        (
            "WARNING: Retrying (Retry(total=4)) after connection broken by 'NewConnectionError'",
            "The package index cannot be reached. The first set-up needs the network (about 100 MB); "
            "nothing is lost, run the same command again.",
        ),
        (
            "The virtual environment was not created: ensurepip is not available.",
            "This Python cannot make virtual environments: its venv module is incomplete. "
            "On Debian and Ubuntu: apt install python3-venv.",
        ),
    ],
)
def test_what_an_installer_says_is_put_plainly(printed: str, message: str) -> None:
    with pytest.raises(do.Failure) as caught:
        do.execute(sys.executable, "-c", f"print({printed!r}); raise SystemExit(1)")
    assert str(caught.value) == message


def test_an_unknown_command_is_refused_in_one_line(tmp_path: Path) -> None:
    done = subprocess.run(
        [sys.executable, str(ROOT / "do.py"), "fly"], cwd=tmp_path, capture_output=True, encoding="utf-8"
    )
    assert done.returncode == 2
    assert done.stdout == ""
    assert (
        done.stderr
        == "`fly` is not a command of do.py. Commands: run, gudgeon, test, lint, bench, screenshots, lock.\n"
    )


def test_help_names_every_command(capsys: pytest.CaptureFixture[str]) -> None:
    assert do.main([]) == 0
    told = capsys.readouterr().out
    assert [name for name in do.COMMANDS if f"do.py {name} " not in told] == []
