"""Commands of labels: print them, and say what a code on one is of."""

import argparse

from gudgeon.bench.labels.kinds import KINDS
from gudgeon.cli.engine_commands import Commands, add_command


def add_label(commands: Commands, common: argparse.ArgumentParser) -> None:
    """`gudgeon label`."""
    label = add_command(
        commands,
        "label",
        common,
        run="labels:label",
        text="what is this: the code on a label, and where it goes",
    )
    label.add_argument("code", nargs="+", help="the six signs; small letters and spaces do not matter")


def add_labels(kinds: Commands, *parents: argparse.ArgumentParser) -> None:
    """`gudgeon print labels`."""
    labels = add_command(
        kinds,
        "labels",
        *parents,
        run="labels:labels",
        text="labels for bags, connectors and hoses, with codes",
    )
    labels.add_argument(
        "--kind", action="append", default=[], choices=KINDS, help="only these; may stand more than once"
    )
    labels.add_argument(
        "--only",
        action="append",
        default=[],
        metavar="WHICH",
        help="one thing by its number, key, code or words of its name; may stand more than once",
    )
    labels.add_argument("--all", action="store_true", help="those of what is back again too")
    _sheet(labels)
    labels.add_argument(
        "--start",
        metavar="ROW,COLUMN",
        default="",
        help="the first label that is still there on a part-used sheet, or its number counted row by row",
    )
    labels.add_argument(
        "--flag", action="store_true", help="flags that fold round a wire, of 6 mm where --wire says no other"
    )
    labels.add_argument(
        "--wire",
        metavar="DIAMETER",
        default="",
        help="flags that fold round a wire as thick as this, like `8 mm`; --flag need not be said then",
    )
    labels.add_argument("--outlines", action="store_true", help="draw the edges, for plain paper to cut")


def _sheet(labels: argparse.ArgumentParser) -> None:
    labels.add_argument(
        "--sheet",
        metavar="SHEET",
        default="",
        help="a common sheet by its measures, or `list` for all of them",
    )
    for name, metavar, words in (
        ("--rows", "R", "labels one below the other, of a sheet of your own"),
        ("--columns", "C", "labels side by side"),
        ("--label", "SIZE", "width x height of a label, like `63.5x33.9 mm`"),
        ("--margins", "SIZE", "left x top, like `7.2x12.9 mm` (else the same at both sides)"),
        ("--gaps", "SIZE", "between columns x between rows, like `2.5x0 mm` (else what the margins leave)"),
        ("--paper", "SIZE", "width x height of the sheet, where it is neither A4 nor Letter"),
    ):
        labels.add_argument(name, metavar=metavar, default="", help=words)
