"""The kit read for people: what he owns, how far each may be off and who says so. Written in its file alone."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from gudgeon.bench.answer import Heading
from gudgeon.bench.context import Bench
from gudgeon.bench.gauge_view import gauge_check_due, gauge_facts
from gudgeon.bench.wrench_fit import standard_share
from gudgeon.bench.wrench_gap import WrenchGap, wrench_gap
from gudgeon.bench.wrench_state import check_due, not_said, overrides, used_words
from gudgeon.kit.gauges import Gauge
from gudgeon.kit.hours import Hours, clock_words, off_words, week_words
from gudgeon.kit.model import Kit, Turning
from gudgeon.kit.rates import an_hour
from gudgeon.kit.suppliers import Supplier
from gudgeon.kit.torque import Adapter, SpringScale, Wrench


@dataclass(frozen=True, slots=True)
class Owned:
    """One thing of the kit: its name, its kind, and what the kit says of it."""

    name: str
    kind: str
    facts: tuple[tuple[str, str], ...]
    note: str
    warnings: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class KitAnswer:
    """The kit."""

    heading: Heading
    file: str
    groups: tuple[tuple[str, tuple[Owned, ...]], ...]
    shims: tuple[tuple[str, int], ...]
    rest: tuple[tuple[str, str], ...]
    gap: WrenchGap | None = None
    """What of the sheet no wrench measures; None while its figures are locked."""
    due: tuple[str, ...] = ()
    """The wrenches and gauges whose check is due, each with the reason."""


def kit_answer(bench: Bench) -> KitAnswer:
    """The whole kit of a bench."""
    kit, file, today = bench.kit, bench.papers.kit_file, bench.now.date()
    used: dict[str, list[str]] = {}
    for joint, state in bench.state.joints.items():
        name = bench.sheet.joints[joint].name if joint in bench.sheet.joints else joint
        for stage, below in overrides(kit, state).items():
            for one in below:
                used.setdefault(one.tool, []).append(f"{name}, stage {stage}, {one.words}")
    groups = (
        (
            "Torque wrenches",
            tuple(_wrench(one, today, tuple(used.get(key, ()))) for key, one in kit.wrenches.items()),
        ),
        ("Adapters", tuple(_adapter(one) for one in kit.adapters.values())),
        ("Spring scales", tuple(_spring_scale(one) for one in kit.spring_scales.values())),
        ("Gauges", tuple(_gauge(kit, one, today) for one in kit.gauges.values())),
        ("Tools for turning", tuple(_turning(one) for one in kit.turning.values())),
    )
    hours, rates = kit.hours, kit.rates
    rest = (
        ("Other tools", ", ".join(kit.other_tools)),
        ("Altitude", kit.altitude.text if kit.altitude is not None else None),
        ("A shim", kit.shim_price),
        *((f"A shim {size}", price) for size, price in kit.shim_prices.items()),
        *((one.name, ", ".join(_supplier(one))) for one in kit.suppliers.values()),
        *_hours(hours),
        ("An hour of your own", _hour(rates.own_hour) if rates else None),
        ("An hour at the machine shop", _hour(rates.machine_shop_hour) if rates else None),
    )
    return KitAnswer(
        bench.heading("Kit"),
        file.name if file is not None else "",
        tuple((title, owned) for title, owned in groups if owned),
        tuple(kit.shims_in_stock.items()),
        tuple((name, text) for name, text in rest if text),
        wrench_gap(kit, bench.sheet, today=today) if bench.locked is None else None,
        tuple(checks_due(kit, today=today)),
    )


def _supplier(one: Supplier) -> Iterator[str]:
    """What a supplier asks beside its prices."""
    count = len(one.sells)
    yield f"prices of {count} part{'' if count == 1 else 's'}"
    yield f"shipping {one.shipping.words}"
    if one.free_from is not None:
        yield f"free from {one.free_from.words}"
    if one.least_order is not None:
        yield f"no order below {one.least_order.words}"
    if one.lead is not None:
        yield f"comes the {one.lead.text}" if one.lead.text == "same day" else f"comes in {one.lead.text}"
    if one.note is not None:
        yield one.note


def _hour(text: str | None) -> str | None:
    """What an hour is worth, and whether anything is reckoned with it."""
    if text is None or an_hour(text) is not None:
        return text
    return f"{text} (words, so nothing is reckoned with it; write an amount like 20 EUR)"


def _hours(hours: Hours | None) -> Iterator[tuple[str, str | None]]:
    """His week, the second person's, what is late, and older words that cannot be planned with."""
    if hours is None:
        return
    other = hours.second_person
    yield "At the engine", week_words(hours.week)
    yield "A second person", week_words(other.week) if other is not None else None
    yield "Days off", ", ".join(off_words(one) for one in hours.days_off)
    yield "Late for torque and timing", clock_words(hours.late) if hours.late is not None else None
    yield "Pace", f"{hours.pace} times the planned minutes" if hours.pace is not None else None
    for name, words in (("Evenings", hours.evenings), ("Weekend", hours.weekend)):
        yield name, f"{words} (words cannot be planned with)" if words else None


def checks_due(kit: Kit, *, today: date) -> Iterator[str]:
    """The wrenches and gauges whose check is due, each with the reason."""
    for one in kit.wrenches.values():
        if why := check_due(one, today=today):
            yield f"{one.name}: {why}"
    for gauge in kit.gauges.values():
        if why := gauge_check_due(gauge, today=today):
            yield f"{gauge.name}: {why}"


def _wrench(one: Wrench, today: date, used: tuple[str, ...]) -> Owned:
    facts = [("Scale", "; ".join(f"{scale.range.text}, step {scale.step.text}" for scale in one.scales))]
    facts.append(("Used", used_words(one)))
    if one.iso_class:
        facts.append(("Type and class", one.iso_class))
    if one.direction is not None:
        facts.append(("Good", "in both directions" if one.direction == "both" else one.direction))
    if one.deviation is not None:
        facts.append(("May be off", f"± {_percent(one.deviation)} of the setting (your kit)"))
    else:
        found = standard_share(one)
        facts.append(("May be off", f"± {_percent(found.value)} of the setting ({found.source})"))
    facts += _common(one)
    if one.clicks_since is not None:
        facts.append(("Clicks since", f"{one.clicks_since:,}"))
    due = check_due(one, today=today) or not_said(one)
    return Owned(one.name, one.kind, tuple(facts), one.note or "", (*filter(None, (due,)), *used))


def _adapter(one: Adapter) -> Owned:
    angle = f"{one.angle_deg:g}° to the wrench" if one.angle_deg else "straight out"
    return Owned(one.name, "adapter", (("Length", one.length.text), ("Stands", angle)), one.note or "")


def _spring_scale(one: SpringScale) -> Owned:
    facts = [("Range", one.range.text)]
    facts += [
        (name, figure.text)
        for name, figure in (("Step", one.step), ("May be off", one.error))
        if figure is not None
    ]
    return Owned(one.name, "spring scale", tuple(facts), one.note or "")


def _percent(share: float) -> str:
    return f"{100 * share:g} %"


def _gauge(kit: Kit, one: Gauge, today: date) -> Owned:
    due = gauge_check_due(one, today=today)
    facts = (*gauge_facts(kit, one), *_common(one))
    return Owned(one.name, one.kind, facts, one.note or "", (due,) if due else ())


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
