"""The choice as moves that can be followed one by one, each shim in one hand only."""

from collections.abc import Sequence

from gudgeon.bench.shims.lines import thickness
from gudgeon.bench.shims.model import StepLine, WorkRun
from gudgeon.bench.shims.read import ValveRead
from gudgeon.calc.engine.shim_choice import Choice
from gudgeon.calc.engine.shim_moves import Run, Step, runs


def work(valves: Sequence[ValveRead], chosen: Choice) -> tuple[WorkRun, ...]:
    """Chains first, then rings, numbered through."""
    made, number = [], 0
    for run in runs([one.shim for one in chosen.fitted], old_nm=[one.valve.shim_nm for one in valves]):
        lines = tuple(_line(valves, step, number + at) for at, step in enumerate(run.steps, start=1))
        number += len(lines)
        made.append(WorkRun(_title(valves, run), run.ring, lines))
    return tuple(made)


def _title(valves: Sequence[ValveRead], run: Run) -> str:
    filled = [step.to_at for step in run.steps if step.to == "place"]
    first = valves[filled[0]].name
    if len(filled) == 1:
        return f"At {first}"
    if run.ring and len(filled) == 2:
        return f"Two places exchange, beginning at {first}"
    words = f"A ring of {len(filled)} places" if run.ring else f"A chain of {len(filled)} places"
    return f"{words}, beginning at {first}"


def _line(valves: Sequence[ValveRead], step: Step, number: int) -> StepLine:
    shim = thickness(step.shim.thickness_nm)
    to = valves[step.to_at].name
    frm = valves[step.from_at].name if step.frm in ("place", "card") else ""
    card = f"a card named “{to}”" if step.to == "card" else f"the card named “{frm}”"
    comes = {"place": frm, "stock": "stock", "bought": "the dealer", "card": card}[step.frm]
    goes = {"place": to, "stock": "stock", "card": card}[step.to]
    words = {
        (
            "place",
            "stock",
        ): f"Take the shim {shim} out of {frm} and lay it into stock, its thickness written on it.",
        ("place", "card"): f"Take the shim {shim} out of {frm} and lay it aside on {card}.",
        ("place", "place"): f"Take the shim {shim} out of {frm} and put it into {to}.",
        ("stock", "place"): f"Put a shim {shim} from stock into {to}.",
        ("bought", "place"): f"Put a bought shim {shim} into {to}.",
        ("card", "place"): f"Put the shim {shim} from {card} into {to}.",
    }[(step.frm, step.to)]
    return StepLine(number, words, shim, comes, goes)
