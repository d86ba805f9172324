"""Labels: what a code on one is of, and the form from which they are printed."""

from typing import Any

from starlette.responses import Response

from gudgeon.bench.context import Bench
from gudgeon.bench.labels.ask import Labels, LabelsSaid, labels
from gudgeon.bench.labels.errors import LabelOfOtherBuild, NoSuchLabel, NotACode, spaced
from gudgeon.bench.labels.find import find_label, plain_code
from gudgeon.bench.labels.kinds import KINDS
from gudgeon.bench.labels.sheets import COMMON, MEASURES, USUAL, SheetSaid
from gudgeon.bench.labels.things import labeled
from gudgeon.errors import InputError
from gudgeon.paper.labels import labels_pdf
from gudgeon.web.desk import Address, Asked, Desk, go
from gudgeon.web.paper_files import as_file, size_of

KIND_CHOICES = (
    ("connector", "Connectors"), ("hose", "Hoses"), ("strap", "Straps"), ("bracket", "Brackets"),
    ("bolt", "Bolts in bags"), ("cover", "Covers"), ("part", "Parts"), ("plug", "Plugs in openings"),
    ("joint", "Bolts of joints"),
)  # fmt: skip
_FIELDS = (
    "kind",
    "only",
    "all",
    "sheet",
    "rows",
    "columns",
    "label",
    "margins",
    "gaps",
    "start",
    "wire",
    "outlines",
)


def which_label(desk: Desk, asked: Asked) -> Response:
    """A field for the code on a label; `?code=` leads to what it is of."""
    said = asked.query.get("code", "").strip()
    if code := plain_code(said):
        return go(f"/label/{code}")
    if said:
        return _found(desk, asked, said)
    with desk.bench() as bench:
        return _shown(desk, asked, bench)


def one_label(desk: Desk, asked: Asked) -> Response:
    """What the code on a label is of, where it goes, its state in the book, and what puts it back."""
    return _found(desk, asked, asked.path["code"])


def _found(desk: Desk, asked: Asked, said: str) -> Response:
    with desk.bench() as bench:
        try:
            found = find_label(bench, said)
        except (NoSuchLabel, NotACode, LabelOfOtherBuild) as error:
            near = [(code, spaced(code)) for code in error.near]
            return _shown(desk, asked, bench, status=404, error=error, near=near, code=said)
        return desk.page("label_found.html", bench=bench, asked=asked, answer=found, label=found.label)


def _shown(
    desk: Desk,
    asked: Asked,
    bench: Bench,
    *,
    status: int = 200,
    error: InputError | None = None,
    near: list[tuple[str, str]] | None = None,
    code: str = "",
) -> Response:
    return desk.page(
        "label.html", bench=bench, asked=asked, status=status, error=error, near=near or [], code=code
    )


def which_labels(desk: Desk, asked: Asked) -> Response:
    """The form from which labels are printed: of what, on which sheet, from which place on."""
    with desk.bench() as bench:
        return _form(desk, asked, bench)


def labels_on_paper(desk: Desk, asked: Asked) -> Response:
    """Labels as a PDF: `kind`, `only`, `sheet` or `rows`, `columns` and `label`, `start`, `wire`, `size`.

    What is refused stands above the form again.
    """
    with desk.bench() as bench:
        try:
            answer = _asked_for(asked, bench)
            made = labels_pdf(answer)
        except InputError as error:
            return _form(desk, asked, bench, error=error)
    return as_file(made, answer.heading, "labels")


def _asked_for(asked: Asked, bench: Bench) -> Labels:
    said = {name: asked.query.get(name, "").strip() for name in _FIELDS}
    if any(said.get(name) for name in MEASURES):
        said["sheet"] = ""  # the form has always one chosen; measures count where some were given
    return labels(
        bench,
        LabelsSaid(
            kinds=(said["kind"],) if said["kind"] else (),
            only=(said["only"],) if said["only"] else (),
            everything=bool(said["all"]),
            sheet=SheetSaid(
                said["sheet"],
                rows=said["rows"],
                columns=said["columns"],
                label=said["label"],
                margins=said["margins"],
                gaps=said["gaps"],
            ),
            start=said["start"],
            wire=said["wire"],
            outlines=bool(said["outlines"]),
        ),
        paper=size_of(asked, bench),
    )


def _form(desk: Desk, asked: Asked, bench: Bench, *, error: InputError | None = None) -> Response:
    said: dict[str, Any] = {name: asked.query.get(name, "") for name in _FIELDS}
    size = size_of(asked, bench)
    size = size if size in USUAL else "a4"
    said["sheet"] = said["sheet"] or USUAL[size].key
    return desk.page(
        "labels.html",
        bench=bench,
        asked=asked,
        status=200 if error is None else 422,
        error=error,
        said=said,
        size=size,
        kinds=KIND_CHOICES,
        every=[(one, spaced(one.code)) for one in labeled(bench)],
        sheets=[(one.key, one.name) for one in COMMON],
    )


assert tuple(kind for kind, _ in KIND_CHOICES) == KINDS

ADDRESSES = (
    Address("/label", which_label),
    Address("/label/{code}", one_label),
    Address("/labels", which_labels),
    Address("/paper/labels.pdf", labels_on_paper),
)
