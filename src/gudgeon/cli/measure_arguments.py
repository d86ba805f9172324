"""Arguments of `gudgeon measure`."""

import argparse


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """What is measured, with what, how warm; or a file that is taken over."""
    parser.add_argument("what", metavar="PART", help="a part, or a characteristic by its key")
    parser.add_argument(
        "--as-left", dest="condition", action="store_const", const="as left", default="as found",
        help="measured after the work (else: as found)",
    )  # fmt: skip
    parser.add_argument(
        "--gauge", metavar="KEY", default="", help="the gauge, by its key in the kit (else it asks)"
    )
    parser.add_argument(
        "--unit", metavar="UNIT", default="", help="of figures that have none (else that of the gauge)"
    )
    parser.add_argument(
        "--part-temp",
        dest="part_temperature",
        metavar="VALUE",
        default="",
        help="how warm the part is, like `24 °C`",
    )
    parser.add_argument(
        "--gauge-temp", dest="gauge_temperature", metavar="VALUE", default="",
        help="how warm the gauge is, like `21 °C` or `same as part`",
    )  # fmt: skip
    parser.add_argument("--rest", action="store_true", help="only the places without a reading")
    parser.add_argument(
        "--sure", action="store_true", help="keep everything although it is far from what the sheet says"
    )
    files = parser.add_mutually_exclusive_group()
    files.add_argument(
        "--table", metavar="FILE", default=None, help="take over a filled table: all of it or nothing"
    )
    files.add_argument(
        "--blank-table", metavar="FILE", nargs="?", const="-", default=None,
        help="write the table to fill in (without a file: print it)",
    )  # fmt: skip
    files.add_argument(
        "--face", metavar="FILE", default=None, help="take over the points x, y, z of a scanned face, as CSV"
    )
