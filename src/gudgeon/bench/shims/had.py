"""What can be had: the sizes that the sheet says are made, at the prices of the kit."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from gudgeon.bench.context import Bench
from gudgeon.bench.sheet_place import place_of
from gudgeon.bench.shims.kit_shims import KitShims
from gudgeon.bench.shims.model import NotSaid
from gudgeon.calc.engine.lash import even_series_nm, uneven_words
from gudgeon.calc.engine.shim_valves import Supply
from gudgeon.errors import InputError, Place
from gudgeon.sheet.drive import ValveGear

NO_SERIES = "which sizes are made"
NO_PRICE = "what a shim costs"


@dataclass(frozen=True, slots=True)
class Had:
    """Stock and sizes to buy as the kernel takes them, the step of the series, and what is missing."""

    supply: Supply
    step_nm: int
    missing: tuple[NotSaid, ...]
    unpriced: frozenset[int]
    uneven: tuple[str, ...] = ()
    """What is said where first and last size of the sheet are no whole number of steps apart."""


def had(bench: Bench, gear: ValveGear, kit: KitShims) -> Had:
    """Stock, and every size of the series or with a price of its own."""
    sizes, missing = _series(bench, gear)
    step = sizes[1] - sizes[0] if len(sizes) > 1 else 0
    listed = sorted({*sizes, *kit.own_prices})
    unpriced = frozenset(size for size in listed if kit.price(size) is None)
    if listed and unpriced:
        some = (
            "of every size" if len(unpriced) == len(listed) else f"of {len(unpriced)} of {len(listed)} sizes"
        )
        missing.append(
            NotSaid(
                f"{NO_PRICE}, {some}: `shim_price` of the kit",
                "those are bought only where no size with a price does as well, and the sum is without them"
                if len(unpriced) < len(listed)
                else "what they cost is not told, and does not decide",
            )
        )
    return Had(Supply(kit.stock, _priced(listed, kit)), step, tuple(missing), unpriced, _uneven(gear, sizes))


def _uneven(gear: ValveGear, sizes: Sequence[int]) -> tuple[str, ...]:
    if gear.shim_step is None or not sizes:
        return ()
    return uneven_words(sizes, step_mm=gear.shim_step.value.first.middle_in("mm"))


def _priced(sizes: list[int], kit: KitShims) -> tuple[tuple[int, int], ...]:
    """Prices as whole numbers; a size without one counts as dearer than any other."""
    scale = 10**kit.decimals
    known: Mapping[int, int] = {
        size: int(price.amount * scale) for size in sizes if (price := kit.price(size)) is not None
    }
    dear = max(known.values(), default=-1) + 1
    return tuple((size, known.get(size, dear)) for size in sizes)


def _series(bench: Bench, gear: ValveGear) -> tuple[tuple[int, ...], list[NotSaid]]:
    therefore = "nothing can be bought by this answer: only shims in the places and in stock are looked at"
    if gear.shim_thickness is None or gear.shim_step is None:
        lacking = "shim_thickness" if gear.shim_thickness is None else "shim_step"
        return (), [NotSaid(f"{NO_SERIES}: `{lacking}` of `valve_gear` in the sheet", therefore)]
    printed, step = gear.shim_thickness.value, gear.shim_step.value
    first, last = printed.first.low, printed.first.high
    if first is None or last is None or printed.first.single or not step.first.single:
        where = f" ({place_of(bench.papers.written, ('valve_gear', 'shim_thickness'))})"
        why = f"{NO_SERIES}: the sheet states `{printed.text}` in steps of `{step.text}`{where}"
        return (), [NotSaid(why, therefore)]
    hidden = first.half_digit_in("mm") + last.half_digit_in("mm")
    try:
        sizes = even_series_nm(
            first.to("mm"), last_mm=last.to("mm"), step_mm=step.first.middle_in("mm"), hidden_mm=hidden
        )
    except InputError as error:
        raise _placed(error, place_of(bench.papers.written, ("valve_gear", "shim_step"))) from None
    return sizes, []


def _placed(error: InputError, place: Place | None) -> InputError:
    """The same refusal with the line of the sheet, and the field by its name."""
    error.place = place
    error.message = f"valve_gear: shim_thickness, shim_step: {error.message}"
    return error
