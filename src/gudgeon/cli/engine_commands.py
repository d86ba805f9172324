"""Commands on the engine as a whole: cut, timing, shims, fits, the first run."""

import argparse
from typing import TypeAlias

Commands: TypeAlias = "argparse._SubParsersAction[argparse.ArgumentParser]"


def add_command(
    commands: Commands, name: str, *parents: argparse.ArgumentParser, run: str, text: str
) -> argparse.ArgumentParser:
    """One command: its name, the function that answers it, and what it is for."""
    made: argparse.ArgumentParser = commands.add_parser(
        name, help=text, description=f"{text[0].upper()}{text[1:]}.", parents=parents
    )
    made.set_defaults(run=run)
    return made


def add_engine(commands: Commands, common: argparse.ArgumentParser) -> None:
    """The questions between the bolts and the start, in the order of the work."""
    _shop(_cut(commands, common))
    _timing(commands, common)
    add_command(
        commands,
        "shims",
        common,
        run="shims:shims",
        text="which shim goes where: as few bought as can be, and the moves in their order",
    )
    _fits(commands, common)


def add_running(commands: Commands, common: argparse.ArgumentParser) -> None:
    """`gudgeon running`, which is asked after all others."""
    asked = add_command(
        commands,
        "running",
        common,
        run="running:running",
        text="does it run right: cranking pressure, leak-down, oil pressure, coolant, what comes due later",
    )
    asked.add_argument(
        "--left-in", default=None, metavar="VOLUME", help="coolant still in the system, like `2 L`"
    )
    asked.add_argument(
        "--glycol", default=None, metavar="SHARE", help="how much glycol that holds, like `30 percent`"
    )


def add_buying(commands: Commands, common: argparse.ArgumentParser) -> None:
    """`gudgeon buy`."""
    buy = add_command(
        commands,
        "buy",
        common,
        run="buying:buy",
        text="what do I buy: what becomes of every part, the list, from whom it costs least",
    )
    buy.add_argument(
        "--no-delay",
        action="store_true",
        help="the least cost that delays nothing (else the least cost, whatever it takes)",
    )


def _timing(commands: Commands, common: argparse.ArgumentParser) -> None:
    timing = add_command(
        commands,
        "timing",
        common,
        run="timing:timing",
        text="is it timed: wheels, marks, teeth, a mark seen off, the proof",
    )
    timing.add_argument(
        "--seen",
        action="append",
        default=[],
        metavar="OFFSET",
        help="a mark that is off, like `intake: half a tooth late`; may stand more than once",
    )
    timing.add_argument("--picture", default=None, metavar="FILE.svg", help="draw it")
    timing.add_argument(
        "--of",
        dest="drawn",
        choices=("drive", "events"),
        default="drive",
        help="what is drawn (else the drive)",
    )


def _shop(cut: argparse.ArgumentParser) -> None:
    either = cut.add_mutually_exclusive_group()
    for flag, words in (
        ("--order", "what is ordered at the machine shop, for the head (else of the part named)"),
        ("--back", "what came back against what was ordered, for the head (else of the part named)"),
    ):
        either.add_argument(
            flag, nargs="?", const="head", default=None, choices=("head", "block"), help=words
        )


def _cut(commands: Commands, common: argparse.ArgumentParser) -> argparse.ArgumentParser:
    cut = add_command(
        commands,
        "cut",
        common,
        run="cutting:cut",
        text="what does the cut do: least, most, which limit binds, and all that follows",
    )
    cut.add_argument(
        "--off",
        default=None,
        metavar="AMOUNT",
        help="ask about a cut of the head as found, like `0.2 mm` (else the one in the book)",
    )
    cut.add_argument(
        "--gasket",
        default=None,
        metavar="NAME",
        help="with this head gasket of the data sheet (else the one that its maker means for the cut)",
    )
    cut.add_argument(
        "--picture", default=None, metavar="FILE.svg", help="draw everything over the cut, with its limits"
    )
    return cut


def _fits(commands: Commands, common: argparse.ArgumentParser) -> None:
    text = "what fits where: shells by grade, parts matched to places, rings among the bores, equal weights"
    fits = add_command(commands, "fits", common, run="fits:fits", text=text)
    fits.add_argument("what", nargs="?", default=None, metavar="WHAT", help="one fit (else all of them)")
    fits.add_argument(
        "--codes",
        action="append",
        default=[],
        metavar="MARKS",
        help="codes stamped on the engine for a bearing, one for each place, like `main: A1 B2 A1`",
    )
    fits.add_argument(
        "--shells",
        action="append",
        default=[],
        metavar="MARKS",
        help="the shells that are in it now, by grade or color, like `main: red blue red`",
    )
