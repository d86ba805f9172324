"""What an entry does to the engine as a whole: its acts, what is so afterwards, the gates that the sheet overrules."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from gudgeon.bench.features import has
from gudgeon.bench.holds import all_holds, holds_of
from gudgeon.bench.network import JOB, job_named, known_task
from gudgeon.book.state import EngineState, State
from gudgeon.sheet.joints import Joint
from gudgeon.sheet.model import DataSheet

TURNING = ("crank pulley", "camshaft sprockets")
"""The roles of joints whose bolt turns with the engine: pulling it against timing pins bends them."""

_FINAL = ("torque", "turn", "verify", "stretch")
"""Kinds of stage that pull a bolt with more than fingers."""


@dataclass(frozen=True, slots=True)
class Done:
    """Acts, and what they make of the engine."""

    acts: tuple[str, ...] = ()
    makes: Mapping[str, str] | None = None

    def __bool__(self) -> bool:
        return bool(self.acts or self.makes)


@dataclass(slots=True)
class Known:
    """What has to be known of a build to say what an entry does to its engine.

    `pulled` are the joints that stand pulled: one that was opened since is put together anew.
    """

    tasks: set[str]
    pulled: set[str]
    cams_in: bool
    job: str = JOB

    @classmethod
    def of(cls, state: State) -> "Known":
        """What a state says of it."""
        pulled = {key for key, joint in state.joints.items() if joint.pulls}
        return cls(set(state.tasks), pulled, state.engine.cams == "in", job_named(state))

    def note(self, sheet: DataSheet, *, kind: str, fields: Mapping[str, Any]) -> None:
        """One entry further."""
        if kind == "pull":
            self.pulled.add(fields["joint"])
            self.cams_in |= sheet.joints[fields["joint"]].role == "camshaft caps"
        elif kind in ("joint-disturbed", "bolt-loosened"):
            self.pulled.discard(fields["joint"])
        elif kind == "job-chosen":
            self.job = fields["job"]
        elif kind in ("task-started", "task-done"):
            self.tasks.add(fields["task"])


def of_entry(
    sheet: DataSheet, known: Known, *, kind: str, fields: Mapping[str, Any]
) -> dict[str, Any] | None:
    """The field `doing` of an entry; None for what leaves the engine as it is."""
    done = _done(sheet, known, kind=kind, fields=fields)
    if not done:
        return None
    return {
        "acts": list(done.acts),
        "sets": dict(done.makes) if done.makes else None,
        "overruled": overruled(sheet),
    }


def overruled(sheet: DataSheet) -> dict[str, str]:
    """The gates that the sheet overrules, with what it says and where."""
    return {one.gate: f"{one.because} ({one.source})" for one in sheet.gates}


def _done(sheet: DataSheet, known: Known, *, kind: str, fields: Mapping[str, Any]) -> Done:
    match kind:
        case "pull":
            return of_pull(sheet, known, joint=fields["joint"], stage=int(fields["stage"]))
        case "bolt-loosened" | "joint-disturbed":
            return of_loosening(sheet, joint=fields["joint"])
        case "hold-proved":
            hold = all_holds().get(fields["hold"])
            return Done(hold.acts, hold.makes) if hold is not None else Done()
        case "task-started":
            return Done(of_task(sheet, fields["task"]).acts)
        case "task-done":
            return _finished(sheet, known, fields["task"])
        case "turned":
            return Done((f"turn by {fields['by']}",), {"crank": "moved"})
    return Done()


def _finished(sheet: DataSheet, known: Known, task: str) -> Done:
    """A task that was never begun in the book did its acts all the same."""
    done, begun = of_task(sheet, task), task in known.tasks
    return Done(() if begun else done.acts, done.makes)


def of_task(sheet: DataSheet, task: str) -> Done:
    """What a task of the job does to this engine."""
    found = known_task(task)
    if found is None:
        return Done()
    return Done(_fitting(sheet, found.acts), _possible(sheet, found.makes))


def of_pull(sheet: DataSheet, known: Known, *, joint: str, stage: int) -> Done:
    """What one pull does: the first one of the head fits it, the first one of the caps lays the camshafts in.

    So it is each time that the joint was opened.
    """
    of = sheet.joints.get(joint)
    if of is None or of.role is None or not 1 <= stage <= len(of.program):
        return Done()
    step = of.program[stage - 1]
    if of.role == "cylinder head" and joint not in known.pulled:
        return Done(_fitting(sheet, ("fit the head",)))
    if of.role == "camshaft caps" and not (known.cams_in and joint in known.pulled):
        makes = {"cams": "in", "followers": "pumped up"}
        return Done(_fitting(sheet, ("fit camshafts",)), _possible(sheet, makes))
    if of.role in TURNING and step.kind in _FINAL and not step.provisional:
        return Done(("tighten a rotating bolt",))
    return Done()


def of_loosening(sheet: DataSheet, *, joint: str) -> Done:
    """What loosening a bolt that turns with the engine does."""
    of = sheet.joints.get(joint)
    if of is None or of.role not in TURNING:
        return Done()
    keyless = ("loosen a keyless pulley",) if _keyless(sheet, of) else ()
    return Done(("loosen a rotating bolt", *keyless))


def _fitting(sheet: DataSheet, acts: Iterable[str]) -> tuple[str, ...]:
    """The acts without those that this engine does not know.

    Where no open valve can meet a piston while the head or a camshaft goes on, no gate asks where the pistons stand.
    """
    crank = any(_is_crank(key, wheel.name) and keyless for key, wheel, keyless in _wheels(sheet))
    meet = any(hold.id == "pistons_halfway" for hold in holds_of(sheet))
    known = {"loosen a keyless pulley": crank, "fit the head": meet, "fit camshafts": meet}
    return tuple(one for one in acts if known.get(one, True))


def _keyless(sheet: DataSheet, joint: Joint) -> bool:
    """Whether the wheel behind a joint sits on its shaft without a key, as the sheet says."""
    wanted = joint.role == "crank pulley"
    return any(keyless and _is_crank(key, wheel.name) == wanted for key, wheel, keyless in _wheels(sheet))


def _wheels(sheet: DataSheet) -> list[tuple[str, Any, bool]]:
    drive = sheet.drive
    if drive is None:
        return []
    return [(key, wheel, key in drive.keyless or not wheel.keyed) for key, wheel in drive.wheels.items()]


def _is_crank(key: str, name: str) -> bool:
    return "crank" in f"{key} {name}".lower()


def _possible(sheet: DataSheet, makes: Mapping[str, str]) -> dict[str, str]:
    """What can be so of this engine: without hydraulic lifters none are pumped up."""
    return {
        name: value for name, value in makes.items() if name != "followers" or has(sheet, "hydraulic lifters")
    }


def engine_words(engine: EngineState) -> tuple[str, ...]:
    """The engine as it is known, in words; what nobody said is left out."""
    said = {
        "crank": f"pistons: {'not looked at since it was turned' if engine.crank == 'moved' else engine.crank}",
        "cams": f"camshafts: {engine.cams}",
        "belt": f"timing drive: {engine.belt}",
        "pins": f"timing pins and locks: {engine.pins}",
        "holder": f"holder: {engine.holder}",
        "followers": f"lifters: {engine.followers}",
    }
    return tuple(words for name, words in said.items() if getattr(engine, name) is not None)
