"""The machine shop: what was ordered and said, what came back by the readings, and all that the cut did."""

import re
from collections.abc import Iterator

from gudgeon.bench.closed.model import Drawn, Mark, Row, Section, Table
from gudgeon.bench.closed.told import Told, asked, table
from gudgeon.bench.cut.consequences import CutAnswer, consequences
from gudgeon.bench.cut.inputs_head import made
from gudgeon.bench.pictures.cut import cut_picture
from gudgeon.bench.shop.found import PartKind
from gudgeon.bench.shop.incoming import BASIS, IncomingCheck, incoming
from gudgeon.bench.shop.ordered import MORE, order_of
from gudgeon.book.state import ShopState

_FIELD = re.compile(r" \([a-z_]+: [^()]*\)")
"""How the sheet calls a field: who holds the book has no use for it."""
PARTS: tuple[PartKind, ...] = ("head", "block")


def shop(told: Told) -> Section:
    """Orders, checks of what came back, the cut with its consequences, and the drawing of it."""
    bench = told.bench
    tables: list[Table] = [*told.listed("Out and back", told.of("shop-out", "shop-back"))]
    said: list[str] = []
    missing: list[str] = []
    for part in PARTS:
        if order_of(bench, part=part) is None:
            continue
        check, why = asked(lambda part=part: incoming(bench, part=part))  # type: ignore[misc]
        missing += why
        if check is not None:
            said += check.plain
            tables += _checked(check)
            missing += [f"{check.part}: {one.what} – {_FIELD.sub('', one.why)}." for one in check.not_back]
    away = [part for part, one in bench.state.shop.items() if not one.back]
    missing += [f"{part} is still at {_at(bench.state.shop[part])} by the book." for part in away]
    if not bench.state.shop:
        missing.append("Nothing went to a machine shop by the book.")
    answer, _ = asked(lambda: consequences(bench) if made(bench) is not None else None)
    if answer is not None:
        tables += _consequences(answer)
        said.append(answer.verdict)
        missing += [f"Not worked out: {one}." for one in answer.missing]
    if said:
        said.append(BASIS)
    return Section(
        "shop",
        "Machine shop and cut",
        tuple(filter(None, said)),
        tuple(tables),
        tuple(dict.fromkeys(missing)),
        tuple(_pictures(told)) if answer is not None else (),
    )


def _at(one: ShopState) -> str:
    return one.shop or "the shop"


def _mark(verdict: str) -> Mark:
    if verdict.startswith(("outside", MORE)):
        return "outside"
    return "doubt" if verdict.startswith("in doubt") else ""


def _checked(check: IncomingCheck) -> Iterator[Table]:
    heads = ("What", "Asked", "Came back", "Verdict", "What follows")
    rows = (
        Row(
            (one.what, ", ".join(filter(None, [one.asked, one.source])), one.got, one.verdict, one.follows),
            mark=_mark(one.verdict),
        )
        for one in check.lines
    )
    yield from table(f"{check.part}: back, against the order", heads, rows)
    askew = check.askew.words if check.askew is not None else ""
    places = (Row((one.place, one.before, one.after, one.off, one.uncertainty)) for one in check.places)
    yield from table(
        f"{check.part}: what came off", ("Place", "As found", "As left", "Off", "U"), places, note=askew
    )


def _consequences(answer: CutAnswer) -> Iterator[Table]:
    heads = ("What", "Before", "After", "Limit", "Verdict", "From")
    for one in answer.tables:
        rows = (
            Row(
                (line.what, line.before, line.after, line.limit, line.verdict, line.source),
                mark=_mark(line.verdict),
            )
            for line in one.lines
        )
        gasket = f"gasket {one.gasket}" if one.gasket else ""
        note = "; ".join(filter(None, [gasket, *one.missing]))
        yield from table(f"What {one.cut} off does ({one.cut_from})", heads, rows, note=note)


def _pictures(told: Told) -> Iterator[Drawn]:
    drawn, _ = asked(lambda: cut_picture(told.bench))
    if drawn is not None:
        yield drawn
