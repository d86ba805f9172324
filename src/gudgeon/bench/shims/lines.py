"""What was chosen, in words: valve by valve, what to buy, what lies in stock afterwards."""

from collections import Counter
from collections.abc import Sequence

from gudgeon.bench.context import Bench
from gudgeon.bench.shims.finer import finer_reading
from gudgeon.bench.shims.kit_shims import KitShims
from gudgeon.bench.shims.model import NeverLine, StockLine, ToBuy, ValveLine
from gudgeon.bench.shims.read import ValveRead
from gudgeon.calc.engine.lash import NM
from gudgeon.calc.engine.shim_choice import Choice, Fitted
from gudgeon.calc.engine.shim_moves import runs
from gudgeon.calc.engine.shim_valves import Shim, Supply
from gudgeon.quantity.format import both, known_between


def thickness(size_nm: int) -> str:
    """A thickness in both systems, to the hundredth at least."""
    decimals = 2 if size_nm % 10_000 == 0 else 3
    return both(size_nm / NM, kind="length", decimals=decimals)


def clearance(low_nm: int, *, high_nm: int) -> str:
    """A clearance in both systems, as far as it is known; below zero the valve is held open."""
    decimals = 2 if low_nm % 10_000 == 0 and high_nm % 10_000 == 0 else 3
    return known_between(low_nm / NM, high=high_nm / NM, kind="length_difference", decimals=decimals)


def valve_lines(valves: Sequence[ValveRead], chosen: Choice) -> tuple[ValveLine, ...]:
    """Every valve: found, fitted, resulting."""
    return tuple(_line(valves, chosen, at) for at in range(len(valves)))


def _line(valves: Sequence[ValveRead], chosen: Choice, at: int) -> ValveLine:
    one, got = valves[at], chosen.fitted[at]
    valve, shim = one.valve, got.shim
    verdict, why = _verdict(one, got)
    why = why or why_moved(valves, chosen, at)
    exact_nm = (
        valve.shim_nm + (valve.low_nm + valve.high_nm - valve.wanted_low_nm - valve.wanted_high_nm) // 2
    )
    now = valve.verdict(valve.shim_nm, kept=True)
    return ValveLine(
        one.side,
        one.place,
        one.clearance.text,
        thickness(valve.shim_nm),
        one.wanted.text,
        "in doubt" if now == "inside" and one.unsure else now,
        both(exact_nm / NM, kind="length", decimals=3),
        thickness(shim.thickness_nm),
        origin(valves, shim, kept=not got.moved),
        got.moved,
        clearance(got.low_nm, high_nm=got.high_nm),
        verdict,
        why,
        shim.thickness_nm / NM,
        (got.low_nm / NM, got.high_nm / NM),
    )


def origin(valves: Sequence[ValveRead], shim: Shim, *, kept: bool) -> str:
    """Where a shim comes from, in words."""
    if kept:
        return "stays"
    if shim.origin == "place":
        return f"from {valves[shim.at].name}"
    return "from stock" if shim.origin == "stock" else "to buy"


def _verdict(one: ValveRead, got: Fitted) -> tuple[str, str]:
    """The verdict, and why it is not inside."""
    if got.verdict == "inside":
        return ("in doubt", one.unsure) if one.unsure else ("inside", "")
    if got.high_nm < 0:
        return got.verdict, "the valve would be held open"
    valve = one.valve
    crosses = got.low_nm < valve.wanted_low_nm or got.high_nm > valve.wanted_high_nm
    if got.verdict == "in doubt":
        why = (
            "what the blades leave open crosses a limit"
            if crosses
            else "nearer to a limit than the gauges are good to"
        )
        return got.verdict, why
    return got.verdict, "no shim that is left does better"


def why_moved(valves: Sequence[ValveRead], chosen: Choice, at: int) -> str:
    """Why a valve that is inside already gets another shim; nothing of any other valve."""
    valve, got = valves[at].valve, chosen.fitted[at]
    if not got.moved or valve.verdict(valve.shim_nm, kept=True) != "inside":
        return ""
    said = [
        f"it was inside, and gives its shim to {other.name}"
        for other, gets in zip(valves, chosen.fitted, strict=True)
        if gets.moved and gets.shim.origin == "place" and gets.shim.at == at
    ]
    nearer = valve.off_middle(valve.shim_nm) - valve.off_middle(got.shim.thickness_nm)
    if nearer > 0:
        by = both(nearer / 2 / NM, kind="length_difference", decimals=3)
        said.append(f"{'' if said else 'it was inside, and comes '}nearer to the middle by {by}")
    return "; ".join(said)


