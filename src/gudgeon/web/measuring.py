"""Is it good? An index by part, and one page for each characteristic with the form to record a reading."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, replace
from urllib.parse import quote, urlencode

from starlette.responses import Response

from gudgeon.bench.bodies import characteristic
from gudgeon.bench.context import Bench
from gudgeon.bench.face_file import FACES
from gudgeon.bench.good import Row, inspect
from gudgeon.bench.judging.criteria import stated_limits
from gudgeon.bench.judging.deciding import can_decide
from gudgeon.bench.measuring_errors import LIKELY_SLIPS
from gudgeon.bench.pictures.of import picture
from gudgeon.bench.pictures.spots import spot_picture
from gudgeon.bench.to_measure import ToMeasure, to_measure
from gudgeon.errors import GudgeonError
from gudgeon.paper.svg_picture import picture_svg
from gudgeon.paper.svg_spots import spots_svg
from gudgeon.quantity.format import units_shown
from gudgeon.sheet.inspections import Characteristic
from gudgeon.web.desk import Address, Asked, Desk, sheet_name
from gudgeon.web.shims_page import shims_decide


@dataclass(frozen=True, slots=True)
class Line:
    """One characteristic in the index: its limits, and how its places are judged."""

    item: str
    name: str
    limits: tuple[str, ...]
    verdicts: tuple[tuple[str, int], ...]


def is_it_good(desk: Desk, asked: Asked) -> Response:
    """Every characteristic, by part; `?whole=yes` the whole inspection sheet, `&part=` that of one part."""
    with desk.bench() as bench:
        answer = inspect(bench)
        only = asked.query.get("part", "")
        if only:
            answer = replace(answer, rows=tuple(row for row in answer.rows if row.part == only))
        counts = verdicts(answer.rows)
        parts, file = _by_part(bench, answer.rows), sheet_name(bench)
        return desk.page(
            "good.html",
            bench=bench,
            asked=asked,
            answer=answer,
            counts=counts,
            parts=parts,
            file=file,
            whole=asked.query.get("whole") == "yes",
            only=only,
            by_item=_by_item(answer.rows),
            tables={part: table_address(part) for part in parts},
            bench_sources=bench.sheet.sources,
        )


def verdicts(rows: Iterable[Row]) -> Counter[str]:
    """How many places have which verdict; places without a reading stand in one row, and count each."""
    found = Counter[str]()
    for row in rows:
        found[row.verdict] += row.count
    return found


def _by_part(bench: Bench, rows: tuple[Row, ...]) -> dict[str, list[Line]]:
    items: dict[str, list[Row]] = {}
    for row in rows:
        items.setdefault(row.item, []).append(row)
    parts: dict[str, list[Line]] = {}
    for key, own in items.items():
        line = Line(key, own[0].name, limits(bench, key), tuple(verdicts(own).items()))
        parts.setdefault(own[0].part, []).append(line)
    return parts


def _by_item(rows: tuple[Row, ...]) -> dict[str, dict[str, list[Row]]]:
    found: dict[str, dict[str, list[Row]]] = {}
    for row in rows:
        found.setdefault(row.part, {}).setdefault(row.item, []).append(row)
    return found


def limits(bench: Bench, key: str) -> tuple[str, ...]:
    """What limits a characteristic, as its page begins with it."""
    return tuple(
        f"{name.removesuffix(' range')} {said}" for name, said in stated_limits(bench.sheet, key).items()
    )


def one_characteristic(desk: Desk, asked: Asked) -> Response:
    """One characteristic with its places and the form to record a reading."""
    with desk.bench() as bench:
        return reading_page(desk, asked, bench, item=asked.path["item"])


def reading_page(
    desk: Desk,
    asked: Asked,
    bench: Bench,
    *,
    item: str,
    error: GudgeonError | None = None,
    scan_error: GudgeonError | None = None,
) -> Response:
    """The page of a characteristic; with what was refused, and what was said kept in its form."""
    form = to_measure(bench, item)
    answer = inspect(bench, only=item)
    rows = tuple(row for row in answer.rows if row.item == item)
    return desk.page(
        "characteristic.html",
        bench=bench,
        asked=asked,
        status=200 if error is None and scan_error is None else 422,
        answer=answer,
        rows=rows,
        scannable=bench.sheet.characteristics[item].method in FACES,
        scan_error=scan_error,
        limits=limits(bench, item),
        verdicts=verdicts(rows),
        form=form,
        start=starting(bench, form),
        judged=_just_judged(desk, asked, bench, rows),
        decides=can_decide(bench, item).words,
        picture=_picture_words(bench, item),
        table=table_address(form.part, only=item),
        shims=shims_decide(bench, item),
        bench_sources=bench.sheet.sources,
        names={key: bench.sheet.characteristics[key].name for key in form.computed_from},
        error=error,
        keepable=isinstance(error, LIKELY_SLIPS),
    )


def _picture_words(bench: Bench, item: str) -> str:
    """The picture of a characteristic in words; empty where none can be made."""
    try:
        return picture(bench, item).words
    except GudgeonError:
        return ""


def drawn(desk: Desk, asked: Asked) -> Response:
    """The picture of a characteristic, as SVG."""
    with desk.bench() as bench:
        svg = picture_svg(picture(bench, asked.path["item"]))
    return Response(svg, media_type="image/svg+xml", headers={"Content-Disposition": "inline"})


def places_drawn(desk: Desk, asked: Asked) -> Response:
    """The places of a characteristic in rows, each with its reading and its state, as SVG."""
    with desk.bench() as bench:
        bench.unlock()
        svg = spots_svg(spot_picture(bench, characteristic_key(bench, asked.path["item"])))
    return Response(svg, media_type="image/svg+xml", headers={"Content-Disposition": "inline"})


def characteristic_key(bench: Bench, item: str) -> str:
    """A key of the sheet; refused where the sheet has none of that name."""
    characteristic(bench.sheet, item)
    return item


def drawing_address(bench: Bench, item: str) -> str:
    """Where the drawing beside a table stands: the face where the sheet draws one, else the places in rows."""
    faced = bench.sheet.characteristics[item].face in bench.sheet.faces
    return f"/good/{quote(item)}/{'picture' if faced else 'places'}.svg"


CONDITIONS = ("as found", "as left")
SAY_WHICH = "work on it is in the book: say which it is"


def table_address(part: str, *, condition: str = "", only: str = "") -> str:
    """Where the table of a part stands, or the part of it that one characteristic takes."""
    said = {"condition": condition, "only": only}
    query = urlencode({name: value for name, value in said.items() if value})
    return f"/good/part/{quote(part)}" + (f"?{query}" if query else "")


def sheet_address(part: str) -> str:
    """Where the inspection sheet of a part stands."""
    return f"/good?{urlencode({'whole': 'yes', 'part': part})}"


@dataclass(frozen=True, slots=True)
class Starting:
    """What a form begins with, and why where a person might not expect it."""

    gauge: str
    unit: str
    unit_why: str
    condition: str
    condition_why: str


def starting(bench: Bench, form: ToMeasure) -> Starting:
    """The gauge of the last reading, the unit that gauge or the sheet prints first, and never a guess at when."""
    item = bench.sheet.characteristics[form.item]
    found = [one for (key, _, _), one in bench.state.readings.items() if key == form.item]
    last = max(found, key=lambda one: one.time, default=None)
    gauge = last.instrument if last is not None and last.instrument in bench.kit.gauges else ""
    printed, unit = _printed_unit(item, form), ""
    if last is not None and gauge and last.unit in form.units:
        graduated = bench.kit.gauges[gauge].step or bench.kit.gauges[gauge].range
        # An entry in inches on a gauge in millimeters was the exception: the next one does not follow it.
        if graduated is not None and graduated.first.unit.symbol == last.unit:
            unit = last.unit
    why = f"as this gauge reads; the sheet prints {printed}" if unit not in ("", printed) else ""
    if not unit and (own := _own_unit(bench, item, form)) not in ("", printed):
        unit, why = own, f"as you read; the sheet prints {printed}"
    worked = worked_on(bench, [form.item])
    return Starting(gauge, unit or printed, why, "" if worked else CONDITIONS[0], SAY_WHICH if worked else "")


def worked_on(bench: Bench, items: Iterable[str]) -> bool:
    """Whether the book knows of work on any of them: then nobody but the person knows when it was read."""
    own = frozenset(items)
    return any(_came_back(bench, bench.sheet.characteristics[key]) for key in own) or any(
        key in own and condition == CONDITIONS[1] for key, _, condition in bench.state.readings
    )


def _own_unit(bench: Bench, item: Characteristic, form: ToMeasure) -> str:
    """The unit that the person reads, unless the gauge that is likely to be taken is graduated in another system."""
    if bench.kit.units != "inch":
        return ""
    gauge = bench.kit.gauges.get(form.gauge)
    graduated = (gauge.step or gauge.range) if gauge is not None else None
    if graduated is not None and graduated.first.unit.system != "inch":
        return ""
    return next((one for one in units_shown(item.kind)[1:] if one in form.units), "")


def _printed_unit(item: Characteristic, form: ToMeasure) -> str:
    stated = item.required or item.wear_limit or item.new_range
    printed = stated.value.first.unit.symbol if stated is not None else ""
    return printed if printed in form.units else form.units[0]


def _came_back(bench: Bench, item: Characteristic) -> bool:
    """Whether its part came back from the machine shop."""
    part = item.part.casefold()
    back = [name.casefold() for name, one in bench.state.shop.items() if one.back]
    return any(name in part or part in name for name in back)


def _just_judged(desk: Desk, asked: Asked, bench: Bench, rows: tuple[Row, ...]) -> Row | None:
    """The row of the reading that was just recorded."""
    said = desk.said.of(asked.query.get("recorded", ""))
    for (_, place, condition), one in bench.state.readings.items():
        if said is not None and one.entry == said.entry:
            return next((row for row in rows if (row.place, row.condition) == (place, condition)), None)
    return None


ADDRESSES = (
    Address("/good", is_it_good),
    Address("/good/{item}", one_characteristic),
    Address("/good/{item}/picture.svg", drawn),
    Address("/good/{item}/places.svg", places_drawn),
)
