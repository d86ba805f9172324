"""The calculators of parts that wear: from inputs to the kernels and back to results."""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from gudgeon.calc.calculator import Found, Value, Worked
from gudgeon.calc.input_errors import GivenBoth, InputNeeded
from gudgeon.calc.planning.life import Weibull, chance_of_failing, life_through, mean_life, mean_residual_life
from gudgeon.calc.planning.measure_forms import AND, OF_LIFE, Scale, digits, money, percent, read_alike
from gudgeon.calc.planning.network_errors import SharesUnreadable
from gudgeon.calc.planning.wear_out import BestAge, Openings, best_age, cost_rate, while_open
from gudgeon.calc.reading import figure, maybe, text

_SHARE = re.compile(r"^\s*(?P<percent>\d*\.?\d+)\s*(?:%|percent)\s*(?:by|at|before|within)\s+(?P<age>\S.*)$")
WHY = {
    "wears out": "the one age at which waiting longer costs more than it saves",
    "none fails before": "the end of the time in which none fails; afterwards waiting costs no more",
    "does not wear out": "none: the part does not wear out, and replacing a good one by age gains nothing",
    "no dearer to fail": "none: a failure costs no more than replacing the part in time",
    "never reached": "none: it would be an age that no part reaches",
}
NO_WEAR = (
    "With a shape of 1 or less the part does not wear out: a new one fails as soon as the old one, or sooner, and "
    "renewing it for its age gains nothing."
)
ONLY_CHANCES = "Without `price` and `opening` only the chances are told."


@dataclass(frozen=True, slots=True)
class _Read:
    """A life, the ages that are set against it, and their unit."""

    life: Weibull
    ages: Mapping[str, float]
    scale: Scale


def wear_out(values: Mapping[str, Value]) -> Worked:
    """Works out planning.wear-out."""
    read = _read(values, ages=("age", "further"))
    life, age, further = read.life, read.ages["age"], read.ages["further"]
    price, opening = maybe(values, "price"), maybe(values, "opening")
    results: dict[str, Found] = {
        "chance_kept": chance_of_failing(life, age=age, further=further),
        "chance_new": chance_of_failing(life, age=0.0, further=further),
    }
    results |= _life_results(read) | {"life_left": mean_residual_life(life, age=age)}
    shown = {key: percent(_number(results[key])) for key in ("chance_kept", "chance_new")}
    shown |= {key: read.scale.shown(_number(results[key])) for key in ("mean_life", "life_left", "scale")}
    flags = [NO_WEAR] if life.shape <= 1 else []
    if price is None or opening is None:
        flags.append(ONLY_CHANCES)
    else:
        later = maybe(values, "part_later")
        costs = Openings(price, opening, price if later is None else later, figure(values, "consequence"))
        sums = _sums(life, age=age, further=further, costs=costs)
        results |= sums
        shown |= _sums_shown(sums, _currency(values))
    units = dict.fromkeys(("mean_life", "life_left", "scale"), read.scale.symbol or "1")
    return Worked(results, tuple(flags), shown=shown, units=units, understood=_understood(read))


def replacement_age(values: Mapping[str, Value]) -> Worked:
    """Works out planning.replacement-age."""
    read = _read(values, ages=("at",))
    planned, failed = figure(values, "planned"), figure(values, "failed")
    best: BestAge = best_age(read.life, planned=planned, failed=failed)
    results: dict[str, Found] = {
        "age": best.age, "why": WHY[best.why], "rate": best.rate, "rate_to_failure": best.rate_to_failure,
        "share": best.share, **_life_results(read),
    }  # fmt: skip
    if "at" in read.ages:
        results["rate_at"] = cost_rate(read.life, age=read.ages["at"], planned=planned, failed=failed)
    currency = _currency(values)
    shown: dict[str, str] = {
        key: read.scale.each(f"{digits(_number(results[key]))} {currency}".rstrip())
        for key in ("rate", "rate_to_failure", "rate_at")
        if key in results
    }
    shown |= {key: read.scale.shown(_number(results[key])) for key in ("mean_life", "scale")}
    shown |= {"share": percent(best.share)}
    if best.age is not None:
        shown["age"] = read.scale.shown(best.age)
    units = dict.fromkeys(("age", "mean_life", "scale"), read.scale.symbol or "1")
    return Worked(results, shown=shown, units=units, understood=_understood(read))


def _read(values: Mapping[str, Value], *, ages: tuple[str, ...]) -> _Read:
    """The life by its figures or by two shares, with the ages; all in one unit."""
    given, shares = values["characteristic_life"], values["fails_by"]
    if given is not None and shares is not None:
        raise GivenBoth("characteristic_life", "fails_by")
    texts = {key: text(values, key) for key in ages if values[key] is not None}
    if shares is not None:
        (early, first), (late, second) = _shares(text(values, "fails_by"))
        scale, found = read_alike({"fails_by": first, f"fails_by{AND}": second, **texts}, kinds=OF_LIFE)
        ends = found.pop("fails_by"), found.pop(f"fails_by{AND}")
        life = life_through(ends[0], early_percent=early, late_age=ends[1], late_percent=late)
        return _Read(life, found, scale)
    shape = maybe(values, "shape")
    if given is None or shape is None:
        raise InputNeeded(
            "shape and characteristic_life, or fails_by", "The life of the part",
            "fails_by='10 % by 90000 km; 50 % by 150000 km'",
        )  # fmt: skip
    texts = {"characteristic_life": text(values, "characteristic_life"), **texts}
    scale, found = read_alike({**texts, "start": text(values, "start")}, kinds=OF_LIFE)
    life = Weibull(shape, found.pop("characteristic_life"), found.pop("start"))
    return _Read(life, found, scale)


def _shares(written: str) -> list[tuple[float, str]]:
    parts = [_SHARE.match(part) for part in re.split(r"[;\n]", written) if part.strip()]
    read = [(float(part["percent"]), part["age"]) for part in parts if part is not None]
    if len(read) != 2 or len(parts) != 2:
        raise SharesUnreadable(written)
    return read


def _life_results(read: _Read) -> dict[str, Found]:
    return {"shape": read.life.shape, "scale": read.life.scale, "mean_life": mean_life(read.life)}


def _sums(life: Weibull, *, age: float, further: float, costs: Openings) -> dict[str, Found]:
    found = while_open(life, age=age, further=further, costs=costs)
    return {
        "failure": found.failure, "kept": found.kept, "new": found.new, "renewed": found.renewed, "saved": found.saved,
        "break_even_price": found.break_even_price, "break_even_chance": found.break_even_chance,
        "break_even_failure": found.break_even_failure,
    }  # fmt: skip


def _sums_shown(sums: Mapping[str, Found], currency: str) -> dict[str, str]:
    chance = sums["break_even_chance"]
    shown = {
        key: money(value, currency=currency)
        for key, value in sums.items()
        if isinstance(value, float) and key != "break_even_chance"
    }
    return shown | ({"break_even_chance": percent(chance)} if isinstance(chance, float) else {})


def _understood(read: _Read) -> dict[str, str]:
    """The ages with the unit in which they count."""
    return {key: read.scale.shown(value) for key, value in read.ages.items()}


def _currency(values: Mapping[str, Value]) -> str:
    given = values["currency"]
    return given if isinstance(given, str) else ""


def _number(found: Found) -> float:
    assert isinstance(found, float)
    return found
