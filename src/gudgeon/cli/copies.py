"""Copies of the book: backup, restore, export, import, move."""

from argparse import Namespace
from collections.abc import Mapping
from pathlib import Path

from gudgeon.bench import copies
from gudgeon.bench.context import clock
from gudgeon.bench.copies import Copied, MovedTo, TakenIn
from gudgeon.book.address import book_address
from gudgeon.book.store import TakenOver
from gudgeon.cli.progress import progress
from gudgeon.cli.show import as_json, book_path, clean


def backup(chosen: Namespace) -> int:
    """Write the whole book into one new file."""
    with progress() as tell:
        answer = copies.back_up(book_path(chosen.book), to=chosen.file, now=clock().astimezone(), tell=tell)
    return _copied(answer, "Backup", chosen)


def export(chosen: Namespace) -> int:
    """Write a book, or one build of it, into one new file."""
    with progress() as tell:
        answer = copies.export(book_path(chosen.book), _file(chosen), build=chosen.build, tell=tell)
    return _copied(answer, "Export", chosen)


def restore(chosen: Namespace) -> int:
    """Make a new book of a backup."""
    with progress() as tell:
        answer = copies.restore(_file(chosen), to=book_path(chosen.book), tell=tell)
    return _taken_in(answer, "restored", chosen)


def take_in(chosen: Namespace) -> int:
    """Take the builds of an export into a book."""
    with progress() as tell:
        answer = copies.take_in(_file(chosen), to=book_path(chosen.book), tell=tell)
    return _taken_in(answer, "taken in", chosen)


def move(chosen: Namespace) -> int:
    """Take the whole book to another place."""
    with progress() as tell:
        answer = copies.move(
            book_path(chosen.book), to=book_address(chosen.to), now=clock().astimezone(), tell=tell
        )
    if chosen.json:
        as_json(answer)
    else:
        _moved(answer)
    return 1 if answer.photos_wrong else 0


def _file(chosen: Namespace) -> Path:
    return Path(chosen.file).expanduser()


def _copied(answer: Copied, what: str, chosen: Namespace) -> int:
    if chosen.json:
        as_json(answer)
    else:
        print(f"{what} written and read back: {answer.file} ({answer.size:,} bytes)")
        print(f"{answer.entries} entries, {len(answer.builds)} build(s), {answer.photos} photo(s)")
        _wrong(answer.photos_wrong, "not in it")
        print(f"SHA-256 of the file: {answer.sha256}")
        for build, head in answer.heads.items():
            print(f"Head of the chain of {clean(build)}, {answer.builds[build]} entries: {head}")
    return 1 if answer.photos_wrong else 0


def _taken_in(answer: TakenIn, what: str, chosen: Namespace) -> int:
    if chosen.json:
        as_json(answer)
    else:
        print(f"{answer.file} is {what}: the book is {answer.place}")
        _builds(answer.builds)
        print(f"Photos that were not there before: {answer.photos}")
        _wrong(
            dict.fromkeys(answer.photos_missing, "it was missing already when the copy was written"),
            "missing",
        )
    return 1 if answer.photos_missing else 0


def _moved(answer: MovedTo) -> None:
    print(f"Moved from {answer.left} to {answer.place}")
    _builds(answer.builds)
    print(f"Photos that were not there before: {answer.photos}")
    _wrong(answer.photos_wrong, "not moved")
    print(
        f"The book {answer.left} was left as it was. What is recorded in it from now on is missing in the new one."
    )
    if answer.marker:
        print(f"{answer.marker} says so beside it, and every answer from it does.")
    else:
        print("Nothing beside it says so: take care that nobody goes on writing there.")
    if answer.papers:
        print(
            f"The paths of sheets and kits began in {answer.papers}. For a database set GUDGEON_PAPERS to that "
            "folder, for a file copy them beside the new book; else the copies pinned in the book are used."
        )
    print(f"Go on with --book {answer.place}, or set GUDGEON_BOOK to it.")


def _builds(builds: tuple[TakenOver, ...]) -> None:
    for one in builds:
        if one.added:
            said = (
                f"{one.added} of {one.entries} entries were new"
                if one.added < one.entries
                else f"{one.entries} entries"
            )
        else:
            ahead = f"; the book is {one.ahead} further" if one.ahead else ""
            said = f"all {one.entries} entries were there already{ahead}"
        print(f"{clean(one.build)}: {said}. Head of the chain: {one.head}")


def _wrong(photos: Mapping[str, str], said: str) -> None:
    for sha, why in photos.items():
        print(f"! photo {sha[:8]} is {said}: {why}")
