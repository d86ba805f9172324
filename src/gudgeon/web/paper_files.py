"""A print handed over by a page: which size it has, and the name under which it is saved."""

import re

from starlette.responses import Response

from gudgeon.bench.answer import Heading
from gudgeon.bench.context import Bench
from gudgeon.paper.press import size_for
from gudgeon.paper.words import in_file_name
from gudgeon.web.desk import Asked


def size_of(asked: Asked, bench: Bench) -> str:
    """The size of paper: the one asked for (`?size=`), else the one in the kit, else A4."""
    return size_for(asked.query.get("size"), chosen=bench.kit.paper)


def saved_name(heading: Heading, what: str) -> str:
    """The name that a print is saved under: the build, and what it is."""
    return re.sub(r"[^A-Za-z0-9_-]+", "-", f"{in_file_name(heading.build)}-{what}").strip("-") + ".pdf"


def as_file(made: bytes, heading: Heading, what: str) -> Response:
    """A file to be saved, under a name that every header and file system takes."""
    return Response(
        made,
        media_type="application/pdf",
        headers={"Content-Disposition": f'attachment; filename="{saved_name(heading, what)}"'},
    )
