"""The figures of sheet and kit that an entry is made against, as they are kept with it."""

from collections.abc import Mapping

from gudgeon.kit.model import Gauge, Kit
from gudgeon.kit.torque import Wrench
from gudgeon.sheet.figures import Stated
from gudgeon.sheet.inspections import Characteristic
from gudgeon.sheet.joints import Joint, Stage
from gudgeon.sheet.model import DataSheet

LIMITS = {"new range": "new_range", "wear limit": "wear_limit", "required": "required"}
"""What is kept of a limit, and the field of the sheet that states it."""


def limits_shown(item: Characteristic) -> dict[str, str]:
    """New range, wear limit and requirement as the sheet prints them."""
    stated = {name: getattr(item, field) for name, field in LIMITS.items()}
    return {name: figure.value.text for name, figure in stated.items() if figure is not None}


SET_BY = "error of what sets it"


def reading_shown(sheet: DataSheet, kit: Kit, *, item: str, gauge: Gauge | None) -> dict[str, str]:
    """What a reading is judged by: limits, method, what is worked out from it, and how far its gauge may be off."""
    of = sheet.characteristics[item]
    return {
        **limits_shown(of),
        **{name: one.value.text for name, (_, one) in shape_figures(of).items()},
        "method": of.method,
        "kind": of.kind,
        **({"material": of.material} if of.material else {}),
        **worked_out_limits(sheet, item),
        **{f"gauge {name}": text for name, text in gauge_figures(gauge, kit).items()},
    }


def worked_out_limits(sheet: DataSheet, item: str) -> dict[str, str]:
    """The limits of what is worked out from a characteristic, by `KEY: limit`."""
    return {
        f"{key}: {name}": text
        for key, other in sheet.characteristics.items()
        if item in other.of
        for name, text in _all_limits(other).items()
    }


def shape_figures(item: Characteristic) -> dict[str, tuple[str, Stated]]:
    """The figures of limits with shapes, by `limit SHAPE, FIGURE`, each with the path where it stands."""
    found: dict[str, tuple[str, Stated]] = {}
    for number, shape in enumerate(item.limits, start=1):
        for name in shape.figures:
            figure = getattr(shape, name)
            key = f"limit {shape.shape}, {name.replace('_', ' ')}"
            if figure is not None:
                again = f"{key} {number}" if key in found else key
                found[again] = f"limits.{number}.{name}", figure
    return found


def _all_limits(item: Characteristic) -> dict[str, str]:
    shapes = {name: one.value.text for name, (_, one) in shape_figures(item).items()}
    return limits_shown(item) | shapes


def gauge_figures(gauge: Gauge | None, kit: Kit) -> dict[str, str]:
    """What the kit says of a gauge, as far as a reading depends on it, and how far that is off which sets it."""
    if gauge is None:
        return {}
    master = kit.gauges.get(gauge.zeroed_in or "")
    said = {
        "range": gauge.range.text if gauge.range is not None else "",
        "step": gauge.step.text if gauge.step is not None else "",
        "error": gauge.error.text if gauge.error is not None else "",
        "blades": ", ".join(blade.text for blade in gauge.blades),
        "stated as": gauge.stated_as if gauge.stated_as != "permitted error" else "",
        "material": gauge.material or "",
        "zeroed in": gauge.zeroed_in or "",
        SET_BY: master.error.text if master is not None and master.error is not None else "",
        "steps": ", ".join(step.text for step in gauge.steps),
        "checked": gauge.checked.isoformat() if gauge.checked is not None else "",
    }
    return {name: text for name, text in said.items() if text}


def pull_shown(joint: Joint, stage: Stage, kit: Kit, *, tool: str, adapter: str) -> dict[str, str]:
    """What a pull depends on beside its figure: order of the stage, state of the thread, and what the tool is."""
    wrench = kit.wrenches.get(tool)
    turning = kit.turning.get(tool)
    said = {"thread state": joint.thread_state, "order": order_shown(joint, stage)}
    if wrench is not None:
        levers = lever_figures(wrench, kit, adapter=adapter)
        said |= {f"wrench {name}": text for name, text in (wrench_figures(wrench) | levers).items()}
    elif turning is not None and turning.error is not None:
        said["tool error"] = turning.error.text
    return {name: text for name, text in said.items() if text}


def order_shown(joint: Joint, stage: Stage) -> str:
    """The bolts of a stage in the order in which they are worked; nothing where one cannot be before another."""
    bolts = joint.stage_bolts(stage)
    if stage.kind == "wait" or len(bolts) < 2:
        return ""
    return "free" if "free" in (joint.order, stage.order) else ", ".join(bolts)


def wrench_figures(wrench: Wrench) -> dict[str, str]:
    """What the kit says of a torque wrench, as far as a pull depends on it."""
    said = {
        "range": " and ".join(scale.range.text for scale in wrench.scales),
        "class": wrench.iso_class,
        "deviation": f"{100 * wrench.deviation:g} %" if wrench.deviation is not None else "",
        "checked": wrench.checked.isoformat() if wrench.checked is not None else "",
        "overloaded": wrench.overloaded.isoformat() if wrench.overloaded is not None else "",
    }
    return {name: text for name, text in said.items() if text}


def lever_figures(wrench: Wrench, kit: Kit, *, adapter: str) -> dict[str, str]:
    """The lengths that make the setting through an adapter; `adapter` is how the list named it."""
    key = adapter_key(kit, adapter)
    if not key:
        return {}
    of = kit.adapters[key]
    said = {"length": wrench.length.text if wrench.length is not None else "", "adapter": key}
    return said | {"adapter length": of.length.text, "adapter angle": of.angle.text if of.angle else "0°"}


def adapter_key(kit: Kit, words: str) -> str:
    """The adapter that begins the words of the list; the longest name counts."""
    found = [key for key, one in kit.adapters.items() if words and words.startswith(one.name)]
    return max(found, key=lambda key: len(kit.adapters[key].name), default="")


def stated(shown: Mapping[str, str], family: str) -> dict[str, str]:
    """What is kept of one family, like `gauge`, by the rest of its name."""
    return {
        name.removeprefix(f"{family} "): text for name, text in shown.items() if name.startswith(f"{family} ")
    }
