"""The coolant: how much concentrate and water, where it freezes, how it is bled and proved tight."""

from dataclasses import dataclass

from gudgeon.bench.context import Bench
from gudgeon.bench.features import has
from gudgeon.bench.running.answers import CoolantMix
from gudgeon.bench.running.errors import LeftInMissing
from gudgeon.bench.running.gathered import Gathered, after_start, sentence, stated_in
from gudgeon.calc.engine.coolant import Mixing, freeze_point_c, freezing_table, mixing, share_for_freeze_point
from gudgeon.calc.errors import NotPositive
from gudgeon.calc.input_errors import InputRefused
from gudgeon.errors import InputError
from gudgeon.quantity.format import both, in_order
from gudgeon.quantity.units import convert
from gudgeon.quantity.written import parse_amount
from gudgeon.sheet.after_start import Coolant
from gudgeon.sources.coolants import least_against_corrosion
from gudgeon.sources.first_run import run_figure

HALF = 0.5
OF_THE_CAN = "Concentrate holds inhibitors and some water: a table on its can comes before these figures."


@dataclass(frozen=True, slots=True)
class LeftIn:
    """What is still in the system, as he writes it: how much, and its share of glycol."""

    volume: str = ""
    share: str = ""


def coolant_mix(bench: Bench, wanted: Gathered, *, left_in: LeftIn) -> CoolantMix | None:
    """The mix that stands the cold the sheet names; nothing for an engine without liquid cooling."""
    if not has(bench.sheet, "liquid cooling"):
        return None
    stated = after_start(bench).coolant or Coolant()
    share, notes = _share(stated, wanted)
    capacity = _capacity(bench, wanted)
    found = _mixed(capacity, share, left_in, wanted)
    fluid = bench.sheet.fluids.get("coolant")
    glycol = stated.glycol or ""
    source = stated.source or after_start(bench).source
    return CoolantMix(
        f"{glycol} glycol" if glycol else "",
        stated.guards_to.value.text if stated.guards_to is not None else "",
        f"{100 * share:.0f} % concentrate by volume" if share is not None else "",
        fluid.capacity.value.text if fluid is not None and fluid.capacity is not None else "",
        _left_words(left_in),
        _liters(found.drain_l) if found is not None and found.drain_l > 0 else "",
        _liters(found.concentrate_l) if found is not None else "",
        _liters(found.water_l) if found is not None else "",
        _half(glycol),
        stated.bleed,
        _cap(stated, wanted),
        f"{source or 'the data sheet'}; freezing points ASHRAE 2001, by volume",
        (*notes, OF_THE_CAN),
    )


def _share(stated: Coolant, wanted: Gathered) -> tuple[float | None, tuple[str, ...]]:
    """The share that the cold asks for, never less than protects against corrosion."""
    if stated.glycol is None:
        wanted.lacks(
            "the kind of glycol", therefore="no freezing point is known", path="after_start.coolant.glycol"
        )
    if stated.guards_to is None:
        wanted.lacks(
            "the cold that the coolant must stand",
            therefore="how much concentrate it takes is not known",
            path="after_start.coolant.guards_to",
        )
    if stated.glycol is None or stated.guards_to is None:
        return None, ()
    table, cold = freezing_table(stated.glycol, basis="volume"), stated_in(stated.guards_to, "°C")
    assert cold is not None  # it is stated, and has one end at least
    try:
        share = share_for_freeze_point(cold, table=table)
    except InputError as error:
        return None, (str(error),)
    least = least_against_corrosion()
    if share < least.value:
        told = (
            f"The cold asks for {100 * share:.0f} %; less than {100 * least.value:.0f} % does not protect against "
            f"corrosion ({least.source})."
        )
        return least.value, (told,)
    return share, ()


def _capacity(bench: Bench, wanted: Gathered) -> float | None:
    fluid = bench.sheet.fluids.get("coolant")
    if fluid is None or fluid.capacity is None:
        wanted.lacks(
            "how much coolant the system holds",
            therefore="no volumes can be given",
            path="fluids.coolant.capacity",
        )
        return None
    return stated_in(fluid.capacity, "L")


def _mixed(capacity: float | None, share: float | None, left: LeftIn, wanted: Gathered) -> Mixing | None:
    """Volumes to drain and to pour in; what he wrote of the rest in the system is read here."""
    residual = _asked("coolant still in it", left.volume, kind="volume", unit="L")
    present = _asked("glycol in it", left.share, kind="ratio", unit="1")
    if left.share and not left.volume:
        raise LeftInMissing(left.share)
    if capacity is None or share is None:
        return None
    if capacity <= 0:
        wanted.lacks(
            "how much coolant the system holds", therefore="no volumes can be given",
            path="fluids.coolant.capacity", wrong=sentence(NotPositive("Capacity", capacity, "L")),
        )  # fmt: skip
        return None
    return mixing(capacity, residual_l=residual, present=present, target=share)


def _asked(what: str, given: str, *, kind: str, unit: str) -> float:
    try:
        return parse_amount(given, kind=kind).to(unit) if given else 0.0
    except InputError as error:
        raise InputRefused(what, error) from None


def _left_words(left: LeftIn) -> str:
    if not left.volume:
        return ""
    return f"{left.volume} with {left.share or '0 %'} glycol"


def _liters(value: float) -> str:
    return in_order(f"{value:.2f} L", inch=f"{convert(value, frm='L', to='US qt', kind='volume'):.2f} US qt")


def _half(glycol: str) -> str:
    """Where half and half freezes, of this glycol or of both."""
    kinds = (glycol,) if glycol else ("ethylene", "propylene")
    points = (
        f"{both(freeze_point_c(HALF, table=freezing_table(one, basis='volume')), kind='temperature', decimals=0)} "
        f"with {one} glycol"
        for one in kinds
    )
    return f"half and half by volume freezes at {' or '.join(points)}"


def _cap(stated: Coolant, wanted: Gathered) -> str:
    """The pressure test through the cap."""
    least, most = run_figure("cap_minutes_least"), run_figure("cap_minutes_most")
    if stated.cap is None:
        wanted.lacks(
            "the pressure of the cap",
            therefore="to which pressure the system is tested is not known",
            path="after_start.coolant.cap",
        )
        pressure = "at the pressure that the cap is marked with"
    else:
        pressure = f"at {stated.cap.value.text}"
    return (
        f"cold, {pressure}: no drop in {least.value:g} to {most.value:g} minutes "
        f"({least.source.provenance.lower()})"
    )
