"""Commands that put an answer on paper."""

import argparse

from gudgeon.bench.recordable_inputs import MILESTONES
from gudgeon.cli.closed_book import add_closed_book
from gudgeon.cli.engine_commands import Commands, add_command
from gudgeon.cli.label_commands import add_labels
from gudgeon.cli.template_commands import add_template, add_tracing


def add_printing(commands: Commands, common: argparse.ArgumentParser) -> None:
    """`gudgeon print` and what can be printed."""
    paper = argparse.ArgumentParser(add_help=False)
    paper.add_argument(
        "--size",
        choices=("a4", "letter"),
        default=None,
        help="the paper in your printer (else the kit says, else A4)",
    )
    paper.add_argument(
        "--out",
        metavar="FILE",
        default=None,
        help="the file to write, or a folder for it (else it lands here)",
    )
    paper.add_argument("--over", action="store_true", help="write over a file that is there already")
    printing = commands.add_parser(
        "print", help="answers on paper", description="Answers on paper, as PDF files."
    )
    kinds = printing.add_subparsers(title="what to print", metavar="WHAT", required=True)
    card = add_command(
        kinds, "card", common, paper, run="printing:card", text="the card of a joint, to tick and write on"
    )
    card.add_argument("joint", help="the joint, by its key in the data sheet")
    card.add_argument(
        "--loosening", action="store_true", help="how it is taken apart, where the sheet says it"
    )
    cards = add_command(
        kinds, "cards", common, paper, run="printing:cards", text="the cards of all joints, in one file"
    )
    cards.add_argument("--folder", default=None, help="one file for each joint, in this folder")
    add_template(kinds, common, paper)
    add_tracing(commands, common)
    _bench_set(kinds, common, paper)
    add_closed_book(kinds, common, paper)
    add_command(
        kinds,
        "shims",
        common,
        paper,
        run="printing:shims",
        text="which shim goes where, to take to the bench",
    )
    _shopping(kinds, common, paper)
    add_labels(kinds, common, paper)
    _shop(kinds, common, paper)
    why_not = add_command(
        kinds,
        "why-not",
        common,
        paper,
        run="printing:why_not",
        text="why it may not be started yet, to tick off",
    )
    why_not.add_argument(
        "--for", dest="milestone", choices=MILESTONES, default="crank", help="before which milestone"
    )


def _bench_set(kinds: Commands, common: argparse.ArgumentParser, paper: argparse.ArgumentParser) -> None:
    """What hangs and lies at the engine besides the cards, and all of it in one file."""
    for name, run, text in (
        ("measuring", "measuring", "measuring sheets: limits, every place, as found, as left"),
        ("lists", "lists", "the four open lists and the counts, with room to write"),
        ("holds", "holds", "the hold points of the job, with their proof or room for it"),
        ("set", "whole", "the whole bench set of the job in one file, filled as far as the book goes"),
    ):
        add_command(kinds, name, common, paper, run=f"bench_set:{run}", text=text)


def _shop(kinds: Commands, common: argparse.ArgumentParser, paper: argparse.ArgumentParser) -> None:
    for name, run, text in (
        ("shop-order", "printing:shop_order", "the order that leaves with a part to be cut"),
        ("shop-back", "printing:shop_back", "what came back against what was ordered, or the blank for it"),
    ):
        made = add_command(kinds, name, common, paper, run=run, text=text)
        made.add_argument(
            "--part", choices=("head", "block"), default="head", help="which part (else the head)"
        )


def _shopping(kinds: Commands, common: argparse.ArgumentParser, paper: argparse.ArgumentParser) -> None:
    buy = add_command(
        kinds,
        "buy",
        common,
        paper,
        run="printing:buy",
        text="the shopping list by supplier, to tick off",
    )
    buy.add_argument("--no-delay", action="store_true", help="as for `gudgeon buy`")
    estimate = add_command(
        kinds,
        "estimate",
        common,
        paper,
        run="printing:estimate",
        text="what it will cost, for the owner to sign",
    )
    estimate.add_argument("--closing", action="store_true", help="the closing account instead")
