"""One door to every book: only here is it decided which store an address is opened with."""

from collections.abc import Callable
from datetime import datetime

from gudgeon.book.address import BookAddress, ServerAddress
from gudgeon.book.server_errors import DriverMissing
from gudgeon.book.store import Store

Clock = Callable[[], datetime]


def open_book(address: BookAddress, *, clock: Clock, create: bool = False, wait_s: float = 10.0) -> Store:
    """Open the book at an address, or make one where there is none; anything else there is left untouched."""
    if isinstance(address, ServerAddress):
        return _in_database(address, clock=clock, create=create, wait_s=wait_s)
    from gudgeon.book.sqlite import open_book as in_file

    return in_file(address, clock=clock, create=create, wait_s=wait_s)


def _in_database(address: ServerAddress, *, clock: Clock, create: bool, wait_s: float) -> Store:
    try:
        import psycopg  # noqa: F401  (tried here, so that what is missing can be said)
    except ImportError as error:
        raise DriverMissing(str(address), str(error).partition("\n")[0]) from None
    from gudgeon.book.postgres import PostgresStore

    return PostgresStore(address, clock=clock, create=create, wait_s=wait_s)
