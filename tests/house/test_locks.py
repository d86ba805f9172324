"""The locks hold names, versions and hashes only, and all that the project says it needs."""

import re
import tomllib

import pytest

from tests.house.code import ROOT

PIN = re.compile(r"^([a-z0-9.-]+)==([^ ;\\]+)(?: ; ([^\\]+?))? \\$")
HASH = re.compile(r"^    --hash=sha256:[0-9a-f]{64}(?: \\)?$")
LOCKS = ("requirements.txt", "requirements-dev.txt")


def pins(lock: str) -> set[tuple[str, str, str]]:
    """Name, version and condition of every requirement in a lock."""
    lines = (ROOT / lock).read_text("utf-8").splitlines()
    found = {(pin[1], pin[2], pin[3] or "") for line in lines if (pin := PIN.match(line))}
    assert found
    return found


def asked(file: str) -> set[str]:
    """Names in a list of requirements written by hand."""
    lines = (ROOT / file).read_text("utf-8").splitlines()
    return {name(line) for line in lines if line and line[0].isalpha()}


def name(requirement: str) -> str:
    """The name of a requirement as locks spell it."""
    found = re.match(r"[\w.-]+", requirement)
    assert found, requirement
    return re.sub(r"[-_.]+", "-", found[0]).lower()


@pytest.mark.parametrize("lock", LOCKS)
def test_every_line_is_a_pin_a_hash_or_a_remark(lock: str) -> None:
    lines = (ROOT / lock).read_text("utf-8").splitlines()
    strange = [
        line for line in lines if not (PIN.match(line) or HASH.match(line) or line.startswith("    #"))
    ]
    assert strange == []
    assert sum(1 for line in lines if HASH.match(line)) > len(pins(lock))


def test_the_development_lock_adds_to_the_other_and_changes_nothing() -> None:
    assert pins(LOCKS[0]) <= pins(LOCKS[1])


@pytest.mark.parametrize(("file", "lock"), [("requirements.in", LOCKS[0]), ("requirements-dev.in", LOCKS[1])])
def test_everything_asked_for_is_locked(file: str, lock: str) -> None:
    assert asked(file) <= {pin[0] for pin in pins(lock)}


def test_the_project_asks_for_the_same() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
    needed = project["project"]["dependencies"] + project["build-system"]["requires"]
    assert {name(requirement) for requirement in needed} == asked("requirements.in")
