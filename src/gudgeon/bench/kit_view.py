"""The kit read for people: what he owns, how far each may be off and who says so. Written in its file alone."""

from collections.abc import Iterator
from dataclasses import dataclass

from gudgeon.bench.answer import Heading
from gudgeon.bench.context import Bench
from gudgeon.calc.joint.wrench import usable_range
from gudgeon.kit.model import Gauge, Turning
from gudgeon.kit.torque import Wrench
from gudgeon.quantity.units import convert
from gudgeon.sources.tables import permitted_error
from gudgeon.sources.tools import permitted_deviation


@dataclass(frozen=True, slots=True)
class Owned:
    """One thing of the kit: its name, its kind, and what the kit says of it."""

    name: str
    kind: str
    facts: tuple[tuple[str, str], ...]
    note: str


@dataclass(frozen=True, slots=True)
class KitAnswer:
    """The kit."""

    heading: Heading
    file: str
    groups: tuple[tuple[str, tuple[Owned, ...]], ...]
    shims: tuple[tuple[str, int], ...]
    rest: tuple[tuple[str, str], ...]


def kit_answer(bench: Bench) -> KitAnswer:
    """The whole kit of a bench."""
    kit, file = bench.kit, bench.papers.kit_file
    groups = (
        ("Torque wrenches", tuple(_wrench(one) for one in kit.wrenches.values())),
        ("Gauges", tuple(_gauge(one) for one in kit.gauges.values())),
        ("Tools for turning", tuple(_turning(one) for one in kit.turning.values())),
    )
    hours, rates = kit.hours, kit.rates
    rest = (
        ("Evenings", hours.evenings if hours else None),
        ("Weekend", hours.weekend if hours else None),
        ("An hour of your own", rates.own_hour if rates else None),
        ("An hour at the machine shop", rates.machine_shop_hour if rates else None),
    )
    return KitAnswer(
        bench.heading("Kit"),
        file.name if file is not None else "",
        tuple((title, owned) for title, owned in groups if owned),
        tuple(kit.shims_in_stock.items()),
        tuple((name, text) for name, text in rest if text),
    )


def _wrench(one: Wrench) -> Owned:
    low, high = one.range.low_in("N·m"), one.range.high_in("N·m")
    assert low is not None  # the model refuses a scale that is open at an end
    assert high is not None
    ends = [convert(end, frm="N·m", to=one.unit, kind="torque") for end in usable_range(low, scale_max=high)]
    facts = [
        ("Scale", one.range.text),
        ("Used", f"{ends[0]:g}–{ends[1]:g} {one.unit}"),
        ("Step", one.step.text),
    ]
    if one.deviation is not None:
        facts.append(("May be off", f"± {_percent(one.deviation)} of the setting (your kit)"))
    else:
        found = permitted_deviation(one.kind, high)
        facts.append(("May be off", f"± {_percent(found.value)} of the setting ({found.source})"))
    return Owned(one.name, one.kind, (*facts, *_common(one)), one.note or "")


def _percent(share: float) -> str:
    return f"{100 * share:g} %"


def _gauge(one: Gauge) -> Owned:
    facts: list[tuple[str, str]] = []
    if one.range is not None:
        facts.append(("Range", one.range.text))
    if one.step is not None:
        facts.append(("Step", one.step.text))
    if one.blades:
        facts.append(("Blades", ", ".join(blade.text for blade in one.blades)))
    if one.error is not None:
        facts.append(("May be off", f"± {one.error.text.lstrip('± ')} (your kit)"))
    else:
        size = one.range.high_in("mm") if one.range is not None else None
        standard = permitted_error(one.kind, length_mm=size) if size is not None else None
        known = f"± {standard.value:g} mm ({standard.source})" if standard is not None else "not known"
        facts.append(("May be off", known))
    return Owned(one.name, one.kind, (*facts, *_common(one)), one.note or "")


def _turning(one: Turning) -> Owned:
    facts = [
        (name, figure.text)
        for name, figure in (("Step", one.step), ("May be off", one.error), ("Length", one.length))
        if figure is not None
    ]
    return Owned(one.name, one.kind, tuple(facts), "")


def _common(one: Wrench | Gauge) -> Iterator[tuple[str, str]]:
    if one.length is not None:
        yield "Length", one.length.text
    yield "Checked", one.checked.isoformat() if one.checked is not None else "no date"
