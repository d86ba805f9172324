"""The page on which he chooses what to share, is told what goes in and what stays out, and saves the file."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import replace
from urllib.parse import urlencode

from starlette.responses import Response

from gudgeon.bench.context import Bench
from gudgeon.bench.shared_page.answer import shared_page
from gudgeon.bench.shared_page.choices import PLAIN, Choices
from gudgeon.bench.shared_page.offered import photos_offered, words_offered
from gudgeon.bench.shared_page.scope import EVERYTHING, scope_said, scopes
from gudgeon.errors import GudgeonError, InputError, short
from gudgeon.web.desk import Address, Asked, Desk
from gudgeon.web.shared_file import shared_html, shared_name

_NUMBERED = re.compile("[np][0-9]{1,9}")
"""The words, or the photo, of an entry."""


class NotYes(InputError):
    """What lets something of his own in is said in one way, so that nothing goes in that was meant to stay out."""

    def __init__(self, name: str, said: str) -> None:
        super().__init__(
            f"{name}={short(said)} says neither that it goes in nor that it stays out. Say {name}=yes to let it in, "
            f"and leave {name} away to keep it out. Nothing was made."
        )


def share(desk: Desk, asked: Asked) -> Response:
    """What can be shared, the choices, and in words everything that goes in: the file is made of the same answer."""
    of = asked.query.get("of") or EVERYTHING
    with desk.bench() as bench:
        error: GudgeonError | None = None
        try:
            scope = scope_said(bench, of)
        except GudgeonError as refused:
            scope, error = scope_said(bench, EVERYTHING), refused
        page, size, chosen = None, 0, Choices()
        try:
            chosen = _offered(bench, scope.said, _ticked(asked.query))
            page = shared_page(bench, of=scope.said, choices=chosen)
            size = len(shared_html(bench, page))
        except GudgeonError as refused:
            page, error = None, refused
        return desk.page(
            "share.html",
            bench=bench,
            asked=asked,
            status=200 if error is None else 422,
            scope=scope,
            scopes=[(one.said, f"{one.title}{_FAMILY[one.family]}") for one in scopes(bench)],
            plain=[(name, words, getattr(chosen, name)) for name, words in PLAIN.items()],
            words=words_offered(bench, scope.said, chosen),
            photos=photos_offered(bench, scope.said),
            chosen=chosen,
            page=page,
            size=f"{max(size, 1000) / 1000:,.0f} kB",
            save=f"/paper/shared.html?{urlencode(_query(scope.said, chosen))}",
            error=error,
        )


_FAMILY = {
    "everything": ", the whole job",
    "joint": ": tightening",
    "reading": ": measuring",
    "hold": "",
    "cut": "",
}


def shared(desk: Desk, asked: Asked) -> Response:
    """The page as a file to be saved: `of=joint:head`, `names=yes` and the like, `n12=yes` for the words of entry 12,
    `p15=yes` for the photo of entry 15. Any other value is refused, and so is a number that is not part of it."""
    with desk.bench() as bench:
        scope = scope_said(bench, asked.query.get("of") or EVERYTHING)
        page = shared_page(bench, of=scope.said, choices=_ticked(asked.query))
        made = shared_html(bench, page)
    return Response(
        made,
        media_type="text/html; charset=utf-8",
        headers={"Content-Disposition": f'attachment; filename="{shared_name(scope.said)}"'},
    )


def _ticked(query: Mapping[str, str]) -> Choices:
    """What was ticked: whatever lets something of his own in says `yes`, and nothing else is taken for it."""
    ticked = {name for name in query if name in PLAIN or _NUMBERED.fullmatch(name)}
    for name in sorted(ticked):
        if query[name] != "yes":
            raise NotYes(name, query[name])
    return Choices(
        **{name: name in ticked for name in PLAIN},
        notes=_numbers(ticked, "n"),
        photos=_numbers(ticked, "p"),
    )


def _numbers(ticked: Iterable[str], mark: str) -> frozenset[int]:
    return frozenset(int(name[1:]) for name in ticked if name not in PLAIN and name[0] == mark)


def _offered(bench: Bench, of: str, chosen: Choices) -> Choices:
    """Of words and photos only what is offered for this page: ticked for another one, they stay out."""
    words = {one.number for one in words_offered(bench, of, chosen)}
    photos = {one.number for one in photos_offered(bench, of)}
    return replace(chosen, notes=chosen.notes & words, photos=chosen.photos & photos)


def _query(of: str, chosen: Choices) -> dict[str, str]:
    ticked = [name for name in PLAIN if getattr(chosen, name)]
    ticked += [f"n{number}" for number in sorted(chosen.notes)]
    ticked += [f"p{number}" for number in sorted(chosen.photos)]
    return {"of": of, **dict.fromkeys(ticked, "yes")}


ADDRESSES = (
    Address("/share", share),
    Address("/paper/shared.html", shared),
)
