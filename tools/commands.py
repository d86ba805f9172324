"""Writes docs/commands.md from the parser of the command line, so that the two cannot differ.

Run: python -m tools.commands
"""

import argparse
from collections.abc import Iterator
from pathlib import Path

from gudgeon.cli.main import build_parser

FILE = Path(__file__).parent.parent / "docs" / "commands.md"

HEAD = """\
# Commands

Written by `python -m tools.commands` from the program itself.

Every question takes `--book FILE`, before or behind its name (else `GUDGEON_BOOK`, else the book in your data folder),
`--build NAME` where the book holds several engines, and `--json` for an answer with a stable shape. Exit codes: 0 done,
or the answer is yes; 1 the answer is no; 2 refused, with the reason on standard error; 3 yes, with something accepted
by a named person. `GUDGEON_WHO` names who writes, else the login name.

"""

_COMMON = ("-h", "--book", "--build", "--json")


def text() -> str:
    """The whole page."""
    return HEAD + "\n".join(_sections(build_parser(), "gudgeon"))


def _sections(parser: argparse.ArgumentParser, name: str) -> Iterator[str]:
    for action in parser._actions:
        if not isinstance(action, argparse._SubParsersAction):
            continue
        helps = {choice.dest: choice.help or "" for choice in action._choices_actions}
        for command, inner in action.choices.items():
            full = f"{name} {command}"
            if any(isinstance(one, argparse._SubParsersAction) for one in inner._actions):
                yield f"## {full}\n\n{helps[command].capitalize()}.\n"
                yield from _sections(inner, full)
            else:
                yield f"### `{full}`\n\n{helps[command][0].upper()}{helps[command][1:]}.\n"
                yield from _arguments(inner)


def _arguments(parser: argparse.ArgumentParser) -> Iterator[str]:
    lines = []
    for action in parser._actions:
        flags = action.option_strings
        if any(flag in _COMMON for flag in flags) or action.help is argparse.SUPPRESS:
            continue
        shown = ", ".join(flags) if flags else str(action.metavar or action.dest)
        if flags and action.nargs != 0:
            shown += f" {action.metavar or action.dest.upper()}"
        choices = f" ({', '.join(map(str, action.choices))})" if action.choices else ""
        required = "" if not flags else " – required" if action.required else ""
        lines.append(f"- `{shown}`: {action.help}{choices}{required}")
    if lines:
        yield "\n".join(lines) + "\n"


if __name__ == "__main__":
    FILE.write_text(text(), encoding="utf-8")
