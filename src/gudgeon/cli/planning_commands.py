"""The arguments of the question when it will run."""

import argparse

from gudgeon.cli.engine_commands import Commands, add_command


def add_planning(commands: Commands, common: argparse.ArgumentParser) -> None:
    """`gudgeon plan`: the date, what drives it, and what to do next."""
    asked = add_command(
        commands,
        "plan",
        common,
        run="planning:plan",
        text="when will it run: the date, what drives it, and what to do in the next free hours",
    )
    asked.add_argument(
        "--all", action="store_true", help="every time at the engine, and what is done already"
    )
    asked.add_argument(
        "--quick", action="store_true", help="the plan alone: the order is not improved, no date is simulated"
    )
    asked.add_argument(
        "--ics",
        metavar="FILE.ics",
        default=None,
        help="write times at the engine and deadlines as a calendar file; its own older file is replaced",
    )
