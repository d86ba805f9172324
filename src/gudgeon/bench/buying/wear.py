"""While it is open: what it costs on the average to keep a part, and what to renew it; told, never decided."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from gudgeon.bench.buying.model import WhileOpen
from gudgeon.bench.buying.money_words import about
from gudgeon.bench.buying.said import SaidOfPart
from gudgeon.book.plan_state import Age
from gudgeon.errors import InputError
from gudgeon.quantity.money import Money
from gudgeon.quantity.units import convert
from gudgeon.sheet.parts import Part, Use

if TYPE_CHECKING:
    from gudgeon.calc.planning.life import Weibull
    from gudgeon.calc.planning.wear_out import OpenSums

BY_YOU = "your figures"
EVEN = 0.02
"""Where both cost the same within so much of a failure, the figures do not tell (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Figures:
    """What is known of how a part wears: all of it in one unit; None where it is not known."""

    shape: float
    life: float
    unit: str
    until: float | None
    cost: float | None
    currency: str
    basis: str


def figures_of(said: SaidOfPart, part: Part | None) -> Figures | None:
    """The person's own figures, else those of the sheet; None where neither says how parts like it wear out."""
    own = said.life
    if own is not None:
        numbers = (float(text) for text in (own.shape, own.life, own.until, own.cost))
        shape, life, until, cost = numbers
        return Figures(shape, life, own.unit, until, cost, own.currency, f"{BY_YOU}: {own.basis}")
    if part is None or part.wear is None:
        return None
    wear = part.wear
    life_use = wear.life.value
    unit = unit_of(life_use)
    due = amount_in(part.renew_after.value, unit) if part.renew_after is not None else None
    source = wear.cited(wear.shape) or wear.life.source or part.source
    shape = wear.shape.value.middle_in("1")
    return Figures(shape, amount_in(life_use, unit) or 0.0, unit, due, None, "", str(source or ""))


def unit_of(use: Use) -> str:
    """In which unit a use counts: as its distance is printed, else in months."""
    if use.distance is None:
        return "months"
    return "mi" if use.distance.first.unit.symbol == "mi" else "km"


def amount_in(use: Use, unit: str) -> float | None:
    """A use in one unit; None where it is not stated in that."""
    if unit == "months":
        return None if use.months is None else float(use.months)
    return None if use.distance is None else use.distance.middle_in(unit)


def age_in(age: Age | None, unit: str) -> float | None:
    """The age of a part in one unit; None where it was not said."""
    if age is None:
        return None
    if unit == "months":
        return None if age.months is None else float(age.months)
    return convert(float(age.distance), frm=age.unit, to=unit, kind="distance") if age.distance else None


def while_open_sums(
    part: Part | None, said: SaidOfPart, *, name: str, price: Money | None, needed: int
) -> WhileOpen | None:
    """All the sums for one part; None where nothing says how parts like it wear out."""
    figures = figures_of(said, part)
    if figures is None:
        return None
    age = age_in(said.age, figures.unit)
    missing = tuple(_missing(figures, age, name=name, price=price))
    try:
        return _worked_out(figures, age, price, missing=missing, needed=needed)
    except InputError as error:
        return WhileOpen(error.message, (), "", missing, "", figures.basis)


def _missing(figures: Figures, age: float | None, *, name: str, price: Money | None) -> Iterator[str]:
    if age is None:
        asked = "--months N" if figures.unit == "months" else f"--distance N --unit {figures.unit}"
        yield f'its age: gudgeon record age "{name}" {asked} --basis …'
    if figures.until is None or figures.cost is None:
        lacking = [
            *(["how long until it is open again"] if figures.until is None else []),
            *(["what a failure costs"] if figures.cost is None else []),
        ]
        yield (
            f'{" and ".join(lacking)}: gudgeon record life "{name}" --shape {figures.shape:g} --life {figures.life:g} '
            f"--unit {figures.unit} --until N --cost N --currency … --basis …"
        )
    if price is None:
        yield f'its price: gudgeon record price "{name}" SUPPLIER PRICE …'
    elif figures.currency and price.currency != figures.currency:
        yield (
            f"its price in {figures.currency}, as the cost of a failure is: it is known in {price.currency} alone, and "
            "the two are not added"
        )


def _worked_out(
    figures: Figures, age: float | None, price: Money | None, *, missing: tuple[str, ...], needed: int
) -> WhileOpen:
    from gudgeon.calc.planning.life import Weibull, chance_of_failing
    from gudgeon.calc.planning.wear_out import Openings, while_open

    life = Weibull(figures.shape, figures.life)
    if age is None or figures.until is None:
        return WhileOpen("", (), "", missing, "", figures.basis)
    kept, new = (chance_of_failing(life, age=one, further=figures.until) for one in (age, 0.0))
    chances = _chances(figures, age, kept, new)
    same = price is not None and price.currency == figures.currency
    if figures.cost is None or price is None or not same:
        sums = (*chances, *_pays_from(kept - new, price))
        return WhileOpen("", sums, "", missing, "", figures.basis, 100 * kept, 100 * new)
    each = float(price.amount)
    found = while_open(
        life, age=age, further=figures.until, costs=Openings(each, opening=figures.cost, part_later=each)
    )
    speaks = _speaks(found)
    return WhileOpen(
        _said(found, speaks, price.currency),
        (*chances, *_sums(found, figures, price, needed=needed)),
        _best_age(life, figures, found, age=age),
        missing,
        speaks,
        figures.basis,
        100 * kept,
        100 * new,
        found.kept,
        found.renewed,
        price.currency,
    )


def _speaks(found: "OpenSums") -> str:
    if found.failure <= 0 or abs(found.saved) <= EVEN * found.failure:
        return ""
    return "renewing" if found.saved > 0 else "keeping"


def _said(found: "OpenSums", speaks: str, currency: str) -> str:
    if not speaks:
        return (
            "Keeping and renewing cost nearly the same on the average: the figures do not tell. You decide."
        )
    saves = about(abs(found.saved), currency)
    if speaks == "renewing":
        return f"The figures speak for renewing it now: that saves {saves} on the average. You decide."
    return f"The figures speak for keeping it: that saves {saves} on the average. You decide."


def _chances(figures: Figures, age: float, kept: float, new: float) -> Iterator[str]:
    until = use_words(figures.until or 0.0, figures.unit)
    yield (
        f"It is {use_words(age, figures.unit)} old and would stay in for another {until}. By {figures.basis}, 63 of "
        f"100 such parts have failed by {use_words(figures.life, figures.unit)} (Weibull, shape {figures.shape:g})."
    )
    yield f"Chance that it fails before then: {percent(kept)} as it is, {percent(new)} with a new one."


def _sums(found: "OpenSums", figures: Figures, price: Money, *, needed: int) -> Iterator[str]:
    currency, cost = price.currency, figures.cost or 0.0
    part = "the new part" if needed == 1 else f"{needed} new ones"
    yield (
        f"A failure costs {about(found.failure, currency)}: {about(cost, currency)} for opening it again and what else "
        f"it breaks, {about(found.price, currency)} for {part} then."
    )
    yield (
        f"Keep it: {percent(found.chance_kept)} of {about(found.failure, currency)} is {about(found.kept, currency)} "
        "on the average."
    )
    yield (
        f"Renew it: {about(found.price, currency)} now, and {percent(found.chance_new)} of "
        f"{about(found.failure, currency)}, is {about(found.renewed, currency)} on the average."
    )
    more = found.chance_kept - found.chance_new
    if cost > 0 and 0 < more < 1:
        # The part costs as much at a failure as now: price + new · (cost + price) = kept · (cost + price).
        yield f"Both cost the same at a price of {about(cost * more / (1 - more), currency)}."


def _pays_from(more: float, price: Money | None) -> Iterator[str]:
    """From which cost of a failure on it pays to renew, where that cost is not known."""
    if price is not None and more > 0:
        yield (
            f"Renewing it for {about(float(price.amount), price.currency)} pays where a failure costs more than "
            f"{about(float(price.amount) / more, price.currency)} in all."
        )


def _best_age(life: "Weibull", figures: Figures, found: "OpenSums", *, age: float) -> str:
    """The age at which renewing costs least in the long run, where it is within reach anyway."""
    from gudgeon.calc.planning.wear_out import best_age

    if found.price <= 0 or found.failure <= 0:
        return ""
    best = best_age(life, planned=found.price, failed=found.failure)
    if best.age is None:
        why = {
            "does not wear out": "parts of this life do not wear out with age",
            "no dearer to fail": "a failure costs no more than a renewal",
        }.get(best.why, "no part gets so old")
        return f"In the long run no age is better than waiting for a failure: {why}."
    found_age = float(f"{best.age:.3g}")
    when = "that is past" if age >= best.age else f"{use_words(found_age - age, figures.unit)} from now"
    return (
        f"Renewed again and again, it costs least at an age of {use_words(found_age, figures.unit)} ({when}), as long "
        "as it is within reach anyway."
    )


def use_words(amount: float, unit: str) -> str:
    """`84000 km (52200 mi)`, or `60 months`."""
    if unit == "months":
        return f"{amount:.0f} month{'' if round(amount) == 1 else 's'}"
    other = "km" if unit == "mi" else "mi"
    there = convert(amount, frm=unit, to=other, kind="distance")
    return f"{amount:.0f} {unit} ({float(f'{there:.3g}'):.0f} {other})"


def percent(chance: float) -> str:
    """A chance in percent, with two figures that count."""
    value = 100 * chance
    if 0 < value < 0.1:
        return "under 0.1 %"
    return f"{value:.0f} %" if value >= 10 or value == 0 else f"{value:.1f} %"
