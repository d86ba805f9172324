"""What was done? The book as a list, newest first; striking an entry; verifying the chain."""

from starlette.responses import Response

from gudgeon.bench.entries import line_of, listed
from gudgeon.bench.record import find_entry, record
from gudgeon.errors import GudgeonError
from gudgeon.web.desk import Address, Asked, Desk, go, own_address
from gudgeon.web.recording import at_the_time, back_to, seen_basis
from gudgeon.web.scripted import in_the_book, turned_down
from gudgeon.web.work_pages import check_of

PAGE = 50


def what_was_done(desk: Desk, asked: Asked) -> Response:
    """The entries of the build, a page at a time; `?verify=yes` checks the book, here if that is soon done."""
    check = check_of(desk) if asked.query.get("verify") else None
    if check is not None and check.fault is not None:
        raise check.fault
    if check is not None and check.state != "done":
        return go(f"/under-way/{check.id}")
    with desk.bench() as bench:
        pages = max(1, -(-bench.state.count // PAGE))
        wanted = asked.query.get("page", "1")
        page = min(pages, max(1, int(wanted))) if wanted.isdecimal() and len(wanted) < 9 else 1
        answer = listed(bench, last=PAGE, before=(page - 1) * PAGE)
        return desk.page(
            "done.html",
            bench=bench,
            asked=asked,
            answer=answer,
            count=bench.state.count,
            lines=answer.lines[::-1],
            page=page,
            pages=pages,
            verified=check.result.answer if check is not None else None,
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
                at_the_time(bench, asked.form),
                "strike",
                fields,
                entry_id=asked.form.get("entry") or None,
                basis=seen_basis(bench, asked.form),
            )
        except GudgeonError as error:
            if asked.by_script:
                return turned_down(str(error), error=error)
            return _strike(desk, asked, error=error)
        desk.said.keep(done)
        then = back_to(asked.form.get("back", "") or "/done", entry=done.entry)
        return in_the_book(bench, done, then=then) if asked.by_script else go(then)


def _strike(desk: Desk, asked: Asked, *, error: GudgeonError | None = None) -> Response:
    with desk.bench() as bench:
        entry = find_entry(bench, asked.path["entry"])
        line = line_of(bench, entry)
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
