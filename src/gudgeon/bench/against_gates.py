"""Acts against a gate that nobody has inspected, and what named persons let pass."""

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime

from gudgeon.bench.context import Bench
from gudgeon.bench.doing import overruled
from gudgeon.bench.gates import breach_key, inspect_words, timing_proved, way_out
from gudgeon.bench.holds import holds_of
from gudgeon.bench.network import job_named
from gudgeon.bench.reason import Reason, when
from gudgeon.book.gates import RULES, TIMING_PROOF, refused
from gudgeon.book.state import Breach

FAMILY = "against a gate"
_CHANGING = ("item:", "timer:", "part:", "gate:")
"""What a reason says of these changes by the hour; that something happened to them, the book itself knows."""


def reasons(bench: Bench) -> Iterator[Reason]:
    """Every act against a gate until an inspection says what was found, and what stands in the way of the starter."""
    yield from not_inspected(bench)
    yield from _shut(bench)


def not_inspected(bench: Bench) -> Iterator[Reason]:
    """Every act that was done against a gate, until an inspection says what was found."""
    for one in bench.state.breaches:
        if one.open:
            yield Reason(
                FAMILY,
                f"{one.act[0].upper()}{one.act[1:]}",
                _breach_words(one),
                "crank",
                inspect_words(one.order, one.gate),
                next(rule.look for gate, rule in RULES.items() if gate == one.gate),
                "what you looked at, and found",
                about=breach_key(one),
            )


def _shut(bench: Bench) -> Iterator[Reason]:
    """What refuses the starter as the engine is known; that its timing is not proved, its hold says, if asked."""
    asked = any(one.id == TIMING_PROOF for one in holds_of(bench.sheet, job_named(bench.state)))
    for gate in refused("turn by starter", bench.state.engine, timing_proved=asked or timing_proved(bench)):
        if gate not in overruled(bench.sheet):
            out = way_out(bench, gate)
            yield Reason(
                FAMILY,
                "Turn by starter",
                RULES[gate].why,
                "crank",
                out,
                f"{out.partition(': gudgeon')[0]}.",
                "what you did, and saw",
                about=f"gate:{gate}",
            )


def _breach_words(one: Breach) -> str:
    """What was done against which gate, by whom and when."""
    return f"done by {one.who} on {when(datetime.fromisoformat(one.time))}, although {one.why}"


@dataclass(frozen=True, slots=True)
class Passed:
    """The reasons that nobody lets pass, in words what somebody does, and what was let pass once and is gone by now."""

    left: tuple[Reason, ...]
    standing: tuple[str, ...]
    gone: tuple[str, ...]


def let_pass(bench: Bench, found: Iterable[Reason]) -> Passed:
    """What named persons let pass of the reasons, acts against a gate included; said for ever, needed or not."""
    standing = {one.about: one for one in bench.state.overrides if one.stands}
    left, passed, needed = [], [], set()
    for reason in found:
        over = standing.get(reason.about) if reason.about else None
        if over is None or not (reason.about.startswith(_CHANGING) or over.shown == shown(reason)):
            left.append(reason)
        else:
            needed.add(over.entry)
            passed.append(f"{reason.what}: {reason.why}; let pass by {over.by}, because {over.why}")
    used = (one for one in bench.state.breaches if one.passed_by)
    passed += [
        f"{one.act[0].upper()}{one.act[1:]}, although {one.why}; let pass by {one.passed_by}" for one in used
    ]
    passed += [
        f"{one.shown or one.about}; begun all the same by {one.by}, because {one.why}"
        for one in bench.state.overrides
        if one.about.startswith("task:")
    ]
    return Passed(tuple(left), tuple(passed), _gone(bench, needed))


def shown(reason: Reason) -> str:
    """What an override keeps of the reason that it lets pass."""
    return f"{reason.what}: {reason.why}"


def _gone(bench: Bench, needed: Collection[str]) -> tuple[str, ...]:
    """What was let pass once and is something else or nothing by now; a gate that waits for its act is not."""
    used = {one.passed_by for one in bench.state.breaches}
    return tuple(
        f"{one.shown or one.about}; let pass by {one.by} on {when(datetime.fromisoformat(one.time))}, because {one.why}"
        for one in bench.state.overrides
        if one.entry not in needed
        and not one.about.startswith("task:")
        and not (one.stands and one.about.startswith("gate:"))
        and f"{one.by}: {one.why}" not in used
    )