def shopping(valves: Sequence[ValveRead], chosen: Choice, *, kit: KitShims) -> tuple[ToBuy, ...]:
    """The sizes to buy, the thinnest first."""
    wanted: dict[int, list[str]] = {}
    for one, got in zip(valves, chosen.fitted, strict=True):
        if got.shim.origin == "bought":
            wanted.setdefault(got.shim.thickness_nm, []).append(one.name)
    made = []
    for size, names in sorted(wanted.items()):
        price = kit.price(size)
        each = price.words if price is not None else ""
        together = f"{price.amount * len(names):f} {price.currency}" if price is not None else ""
        made.append(ToBuy(thickness(size), len(names), each, together, tuple(names)))
    return tuple(made)


def money_words(chosen: Choice, *, kit: KitShims) -> str:
    """What all that is bought costs; what has no price is left out, and said."""
    sizes = [one.shim.thickness_nm for one in chosen.fitted if one.shim.origin == "bought"]
    prices = [price for size in sizes if (price := kit.price(size)) is not None]
    lacking = len(sizes) - len(prices)
    if not prices:
        return ""
    total = sum(price.amount for price in prices)
    return f"{total:f} {kit.currency}" + (f", without {lacking} of unknown price" if lacking else "")


def stock_lines(chosen: Choice, *, valves: Sequence[ValveRead], supply: Supply) -> tuple[StockLine, ...]:
    """What lies in stock now and afterwards; what is freed goes there."""
    before = Counter(dict(supply.stock))
    after = Counter(before)
    for run in runs([one.shim for one in chosen.fitted], old_nm=[one.valve.shim_nm for one in valves]):
        for step in run.steps:
            change = (step.to == "stock") - (step.frm == "stock")
            if change:
                after[step.shim.thickness_nm] += change
    return tuple(StockLine(thickness(size), before[size], after[size]) for size in sorted({*before, *after}))


NEVER = {
    True: "is sure to bring it inside; the nearest leaves it in doubt",
    False: "brings it inside; look at seat, valve and readings first",
}
"""What is said of a valve, by whether the nearest shim leaves it in doubt."""


def never_lines(
    bench: Bench, valves: Sequence[ValveRead], chosen: Choice, *, step_nm: int
) -> tuple[NeverLine, ...]:
    """The valves that nothing brings inside; of equal shims the one that the choice gives is named."""
    found = []
    for one in chosen.never:
        valve, got = valves[one.at], chosen.fitted[one.at]
        same = got.shim.thickness_nm == one.shim.thickness_nm
        shim = got.shim if same else one.shim
        comes = origin(valves, shim, kept=shim.origin == "place" and shim.at == one.at)
        words = f"no shim in the places, in stock or in the series {NEVER[one.verdict != 'outside']}"
        nearest = f"{thickness(shim.thickness_nm)}, {comes}"
        hints = [] if same else [_gets(valves, got, one.shim)]
        if one.verdict == "in doubt":
            hints += finer_reading(bench, valve, step_nm=step_nm)
        result = clearance(one.low_nm, high_nm=one.high_nm)
        found.append(NeverLine(valve.name, words, nearest, result, " ".join(hints)))
    return tuple(found)


def _gets(valves: Sequence[ValveRead], got: Fitted, nearest: Shim) -> str:
    """What the choice gives to a valve instead of the nearest shim, and why."""
    shim = thickness(got.shim.thickness_nm)
    given = (
        f"gives it {shim}, {origin(valves, got.shim, kept=False)}"
        if got.moved
        else f"leaves its {shim} in it"
    )
    why = (
        "one that is bought is not sure either"
        if nearest.origin == "bought"
        else "the nearest is needed elsewhere"
    )
    return f"This choice {given}: {why}."


def aims(chosen: Choice, *, kit: KitShims) -> tuple[tuple[str, str], ...]:
    """What the choice comes to, in the order in which it was sought."""
    count = len(chosen.fitted)
    if not count:
        return ()
    money = (
        f"{chosen.money / 10**kit.decimals:.{kit.decimals}f} {kit.currency}"
        if kit.currency
        else "no price in the kit"
    )
    middle = both(chosen.from_the_middle_nm / NM, kind="length_difference", decimals=3)
    return (
        ("valves inside", f"{chosen.inside} of {count}"),
        ("valves outside", str(chosen.total[1])),
        ("shims bought", str(chosen.bought)),
        *((("money", money),) if chosen.bought else ()),
        ("off the middle of the range, all valves added up", middle),
        ("places that get another shim", str(chosen.moved)),
    )
