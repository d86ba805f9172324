"""The closed book on paper: everything that was asked, found, done and accepted, in one file."""

import argparse
from argparse import Namespace

from gudgeon.cli.engine_commands import Commands, add_command


def add_closed_book(kinds: Commands, *parents: argparse.ArgumentParser) -> None:
    """`gudgeon print book`."""
    book = add_command(
        kinds,
        "book",
        *parents,
        run="closed_book:print_book",
        text="the whole book: findings, tightenings, proofs, receipts, photos, and how to verify it",
    )
    book.add_argument("--without-photos", action="store_true", help="leave the photos out of the print")


def print_book(chosen: Namespace) -> int:
    """The whole book, with what is open on top while it is not closed."""
    from gudgeon.bench.closed.ask import closed_book
    from gudgeon.book.address import photos_folder
    from gudgeon.cli.paper_files import path_for, size_of, told, write_file
    from gudgeon.cli.progress import progress
    from gudgeon.cli.questions import bench_of
    from gudgeon.paper.closed import closed_pdf

    bench = bench_of(chosen)
    path = path_for(chosen, bench.heading("What was done?"), "book")
    with progress() as tell:
        answer = closed_book(bench, tell=tell)
        made = closed_pdf(
            answer,
            size=size_of(chosen, bench),
            folder=photos_folder(bench.book),
            with_photos=not chosen.without_photos,
            tell=tell,
        )
    return told(chosen, answer.heading, write_file(chosen, path, made))
