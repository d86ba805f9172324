"""Which shim goes where? For an engine with other adjusters: what it has instead."""

from gudgeon.bench.context import Bench
from gudgeon.bench.shims.had import Had, had
from gudgeon.bench.shims.kit_shims import KitShims, kit_shims
from gudgeon.bench.shims.lines import (
    aims,
    money_words,
    never_lines,
    shopping,
    stock_lines,
    valve_lines,
)
from gudgeon.bench.shims.model import NotSaid, ShimAnswer
from gudgeon.bench.shims.read import Read, read
from gudgeon.bench.shims.remarks import measure_again, remarks
from gudgeon.bench.shims.screws import screw_lines
from gudgeon.bench.shims.work import work
from gudgeon.calc.engine.shim_choice import Choice, choose
from gudgeon.sheet.drive import ValveGear

QUESTION = "Which shim goes where?"

NO_GEAR = NotSaid("`valve_gear` in the sheet: how the valves are set", "which shim goes where is not told")
HYDRAULIC = (
    "This engine has hydraulic lifters: they take up the clearance themselves, and there is nothing to choose. What a "
    "cut does to their preload: `gudgeon cut`."
)
NOTHING = "The valves of this engine are not set at all, says the sheet: there is nothing to choose."
PROOF = (
    "Proved: no other choice of these shims brings more valves inside; of those that bring as many, none leaves fewer "
    "outside, then none buys fewer, then none costs less, then none lies nearer to the middle, then none moves fewer "
    "shims. Every valve with every shim was checked for it, in whole nanometers."
)


def shims(bench: Bench) -> ShimAnswer:
    """The shims of all valves, with as few bought as can be."""
    bench.unlock()
    heading, gear = bench.heading(QUESTION), bench.sheet.valve_gear
    if gear is None:
        return ShimAnswer(heading, "", "The sheet does not say how the valves are set.", missing=(NO_GEAR,))
    if gear.adjustment == "shims":
        return _with_shims(bench, gear)
    if gear.adjustment == "screw adjusters":
        return _with_screws(bench, gear)
    said = HYDRAULIC if gear.adjustment == "hydraulic lifters" else NOTHING
    return ShimAnswer(heading, gear.adjustment, said, sources=_sources(gear, None))


def _with_shims(bench: Bench, gear: ValveGear) -> ShimAnswer:
    kit = kit_shims(bench)
    can_be_had = had(bench, gear, kit)
    known = read(bench, gear, step_nm=can_be_had.step_nm, shims=True)
    chosen = choose([one.valve for one in known.valves], supply=can_be_had.supply)
    lines = valve_lines(known.valves, chosen)
    return ShimAnswer(
        bench.heading(QUESTION),
        gear.adjustment,
        _said(known, chosen, inside=sum(one.verdict == "inside" for one in lines)),
        lines,
        work(known.valves, chosen),
        shopping(known.valves, chosen, kit=kit),
        money_words(chosen, kit=kit),
        stock_lines(chosen, valves=known.valves, supply=can_be_had.supply),
        never_lines(bench, known.valves, chosen, step_nm=can_be_had.step_nm),
        aims=aims(chosen, kit=kit),
        proof=PROOF if known.valves else "",
        missing=(*known.missing, *can_be_had.missing),
        measure_again=measure_again(bench, known),
        remarks=remarks(gear, known, moved=chosen.moved > 0),
        taken=_taken(known, kit, can_be_had),
        sources=_sources(gear, known),
    )


def _with_screws(bench: Bench, gear: ValveGear) -> ShimAnswer:
    known = read(bench, gear, step_nm=0, shims=False)
    lines = screw_lines(known.valves)
    turned = sum(one.now != "inside" for one in lines)
    said = "This engine is set by screws: no shim is chosen. " + (
        f"{turned} of {_valves(len(lines))} {'is' if turned == 1 else 'are'} not proved inside and must be set."
        if lines
        else "No valve can be answered for yet."
    )
    return ShimAnswer(
        bench.heading(QUESTION), gear.adjustment, said, screws=lines, missing=known.missing,
        measure_again=measure_again(bench, known),
        remarks=remarks(gear, known, moved=turned > 0), sources=_sources(gear, known),
    )  # fmt: skip


def _valves(count: int) -> str:
    return "1 valve" if count == 1 else f"{count} valves"


def _said(known: Read, chosen: Choice, *, inside: int) -> str:
    """The answer in a sentence or two."""
    count = len(known.valves)
    if not count:
        return "No valve can be answered for yet: what is missing stands below."
    now = sum(
        one.valve.verdict(one.valve.shim_nm, kept=True) != "inside" or bool(one.unsure)
        for one in known.valves
    )
    are = "is" if now == 1 else "are"
    before = (
        f"{now} of {_valves(count)} {are} not proved inside now."
        if now
        else "The valve is inside now."
        if count == 1
        else f"All {count} valves are inside now."
    )
    after = f"all {count} come inside" if inside == count else f"{inside} of {count} come inside"
    buy = "nothing is bought" if not chosen.bought else f"{chosen.bought} {_shims(chosen.bought)} bought"
    if not chosen.moved:
        return f"{before} No exchange makes it better: every shim stays."
    places = "place gets" if chosen.moved == 1 else "places get"
    return f"{before} With this choice {after}: {chosen.moved} {places} another shim, {buy}."


def _shims(count: int) -> str:
    return "shim is" if count == 1 else "shims are"


def _taken(known: Read, kit: KitShims, can_be_had: Had) -> tuple[str, ...]:
    """What was taken without being measured here."""
    said = list(dict.fromkeys(one.wanted.taken for one in known.valves if one.wanted.taken))
    if kit.stock:
        said.append("shims in stock are as thick as the kit writes them: measure each before it goes in")
    said += can_be_had.uneven
    if can_be_had.supply.to_buy:
        said.append("a shim to buy is as thick as its size says: measure it when it comes")
    said.append(
        "the thickness that was measured counts, never the number etched on a shim; a limit must be cleared by 1.645 "
        "standard uncertainties of blades and micrometer, which is a risk of 5 % at each end"
    )
    return tuple(said)


def _sources(gear: ValveGear, known: Read | None) -> tuple[str, ...]:
    own = str(gear.source) if gear.source is not None else ""
    wanted = [one.wanted.source for one in known.valves] if known is not None else []
    return tuple(dict.fromkeys(one for one in (own, *wanted) if one))
