"""The page on which he chooses what to share, is told what goes in and what stays out, and saves the file."""

from collections.abc import Mapping
from dataclasses import replace
from urllib.parse import urlencode

from starlette.responses import Response

from gudgeon.bench.context import Bench
from gudgeon.bench.shared_page.answer import shared_page
from gudgeon.bench.shared_page.choices import PLAIN, Choices
from gudgeon.bench.shared_page.offered import photos_offered, words_offered
from gudgeon.bench.shared_page.scope import EVERYTHING, scope_said, scopes
from gudgeon.errors import GudgeonError
from gudgeon.web.desk import Address, Asked, Desk
from gudgeon.web.shared_file import shared_html, shared_name

MOST_CHOSEN = 1_000


def share(desk: Desk, asked: Asked) -> Response:
    """What can be shared, the choices, and in words everything that goes in: the file is made of the same answer."""
    of = asked.query.get("of") or EVERYTHING
    with desk.bench() as bench:
        error: GudgeonError | None = None
        try:
            scope = scope_said(bench, of)
        except GudgeonError as refused:
            scope, error = scope_said(bench, EVERYTHING), refused
        chosen = _chosen(bench, scope.said, asked.query)
        page, size = None, 0
        try:
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
    `p15=yes` for the photo of entry 15."""
    with desk.bench() as bench:
        scope = scope_said(bench, asked.query.get("of") or EVERYTHING)
        page = shared_page(bench, of=scope.said, choices=_chosen(bench, scope.said, asked.query))
        made = shared_html(bench, page)
    return Response(
        made,
        media_type="text/html; charset=utf-8",
        headers={"Content-Disposition": f'attachment; filename="{shared_name(scope.said)}"'},
    )


def _chosen(bench: Bench, of: str, query: Mapping[str, str]) -> Choices:
    """What was ticked; of words and photos only what is offered for this page, so that what is not stays out."""
    plain = {name: name in query for name in PLAIN}
    bare = Choices(**plain, notes=frozenset(), photos=frozenset())
    words = {one.number for one in words_offered(bench, of, bare)}
    photos = {one.number for one in photos_offered(bench, of)}
    return replace(
        bare, notes=frozenset(words & _numbers(query, "n")), photos=frozenset(photos & _numbers(query, "p"))
    )


def _numbers(query: Mapping[str, str], mark: str) -> set[int]:
    said = [name[1:] for name in query if name[:1] == mark and name[1:].isdecimal() and len(name) < 10]
    return {int(number) for number in said[:MOST_CHOSEN]}


def _query(of: str, chosen: Choices) -> dict[str, str]:
    ticked = [name for name in PLAIN if getattr(chosen, name)]
    ticked += [f"n{number}" for number in sorted(chosen.notes)]
    ticked += [f"p{number}" for number in sorted(chosen.photos)]
    return {"of": of, **dict.fromkeys(ticked, "yes")}


ADDRESSES = (
    Address("/share", share),
    Address("/paper/shared.html", shared),
)
