"""What was done? The book as a list, newest first; striking an entry; verifying the chain."""

from starlette.responses import Response

from gudgeon.bench.entries import listed
from gudgeon.bench.record import find_entry, record
from gudgeon.bench.verifying import verified
from gudgeon.errors import GudgeonError
from gudgeon.web.desk import Address, Asked, Desk, go, own_address
from gudgeon.web.recording import back_to

PAGE = 50


def what_was_done(desk: Desk, asked: Asked) -> Response:
    """The entries of the build, a page at a time."""
    with desk.bench() as bench:
        answer = listed(bench)
        lines = answer.lines[::-1]
        pages = max(1, -(-len(lines) // PAGE))
        wanted = asked.query.get("page", "1")
        page = min(pages, max(1, int(wanted))) if wanted.isdecimal() and len(wanted) < 9 else 1
        return desk.page(
            "done.html",
            bench=bench,
            asked=asked,
            answer=answer,
            lines=lines[(page - 1) * PAGE : page * PAGE],
            page=page,
            pages=pages,
            verified=verified(desk.book) if asked.query.get("verify") else None,
        )


def strike_form(desk: Desk, asked: Asked) -> Response:
    """The form to strike one entry, with what it says."""
    return _strike(desk, asked)


def strike(desk: Desk, asked: Asked) -> Response:
    """Strike an entry, with the reason."""
    with desk.bench() as bench:
        try:
            entry = find_entry(bench, asked.path["entry"])
            fields = {"entry": entry, "why": asked.form.get("why", "").strip()}
            done = record(
                bench,
                "strike",
                fields,
                entry_id=asked.form.get("entry") or None,
                basis=asked.form.get("basis"),
            )
        except GudgeonError as error:
            return _strike(desk, asked, error=error)
    desk.said.keep(done)
    return go(back_to(asked.form.get("back", "") or "/done", entry=done.entry))


def _strike(desk: Desk, asked: Asked, *, error: GudgeonError | None = None) -> Response:
    with desk.bench() as bench:
        entry = find_entry(bench, asked.path["entry"])
        line = next(one for one in listed(bench).lines if one.id == entry)
        return desk.page(
            "strike.html",
            bench=bench,
            asked=asked,
            status=200 if error is None else 422,
            line=line,
            back=own_address(
                (asked.form if asked.posted else asked.query).get("back", ""), otherwise="/done"
            ),
            error=error,
        )


ADDRESSES = (
    Address("/done", what_was_done),
    Address("/strike/{entry}", strike_form),
    Address("/strike/{entry}", strike, methods=("POST",)),
)
