"""From a request to a bench and back to a page: what every page needs, in one place.

A page is a plain function `(desk, asked) -> Response`. It opens the bench with `desk.bench()`, asks one
question of `gudgeon.bench`, and hands the answer to a template with `desk.page(…)`.
"""

import hmac
import re
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from functools import partial
from typing import Any, TypeAlias
from urllib.parse import urlencode

from jinja2 import Environment
from starlette.responses import HTMLResponse, RedirectResponse, Response

from gudgeon.bench.always import always
from gudgeon.bench.context import Bench, Writer, entries_of, open_bench
from gudgeon.book.address import BookAddress
from gudgeon.errors import InputError, RecordError
from gudgeon.web.kept import Kept
from gudgeon.web.said import Said
from gudgeon.web.security import FORM_BYTES, Door, Seen
from gudgeon.web.sheet_words import sheet_pieces
from gudgeon.web.templating import environment
from gudgeon.web.work import Works


@dataclass(frozen=True, slots=True)
class Upload:
    """A file that came with a form."""

    name: str
    content: bytes


@dataclass(frozen=True, slots=True)
class Asked:
    """What a browser asked for: words of the address, its question part, and the form, all as text."""

    method: str
    address: str
    path: Mapping[str, str] = field(default_factory=dict)
    query: Mapping[str, str] = field(default_factory=dict)
    form: Mapping[str, str] = field(default_factory=dict)
    uploads: Mapping[str, Upload] = field(default_factory=dict)
    seen: Seen = field(default_factory=Seen)
    by_script: bool = False
    """Whether a script of our pages asks, which wants JSON back."""

    @property
    def posted(self) -> bool:
        """Whether a form was sent."""
        return self.method == "POST"

    @property
    def here(self) -> str:
        """Where a form on this page leads back to; on a form that is where it was begun, never the form."""
        said = self.form if self.posted else self.query
        if self.posted or "back" in said:
            return own_address(said.get("back", ""), otherwise="/")
        kept = {name: said for name, said in self.query.items() if name != "recorded"}
        return f"{self.address}?{urlencode(kept)}" if kept else self.address


@dataclass(frozen=True, slots=True)
class Desk:
    """One book, one build of it, the templates, and what was said lately."""

    book: BookAddress
    build: str | None
    templates: Environment
    door: Door
    said: Said = field(default_factory=Said)
    works: Works = field(default_factory=Works)
    kept: Kept = field(default_factory=Kept)
    writer: Writer | None = None
    """Who asks, once it is known."""

    def seen_by(self, asked: Asked) -> "Desk":
        """The same desk, at which the device that asks writes; refuses a stranger who is not let in."""
        holder = asked.seen.holder
        if holder is None and (asked.posted or not asked.seen.from_here):
            raise NotPaired(wrote=asked.posted)
        if holder is None:
            return self
        if asked.posted and not hmac.compare_digest(
            asked.form.get("seal", "").encode(), holder.seal.encode()
        ):
            raise NotItsForm
        return replace(self, writer=Writer(holder.device.who, holder.device.name))

    @contextmanager
    def bench(self) -> Iterator[Bench]:
        """The bench as it stands now; the book is let go of at the end of the block."""
        bench = open_bench(self.book, build=self.build, writer=self.writer)
        try:
            yield bench
        finally:
            bench.store.close()

    def same_book(self, asked: Asked) -> None:
        """Refuse a form that was made from another book than the one that is served now."""
        said = asked.form.get("chain", "")
        if said:
            with self.bench() as bench:
                if said != chain_of(bench):
                    raise OtherBook(bench.build)

    def page(
        self, template: str, *, bench: Bench, asked: Asked, status: int = 200, **answers: Any
    ) -> HTMLResponse:
        """A template filled with answers, and with what is always in sight."""
        text = self.templates.get_template(template).render(
            always=always(bench),
            at=asked.address,
            asked=asked,
            here=asked.here,
            carry=carried(bench, asked),
            in_words=partial(sheet_pieces, bench, back=asked.here),
            device=asked.seen.holder.device if asked.seen.holder else None,
            recorded=self.said.of(asked.query.get("recorded", "")),
            **answers,
        )
        return HTMLResponse(text, status)

    def bare(self, template: str, *, asked: Asked, status: int, **said: Any) -> HTMLResponse:
        """A page without a bench: there is no book, or something of ours failed."""
        text = self.templates.get_template(template).render(
            always=None,
            at=asked.address,
            asked=asked,
            here="/",
            recorded=None,
            carry=None,
            device=None,
            **said,
        )
        return HTMLResponse(text, status)


