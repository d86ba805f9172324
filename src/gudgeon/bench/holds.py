"""The points where the work stops until something is proved, and which of them stand."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from functools import lru_cache
from importlib import resources
from types import MappingProxyType

from gudgeon.bench.codes import same_code
from gudgeon.bench.features import has
from gudgeon.bench.held_against import begins, differing
from gudgeon.bench.network import JOB, job, job_named
from gudgeon.bench.progress import progress
from gudgeon.book.fold_lists import MILESTONES
from gudgeon.book.part_names import is_part
from gudgeon.book.state import HoldState, State
from gudgeon.sheet.model import DataSheet

IDENTITY = "right_engine"
"""The hold that the code read off the engine proves by itself."""
COMPARED = "parts_compared"
"""The hold that says of the new parts that they are like the old ones: of those that were to be had that day."""


@dataclass(frozen=True, slots=True)
class Hold:
    """One hold: what to look at, what value proves it, what it rests on.

    `contradicted_by` pairs an open list with the words of a thing that cannot be on it while the hold is true. `acts`
    are what is done to the engine in proving it, `makes` what is so of the engine afterwards. `held_against` names the
    figures of the sheet that the proof is compared with, beside those of its joint. `opened` names what of the engine
    must have been opened for it to be asked for, where most jobs leave that shut. `under` are the roles of the joints
    that hide what was seen: when one is opened again, it has to be seen again. `above_zero` is the kind of a quantity
    that is there only when the proof is more than nothing.
    """

    id: str
    family: str
    name: str
    ask: str
    value: str
    before: str
    needs: tuple[str, ...] = ()
    joint: str | None = None
    rests_on: tuple[str, ...] = ()
    contradicted_by: tuple[tuple[str, str], ...] = ()
    acts: tuple[str, ...] = ()
    makes: Mapping[str, str] = field(default_factory=dict)
    held_against: tuple[str, ...] = ()
    opened: str = ""
    under: tuple[str, ...] = ()
    above_zero: str = ""


@dataclass(frozen=True, slots=True)
class Standing:
    """Whether a hold stands: proved, and everything it rests on as well."""

    hold: Hold
    stands: bool
    value: str
    why_not: str


@lru_cache(maxsize=1)
def all_holds() -> Mapping[str, Hold]:
    """Every hold that the program knows, in the order of the work."""
    text = resources.files("gudgeon.bench").joinpath("data/holds.toml").read_text(encoding="utf-8")
    read = {
        key: Hold(
            id=key,
            needs=tuple(body.pop("needs", ())),
            rests_on=tuple(body.pop("rests_on", ())),
            contradicted_by=tuple((one, words) for one, words in body.pop("contradicted_by", ())),
            acts=tuple(body.pop("acts", ())),
            held_against=tuple(body.pop("held_against", ())),
            under=tuple(body.pop("under", ())),
            **body,
        )
        for key, body in tomllib.loads(text).items()
    }
    return MappingProxyType(read)


def joints_of(hold: Hold, sheet: DataSheet) -> tuple[str, ...]:
    """The keys of the joints that a hold is about: every one that plays its role, like the caps of both camshafts."""
    return joints_playing(hold.joint, sheet)


def joints_playing(role: str | None, sheet: DataSheet) -> tuple[str, ...]:
    """The keys of the joints that play a role; none where none is named."""
    return tuple(key for key, joint in sheet.joints.items() if role and joint.role == role)


def holds_of(sheet: DataSheet, named: str = JOB) -> tuple[Hold, ...]:
    """The holds that apply to this engine in a job: of what the job never touches nothing is to be proved."""
    proved = _proved_in(named)
    return tuple(
        hold
        for hold in all_holds().values()
        if hold.id in proved and all(has(sheet, need) for need in hold.needs)
    )


@lru_cache(maxsize=8)
def _proved_in(named: str) -> frozenset[str]:
    return job(named).proves


def basis_of(hold: Hold, sheet: DataSheet, named: str = JOB) -> tuple[str, ...]:
    """What a proof of this hold rests on, in the words of the book.

    The engine code is no proof in the book but an entry of its own: whether it was read is asked of the state.
    """
    applying = {other.id for other in holds_of(sheet, named)} - {IDENTITY}
    rests = [f"hold:{other}" for other in hold.rests_on if other in applying]
    rests += [other for other in hold.rests_on if other.startswith(("state:", "part:"))]
    rests += [f"under:{key}" for role in hold.under for key in joints_playing(role, sheet)]
    return (*rests, *(f"joint:{key}" for key in joints_of(hold, sheet)))


def standings(sheet: DataSheet, state: State) -> tuple[Standing, ...]:
    """Every hold of this engine with whether it stands, those it rests on first."""
    done: dict[str, Standing] = {}
    for hold in holds_of(sheet, job_named(state)):
        done[hold.id] = _standing(hold, sheet, state, done)
    return tuple(done.values())


def _identity(hold: Hold, sheet: DataSheet, state: State) -> Standing:
    read = state.identity
    if read is None:
        return Standing(hold, False, "", "the engine code has not been read")
    if not same_code(read.code, sheet.engine.codes) and not read.why_not:
        return Standing(
            hold, False, read.code, "the code is not the sheet's, and nobody has said why the sheet serves"
        )
    said = state.holds.get(IDENTITY)
    if said is not None and said.status != "proved":
        return Standing(hold, False, read.code, f"void: {said.why_void}")
    return Standing(hold, True, f"{read.code}, {read.read_from}", "")


_LISTS = {"left in": "left_in", "plugged": "plugged", "off the engine": "left_over"}


def contradiction(hold: Hold, state: State) -> str:
    """What the open lists said against a hold when it was proved, and still say.

    What came on a list after the proof speaks for itself there, and does not make the proof wrong.
    """
    proof = state.holds.get(hold.id)
    if proof is None or not proof.time:
        return ""
    for name, words in hold.contradicted_by:
        for item in getattr(state, _LISTS[name]).values():
            due = MILESTONES.index(item.due_before) <= MILESTONES.index(hold.before)
            before = datetime.fromisoformat(item.since) <= datetime.fromisoformat(proof.time)
            if due and before and begins(words, text=f"{item.group} {item.name} {item.where}"):
                return f"the book says otherwise: “{item.name}” is still on the list of what is {name}"
    return ""


def _proved_since(found: HoldState, other: str, state: State) -> bool:
    """Whether a proof is older than another that it rests on, and did not ask for it on its day."""
    under = state.holds.get(other)
    if under is None or f"hold:{other}" in found.rests_on:
        return False
    return 0 < found.order < under.order


def _otherwise(found: Mapping[str, tuple[str, str]]) -> str:
    """What a proof was held against and the sheet says otherwise now."""
    if not found:
        return ""
    said = [f"{path}: {before}, now {now}" for path, (before, now) in found.items()]
    more = f" and {len(said) - 2} more" if len(said) > 2 else ""
    return f"proved against figures that the sheet has changed since ({'; '.join(said[:2])}{more}): prove it again"


def _lost_photo(proof: HoldState, state: State) -> str:
    """Why a proof by a photo proves nothing now; nothing where it does, or where a value proves it."""
    if not proof.photo:
        return ""
    wrong = state.photos_wrong.get(proof.photo, "")
    if not wrong and proof.photo not in {one.sha for one in state.photos}:
        wrong = "its entry was struck"
    return f"the photo that proves it is in doubt: {wrong}" if wrong else ""


def _gone_since(found: HoldState, hold: Hold, sheet: DataSheet, state: State) -> str:
    """Why a proof from a day on which the book did not ask for it says nothing of the engine of today.

    Whatever a proof names as its ground, the book itself watches.
    """
    for role in hold.under:
        for key in joints_playing(role, sheet):
            joint = state.joints.get(key)
            if (
                f"under:{key}" not in found.rests_on
                and joint is not None
                and joint.disturbed_order > found.order
            ):
                return f"{sheet.joints[key].name} was opened again since"
    for thing in hold.rests_on:
        family, _, word = thing.partition(":")
        if family != "part" or thing in found.rests_on:
            continue
        for part, one in state.shop.items():
            if is_part(word, said=part) and one.order > found.order:
                return f"{part} went to {one.shop} since"
    for part, decided in state.parts.items() if hold.id == COMPARED else ():
        if decided.renewed > found.order:
            return f"since then it was decided that {part} is renewed: fit the new one, and compare it before that"
    return ""


def _standing(hold: Hold, sheet: DataSheet, state: State, before: Mapping[str, Standing]) -> Standing:
    if hold.id == IDENTITY:
        return _identity(hold, sheet, state)
    found = state.holds.get(hold.id)
    if found is None:
        return Standing(hold, False, "", "not proved yet")
    if found.status != "proved":
        return Standing(hold, False, found.value, f"void: {found.why_void}")
    against = contradiction(hold, state)
    if against:
        return Standing(hold, False, found.value, against)
    joints = joints_of(hold, sheet)
    otherwise = _otherwise(differing(found.shown, sheet, hold.held_against, joints=joints))
    if otherwise:
        return Standing(hold, False, found.value, otherwise)
    lost = _lost_photo(found, state) or _gone_since(found, hold, sheet, state)
    if lost:
        return Standing(hold, False, found.value, lost)
    for other in hold.rests_on:
        under = before.get(other)
        if under is None:
            continue
        why = f"it rests on “{under.hold.name}”, which does not stand" if not under.stands else ""
        # A job that was made larger may ask for more under a proof than was asked for on the day of it.
        if why or _proved_since(found, other, state):
            why = why or f"it was proved before “{under.hold.name}”, on which it rests in this job"
            return Standing(hold, False, found.value, why)
    for key in joints:
        if not progress(sheet.joints[key], state.joints.get(key)).complete:
            return Standing(hold, False, found.value, f"its joint is not finished: {sheet.joints[key].name}")
        if f"joint:{key}" not in found.rests_on:
            return Standing(
                hold,
                False,
                found.value,
                f"it was not proved of {sheet.joints[key].name}, which belongs to it",
            )
    return Standing(hold, True, found.value, "")
