"""The hold points of a job in their order: what is to be proved, how, by what it was proved, and what can hurt."""

from dataclasses import dataclass
from datetime import datetime

from gudgeon.bench.answer import Heading
from gudgeon.bench.context import Bench
from gudgeon.bench.holds import IDENTITY, Standing, standings
from gudgeon.bench.network import job_of, tasks_of
from gudgeon.bench.ready import cautions
from gudgeon.bench.reason import MILESTONES, WORDS, when


@dataclass(frozen=True, slots=True)
class HoldPoint:
    """One point where the work stops until it is proved.

    `proof` is what proved it, with the day; `why_not` why that does not stand now, empty where it stands or where
    nothing was proved yet. `rests_on` names what has to be proved before it.
    """

    name: str
    ask: str
    write: str
    proof: str
    stands: bool
    why_not: str
    rests_on: tuple[str, ...]
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Milestone:
    """The hold points that are due before a milestone, and what can hurt at it."""

    before: str
    cautions: tuple[str, ...]
    points: tuple[HoldPoint, ...]


@dataclass(frozen=True, slots=True)
class HoldPoints:
    """Every hold point of the job, by milestone."""

    heading: Heading
    job: str
    milestones: tuple[Milestone, ...]


def hold_points(bench: Bench) -> HoldPoints:
    """The hold points of the job that was chosen; their questions hold no figure of the sheet."""
    found = standings(bench.sheet, bench.state)
    names = {one.hold.id: one.hold.name for one in found}
    task_cautions: dict[str, list[str]] = {}
    for task in tasks_of(bench.sheet, bench.state):
        for hold in task.proves:
            said = task_cautions.setdefault(hold, [])
            said += [f"{one.text} ({one.basis})" for one in task.cautions]
    milestones = tuple(
        Milestone(
            WORDS[key], cautions(key),
            tuple(
                _point(bench, one, names=names, can_hurt=task_cautions.get(one.hold.id, []))
                for one in found if one.hold.before == key
            ),
        )
        for key in MILESTONES
    )  # fmt: skip
    return HoldPoints(
        bench.heading("May I start it?"),
        job_of(bench.state).name,
        tuple(one for one in milestones if one.points),
    )


def _point(bench: Bench, one: Standing, *, names: dict[str, str], can_hurt: list[str]) -> HoldPoint:
    hold, state = one.hold, bench.state.holds.get(one.hold.id)
    said = [*dict.fromkeys(filter(None, (state.value if state is not None else "", one.value)))]
    if state is not None and state.photo:
        said.append("a photo in the book")
    if said and state is not None and state.time:
        said.append(when(datetime.fromisoformat(state.time)))
    proved = state is not None or (hold.id == IDENTITY and bench.state.identity is not None)
    return HoldPoint(
        hold.name, hold.ask, hold.value, ", ".join(said), one.stands,
        "" if one.stands or not proved else one.why_not,
        tuple(names[other] for other in hold.rests_on if other in names and other != IDENTITY),
        tuple(dict.fromkeys(can_hurt)),
    )  # fmt: skip
