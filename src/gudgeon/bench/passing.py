"""From what a person said to an inspection or an override: only what is there can be inspected, or let pass."""

from collections.abc import Mapping
from typing import Any

from gudgeon.bench.against_gates import shown
from gudgeon.bench.context import Bench, entries_of
from gudgeon.bench.errors import Unknown
from gudgeon.bench.ready import all_reasons
from gudgeon.book.gates import RULES
from gudgeon.errors import RecordError


class NothingToInspect(RecordError):
    """An inspection of what broke no gate, or was inspected before."""

    def __init__(self, number: int, open_ones: Mapping[int, str]) -> None:
        known = ", ".join(f"{one} ({act})" for one, act in open_ones.items()) or "none"
        super().__init__(
            f"Entry {number} is no act against a gate that waits for an inspection. Waiting: {known}."
        )


def inspected_fields(bench: Bench, fields: Mapping[str, Any]) -> dict[str, Any]:
    """The gate of the act, where it broke only one."""
    waiting = [one for one in bench.state.breaches if one.open]
    own = [one for one in waiting if one.entry == fields["entry"]]
    if not own:
        entries = entries_of(bench)
        number = next(one.number for one in entries if one.id == fields["entry"])
        raise NothingToInspect(number, {one.order: one.act for one in waiting})
    gate = fields.get("gate") or own[0].gate
    if gate not in {one.gate for one in own}:
        raise Unknown("gate that this act broke", str(gate), (one.gate for one in own))
    return {**fields, "gate": gate}


def override_fields(bench: Bench, fields: Mapping[str, Any]) -> dict[str, Any]:
    """What is let pass, with what the program says against it now."""
    about = str(fields["about"])
    gates = {f"gate:{gate}": rule.why for gate, rule in RULES.items()}
    reasons = of_groups(bench) | {one.about: shown(one) for one in all_reasons(bench) if one.about}
    if about not in gates | reasons:
        meant = [key for key, text in reasons.items() if about.lower() in text.partition(":")[0].lower()]
        about = meant[0] if len(meant) == 1 else about
    if about not in gates | reasons:
        raise Unknown("open thing", about, (*reasons, *gates))
    return {**fields, "about": about, "shown": (reasons | gates)[about]}


def of_groups(bench: Bench) -> dict[str, str]:
    """What is open of a group of several, one by one, though it is one reason."""
    lists = {"plugged": bench.state.plugged, "left over": bench.state.left_over}
    return {
        f"item:{family}:{item.item}": f"{item.name}: {family}"
        for family, items in lists.items()
        for item in items.values()
    }
