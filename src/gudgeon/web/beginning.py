"""May I begin it? A task is asked for; it is begun, or held back with the reasons and the way past them."""

from starlette.responses import Response

from gudgeon.bench.begun import asked_to_begin
from gudgeon.bench.context import Bench
from gudgeon.bench.start import start
from gudgeon.errors import GudgeonError
from gudgeon.web.desk import Address, Asked, Desk, go, own_address
from gudgeon.web.recording import at_the_time, back_to, seen_basis
from gudgeon.web.scripted import in_the_book, turned_down


def ask(desk: Desk, asked: Asked) -> Response:
    """Whether a task may be begun now."""
    with desk.bench() as bench:
        return _page(desk, asked, bench, task=asked.query.get("task", ""))


def begin(desk: Desk, asked: Asked) -> Response:
    """Begin it, or show what holds it back."""
    form = asked.form
    with desk.bench() as bench:
        try:
            done = start(
                at_the_time(bench, form),
                form.get("task", ""),
                override=form.get("override", ""),
                by=form.get("by", ""),
                entry_id=form.get("entry") or None,
                basis=seen_basis(bench, form),
            )
        except GudgeonError as error:
            if asked.by_script:
                return turned_down(str(error), error=error)
            return _page(desk, asked, bench, task=form.get("task", ""), error=error)
        desk.said.keep(done)
        then = back_to(form.get("back", ""), entry=done.entry)
        return in_the_book(bench, done, then=then) if asked.by_script else go(then)


def _page(
    desk: Desk, asked: Asked, bench: Bench, *, task: str, error: GudgeonError | None = None
) -> Response:
    said = asked.form if asked.posted else asked.query
    return desk.page(
        "begin.html",
        bench=bench,
        asked=asked,
        status=200 if error is None else 422,
        answer=asked_to_begin(bench, task),
        kept=said,
        back=own_address(said.get("back", ""), otherwise="/"),
        error=error,
    )


ADDRESSES = (Address("/begin", ask), Address("/begin", begin, methods=("POST",)))