@dataclass(frozen=True, slots=True)
class Carried:
    """What the forms of a page carry: what was seen, in which book, and by whom."""

    basis: str
    chain: str
    seal: str


def carried(bench: Bench, asked: Asked) -> Carried:
    """What ties the forms of a page to the bench as it stands, and to the device that asks."""
    seal = asked.seen.holder.seal if asked.seen.holder else ""
    return Carried(bench.state.head, chain_of(bench), seal)


class NotPaired(InputError):
    """A device that is not on the list."""

    def __init__(self, *, wrote: bool) -> None:
        what = "so nothing was written" if wrote else "so nothing of the book is shown to it"
        super().__init__(f"This device is not paired, {what}. Pair it with a code, then do it again.")


class NotItsForm(RecordError):
    """A form that does not carry the seal of its device."""

    def __init__(self) -> None:
        super().__init__(
            "This form was made before this device was paired, or by another page. Nothing was written. Open the page "
            "anew, then write it again."
        )


class OtherBook(RecordError):
    """A form that was made from another book, or from another engine of it."""

    def __init__(self, build: str) -> None:
        super().__init__(
            f"This form belongs to another book than the one that is open here now (build `{build}`). Nothing was "
            "written. Open the page anew, look at what this book says, then write it again."
        )


_CHAINS: dict[str, str] = {}
_CHAINS_MOST = 64


def chain_of(bench: Bench) -> str:
    """Which chain of which book this is: the build, and the hash of its first entry. Two books never share it."""
    head = bench.state.head
    if head not in _CHAINS:
        while len(_CHAINS) >= _CHAINS_MOST:
            _CHAINS.pop(next(iter(_CHAINS)), None)
        _CHAINS[head] = f"{bench.build} {entries_of(bench)[0].hash[:16]}"
    return _CHAINS[head]


def sheet_name(bench: Bench) -> str:
    """The name of the file in which the data sheet is written; empty where it is gone."""
    return bench.papers.sheet_file.name if bench.papers.sheet_file is not None else ""


def own_address(address: str, *, otherwise: str) -> str:
    """An address of these pages as it was given; anything else is not followed.

    A browser leaves out tabs and line ends, takes `\\` for `/`, and reads any number of them as the begin of another
    machine's address.
    """
    return address if _OWN.fullmatch(address) else otherwise


_OWN = re.compile(r"/(?![/\\])[^\\\x00-\x1f\x7f]*")

Handler: TypeAlias = Callable[[Desk, Asked], Response]


@dataclass(frozen=True, slots=True)
class Address:
    """An address, the page that answers there, and how much a form may send to it."""

    path: str
    handler: Handler
    methods: tuple[str, ...] = ("GET",)
    most_bytes: int = FORM_BYTES
    most_fields: int = 200
    open: bool = False
    """Whether a stranger is answered too: only where he is let in."""


def go(address: str) -> RedirectResponse:
    """Send the browser on with a GET, so that a reload does not send the form again."""
    return RedirectResponse(address, 303)


def desk_for(book: BookAddress, *, build: str | None, door: Door) -> Desk:
    """The desk of a book."""
    return Desk(book, build, environment(), door)
