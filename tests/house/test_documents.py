"""The documents say what the program does, and name nothing that it does not have."""

import argparse
import re
import shlex
from collections.abc import Iterator
from pathlib import Path

import pytest

import do
from gudgeon.calc.calculator import names
from gudgeon.cli.main import build_parser
from tests.house.code import ROOT, tracked_files
from tools.reference import PAGE, calculators_page

FENCE = re.compile(r"^```.*?^```", re.MULTILINE | re.DOTALL)
LINK = re.compile(r"\]\(([^)#\s]+)(?:#[^)]*)?\)")
STARTS = ("gudgeon ", "python3 do.py ")


def documents() -> list[Path]:
    return [path for path in tracked_files() if path.suffix == ".md"]


def commands(parser: argparse.ArgumentParser, before: str = "gudgeon") -> Iterator[str]:
    """Every command that can be typed, in full."""
    below = [action for action in parser._actions if isinstance(action, argparse._SubParsersAction)]
    if not below:
        yield before
    for action in below:
        for name, inner in action.choices.items():
            yield from commands(inner, f"{before} {name}")


def typed(path: Path) -> Iterator[tuple[int, str]]:
    """Lines of the code blocks of a document that a reader could type as they stand."""
    text = path.read_text("utf-8")
    for block in FENCE.finditer(text):
        first = text.count("\n", 0, block.start()) + 1
        for number, line in enumerate(block[0].splitlines(), start=first):
            bare = line.strip().removeprefix("$ ")
            if bare.startswith(STARTS) and not re.search(r"[\[\]…]", bare):
                yield number, bare.split("  #")[0].strip()


def understood(line: str) -> bool:
    """Whether the program, or do.py, would take the line."""
    words = shlex.split(line)
    if words[0] == "python3":
        if words[2] not in do.COMMANDS:
            return False
        before = {"run": ["serve", "--demo"], "gudgeon": []}.get(words[2])
        if before is None:
            return True
        words = ["gudgeon", *before, *words[3:]]
    try:
        build_parser().parse_args(words[1:])
    except SystemExit as end:
        return end.code == 0  # --help and --version
    return True


@pytest.mark.parametrize("command", list(commands(build_parser())))
def test_every_command_is_documented(command: str) -> None:
    pages = [ROOT / "README.md", ROOT / "docs" / "commands.md"]
    assert any(command in path.read_text("utf-8") for path in pages if path.exists())


@pytest.mark.parametrize("name", names())
def test_every_calculator_is_documented(name: str) -> None:
    assert f"## {name}\n" in PAGE.read_text("utf-8")


def test_the_page_of_calculators_is_what_the_program_says() -> None:
    assert PAGE.read_text("utf-8") == calculators_page(), "run: python tools/reference.py"


def test_the_read_me_gives_the_two_commands() -> None:
    lines = [line for _, line in typed(ROOT / "README.md")]
    assert {"python3 do.py run", "python3 do.py test"} <= set(lines)


def test_the_test_command_of_the_read_me_is_what_is_run_on_a_fresh_machine() -> None:
    script = (ROOT / ".ci" / "run").read_text("utf-8").splitlines()
    assert script[-1] == "python3 do.py test --long"


def test_commands_in_documents_can_be_typed(capsys: pytest.CaptureFixture[str]) -> None:
    lines = [(path, number, line) for path in documents() for number, line in typed(path)]
    assert lines
    refused = [f"{path.name}:{number}: {line}" for path, number, line in lines if not understood(line)]
    assert refused == [], capsys.readouterr().err


def test_links_between_documents_lead_somewhere() -> None:
    dead = [
        f"{path.relative_to(ROOT)}: {link[1]}"
        for path in documents()
        for link in LINK.finditer(path.read_text("utf-8"))
        if "://" not in link[1] and not (path.parent / link[1]).exists()
    ]
    assert dead == []
