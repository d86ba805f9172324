"""One door to every book: only here is it decided which store an address is opened with."""

from collections.abc import Callable
from datetime import datetime

from gudgeon.book.address import BookAddress, ServerAddress
from gudgeon.book.store import Store

Clock = Callable[[], datetime]


def open_book(address: BookAddress, *, clock: Clock, create: bool = False, wait_s: float = 10.0) -> Store:
    """Open the book at an address, or make one where there is none; anything else there is left untouched."""
    if isinstance(address, ServerAddress):
        from gudgeon.book.postgres import open_database

        return open_database(address, clock=clock, create=create, wait_s=wait_s)
    from gudgeon.book.sqlite import open_book as open_file

    return open_file(address, clock=clock, create=create, wait_s=wait_s)
