"""Is it good? An index by part, and one page for each characteristic with the form to record a reading."""

from collections import Counter
from dataclasses import dataclass

from starlette.responses import Response

from gudgeon.bench.context import Bench
from gudgeon.bench.good import Row, inspect
from gudgeon.bench.to_measure import to_measure
from gudgeon.errors import GudgeonError
from gudgeon.web.desk import Address, Asked, Desk


@dataclass(frozen=True, slots=True)
class Line:
    """One characteristic in the index: its limits, and how its places are judged."""

    item: str
    name: str
    limits: tuple[str, ...]
    verdicts: tuple[tuple[str, int], ...]


def is_it_good(desk: Desk, asked: Asked) -> Response:
    """Every characteristic, by part."""
    with desk.bench() as bench:
        answer = inspect(bench)
        return desk.page("good.html", bench=bench, asked=asked, answer=answer, parts=_by_part(answer.rows))


def _by_part(rows: tuple[Row, ...]) -> dict[str, list[Line]]:
    items: dict[str, list[Row]] = {}
    for row in rows:
        items.setdefault(row.item, []).append(row)
    parts: dict[str, list[Line]] = {}
    for key, own in items.items():
        verdicts = Counter(row.verdict for row in own)
        line = Line(key, own[0].name, limits(own[0]), tuple(verdicts.items()))
        parts.setdefault(own[0].part, []).append(line)
    return parts


def limits(row: Row) -> tuple[str, ...]:
    """New range, wear limit and requirement, in words, as far as the sheet states them."""
    stated = (("new", row.new_range), ("wear limit", row.wear_limit), ("required", row.required))
    return tuple(f"{name} {text}" for name, text in stated if text)


def one_characteristic(desk: Desk, asked: Asked) -> Response:
    """One characteristic with its places and the form to record a reading."""
    with desk.bench() as bench:
        return reading_page(desk, asked, bench, item=asked.path["item"])


def reading_page(
    desk: Desk, asked: Asked, bench: Bench, *, item: str, error: GudgeonError | None = None
) -> Response:
    """The page of a characteristic; with what was refused, and what was said kept in its form."""
    form = to_measure(bench, item)
    answer = inspect(bench, only=item)
    rows = tuple(row for row in answer.rows if row.item == item)
    return desk.page(
        "characteristic.html",
        bench=bench,
        asked=asked,
        status=200 if error is None else 422,
        answer=answer,
        rows=rows,
        limits=limits(rows[0]),
        verdicts=Counter(row.verdict for row in rows),
        form=form,
        names={key: bench.sheet.characteristics[key].name for key in form.computed_from},
        error=error,
    )


ADDRESSES = (Address("/good", is_it_good), Address("/good/{item}", one_characteristic))
