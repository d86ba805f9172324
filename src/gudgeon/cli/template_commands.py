"""Commands of the card template: print it, and trace its positions from a photo."""

import argparse

from gudgeon.cli.engine_commands import Commands, add_command


def add_template(kinds: Commands, *parents: argparse.ArgumentParser) -> None:
    """`gudgeon print template`."""
    template = add_command(
        kinds,
        "template",
        *parents,
        run="templates:template",
        text="the card template of a joint at true scale: a hole for every fastener",
    )
    template.add_argument("joint", help="the joint, by its key in the data sheet")
    template.add_argument(
        "--positions",
        default=None,
        metavar="FILE.yaml",
        help="positions that `gudgeon trace` wrote (else those of the data sheet)",
    )
    template.add_argument(
        "--mirrored", action="store_true", help="as seen from the other side: left and right exchanged"
    )


def add_tracing(commands: Commands, common: argparse.ArgumentParser) -> None:
    """`gudgeon trace`."""
    trace = add_command(
        commands,
        "trace",
        common,
        run="templates:trace",
        text="positions of a joint's fasteners, traced from a photo with four known points",
    )
    trace.add_argument("photo", help="a photo of the book by its number, or a file")
    trace.add_argument("--joint", required=True, help="the joint, by its key in the data sheet")
    trace.add_argument(
        "--corner",
        dest="corners",
        action="append",
        default=[],
        metavar="PX,PY=X,Y",
        help="a known point: its pixels from the upper left corner of the photo, and its distances to the right and "
        "upward; four times or more",
    )
    trace.add_argument(
        "--place",
        dest="places",
        action="append",
        default=[],
        metavar="NUMBER=PX,PY",
        help="the middle of a hole: the number of its fastener and its pixels; once for each",
    )
    trace.add_argument(
        "--unit", choices=("mm", "in"), default="mm", help="of the distances of the known points"
    )
    trace.add_argument(
        "--viewed-from",
        default="",
        metavar="WORDS",
        help="the side that the photo shows (else as the sheet says)",
    )
    trace.add_argument(
        "--pointed",
        type=float,
        default=None,
        metavar="PIXELS",
        help="how far a point may be missed (else a two-thousandth of the longer side)",
    )
    trace.add_argument(
        "--out", metavar="FILE.yaml", default=None, help="the file to write (else it is only shown)"
    )
    trace.add_argument("--over", action="store_true", help="write over a file that is there already")
