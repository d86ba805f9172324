"""The arguments of reading, verifying, copying and moving the book."""

import argparse

from gudgeon.cli.argument_types import count
from gudgeon.cli.engine_commands import Commands, add_command


def add_book(commands: Commands, common: argparse.ArgumentParser) -> None:
    """`gudgeon book`: all that is done to the book as a whole."""
    book = commands.add_parser(
        "book",
        help="read, verify, copy and move the book",
        description="Read, verify, copy and move the book.",
    )
    parts = book.add_subparsers(title="what to do", metavar="WHAT", required=True)
    show = add_command(parts, "show", common, run="books:show", text="the entries, struck ones legible")
    show.add_argument("--last", type=count, default=None, metavar="N", help="only the last N")
    verify = add_command(
        parts,
        "verify",
        common,
        run="books:verify",
        text="verify the chains, the photos and what they add up to",
    )
    verify.add_argument(
        "archive", nargs="?", default=None, metavar="ARCHIVE", help="an export or a backup (else the book)"
    )
    verify.add_argument(
        "--against", default=None, metavar="HEAD", help="the head from a printed page: is it in the chain?"
    )
    backup = add_command(
        parts, "backup", common, run="copies:backup", text="copy the whole book into one new file, read back"
    )
    backup.add_argument(
        "file",
        nargs="?",
        default=None,
        metavar="FILE",
        help="the file, or a folder (else it lands here, dated)",
    )
    restore = add_command(
        parts,
        "restore",
        common,
        run="copies:restore",
        text="make a new book of a backup, where there is none",
    )
    restore.add_argument("file", metavar="FILE", help="the backup or the export")
    export = add_command(
        parts,
        "export",
        common,
        run="copies:export",
        text="write the book, or one build, into one file that others can read",
    )
    export.add_argument("file", metavar="FILE", help="the file to write; it must not exist")
    taken = add_command(
        parts, "import", common, run="copies:take_in", text="take the builds of an export into the book"
    )
    taken.add_argument("file", metavar="FILE", help="the export or the backup")
    move = add_command(
        parts, "move", common, run="copies:move", text="take the book to another place, file or database"
    )
    move.add_argument("--to", required=True, metavar="BOOK", help="a new file, or the address of a database")
