"""The arguments of the page to share."""

import argparse

from gudgeon.cli.engine_commands import Commands, add_command


def add_sharing(commands: Commands, common: argparse.ArgumentParser) -> None:
    """`gudgeon share`: one file that shows others how it was done."""
    shared = add_command(
        commands,
        "share",
        common,
        run="sharing:share",
        text="a page to share: one file that shows how it was done and with what evidence",
    )
    shared.add_argument(
        "--of",
        metavar="WHAT",
        default="everything",
        help="everything (else this), cut, joint:KEY, reading:KEY or hold:KEY",
    )
    shared.add_argument(
        "--with",
        dest="let_in",
        metavar="CHOICES",
        action="append",
        default=[],
        help="what else goes in: names, dates, hours, prices, numbers, devices, tools; notes=12,15 and photos=20 by "
        "the numbers of their entries",
    )
    shared.add_argument(
        "--look",
        action="store_true",
        help="only tell what would be in it, and which words and photos could go in",
    )
    shared.add_argument(
        "--out",
        metavar="FILE",
        default=None,
        help="the file to write, or a folder for it (else it lands here)",
    )
    shared.add_argument("--over", action="store_true", help="write over a file that is there already")
