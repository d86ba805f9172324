"""What a script of our pages is told instead of a page: it is in the book, it is refused, or it may be tried again."""

from starlette.responses import JSONResponse

from gudgeon.bench.context import Bench, state_after
from gudgeon.bench.errors import NoBook, NoSuchBuild, WhichBuild
from gudgeon.bench.record import Recorded
from gudgeon.book.errors import BookBusy, BookMissing, BookReadOnly, BookUnreadable, DiskFailed, DiskFull
from gudgeon.errors import GudgeonError

NOT_NOW: tuple[type[GudgeonError], ...] = (
    BookBusy,
    BookMissing,
    BookReadOnly,
    BookUnreadable,
    DiskFailed,
    DiskFull,
    NoBook,
    NoSuchBuild,
    WhichBuild,
)
"""What is wrong with the book and not with the entry: the same entry may be taken later."""


def in_the_book(bench: Bench, done: Recorded, *, then: str) -> JSONResponse:
    """It is on disk; `basis` is the head after it, `then` the page to which its form leads back."""
    told = {"recorded": True, "said": done.said, "remarks": done.remarks, "entry": done.entry}
    return JSONResponse({**told, "basis": state_after(bench).head, "then": then})


def turned_down(
    said: str, *, error: GudgeonError, status: int = 422, stale: bool = False, elsewhere: bool = False
) -> JSONResponse:
    """It is not in the book; `stale` says that only the seal of its form is old, `elsewhere` that it is of another."""
    if isinstance(error, NOT_NOW):
        status = 503
    told = {"recorded": False, "said": said, "stale": stale, "elsewhere": elsewhere}
    return JSONResponse(told, status)
