"""What a device needs while the book is out of reach: how far the book is, and the program that keeps its pages."""

from collections.abc import Mapping
from contextlib import closing
from dataclasses import asdict
from functools import lru_cache
from hashlib import sha256
from importlib import resources
from typing import Any

from starlette.responses import JSONResponse, Response

from gudgeon import __version__
from gudgeon.bench.context import open_store
from gudgeon.bench.meanwhile import written_after
from gudgeon.errors import GudgeonError
from gudgeon.web.desk import Address, Asked, Desk
from gudgeon.web.templating import static

MOST_TOLD = 5
LONGEST_HEAD = 64
NEEDED = ("style.css", "mark.svg", "comfort.js", "queue.js", "waiting.js", "live.js")
"""What the page needs that stands in for one that was never kept."""


def where_it_stands(desk: Desk, asked: Asked) -> Response:
    """How far the book is, for a page that asks every moment; with `since`, who wrote what after that."""
    since = asked.query.get("since", "")[:LONGEST_HEAD]
    try:
        with closing(open_store(desk.book)) as store:
            build = desk.build or next(iter(store.builds()), "")
            head = store.head(build) if build else ""
        told: dict[str, Any] = {"head": head, "seal": asked.seen.holder.seal if asked.seen.holder else ""}
        return JSONResponse({**told, **_since(desk, since)} if since and since != head else told)
    except GudgeonError as error:
        return JSONResponse({"head": "", "said": str(error)}, 503)


def _since(desk: Desk, since: str) -> Mapping[str, Any]:
    with desk.bench() as bench:
        found = written_after(bench, since, most=MOST_TOLD)
    if found is None:
        return {"other": True}
    many, last = found
    return {"other": False, "many": many, "since": [asdict(one) for one in last]}


def keeper(desk: Desk, asked: Asked) -> Response:
    """The program with which a browser keeps pages it has seen; another one with every change of what they need."""
    needed = ", ".join(f'"{static(name)}"' for name in NEEDED)
    text = f'const VERSION = "{version()}";\nconst NEEDED = [{needed}];\n{_program()}'
    return Response(text, media_type="text/javascript", headers={"Cache-Control": "no-cache"})


def out_of_reach(desk: Desk, asked: Asked) -> Response:
    """What a browser shows in place of a page that it never kept; nothing of the book stands on it."""
    return desk.bare("out_of_reach.html", asked=asked, status=200)


@lru_cache(maxsize=1)
def version() -> str:
    """A mark of everything that kept pages are shown with: with another one nothing of the old ones is shown."""
    folder = resources.files("gudgeon.web").joinpath("static")
    files = sorted((one for one in folder.iterdir() if one.is_file()), key=lambda one: one.name)
    return sha256(b"".join([__version__.encode(), *(one.read_bytes() for one in files)])).hexdigest()[:16]


@lru_cache(maxsize=1)
def _program() -> str:
    return resources.files("gudgeon.web").joinpath("static", "sw.js").read_text("utf-8")


ADDRESSES = (
    Address("/standing", where_it_stands),
    Address("/sw.js", keeper, open=True),
    Address("/out-of-reach", out_of_reach, open=True),
)
