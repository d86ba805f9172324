"""The points where the work stops until something is proved, and which of them stand."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from importlib import resources
from types import MappingProxyType

from gudgeon.bench.codes import same_code
from gudgeon.bench.features import has
from gudgeon.bench.progress import progress
from gudgeon.book.state import State
from gudgeon.sheet.model import DataSheet

IDENTITY = "right_engine"
"""The hold that the code read off the engine proves by itself."""


@dataclass(frozen=True, slots=True)
class Hold:
    """One hold: what to look at, what value proves it, what it rests on."""

    id: str
    family: str
    name: str
    ask: str
    value: str
    before: str
    needs: tuple[str, ...] = ()
    joint: str | None = None
    rests_on: tuple[str, ...] = ()


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
            **body,
        )
        for key, body in tomllib.loads(text).items()
    }
    return MappingProxyType(read)


def joint_with_role(sheet: DataSheet, role: str) -> str | None:
    """The key of the joint that plays a role in this engine."""
    return next((key for key, joint in sheet.joints.items() if joint.role == role), None)


def holds_of(sheet: DataSheet) -> tuple[Hold, ...]:
    """The holds that apply to this engine."""
    return tuple(hold for hold in all_holds().values() if all(has(sheet, need) for need in hold.needs))


def basis_of(hold: Hold, sheet: DataSheet) -> tuple[str, ...]:
    """What a proof of this hold rests on, in the words of the book."""
    applying = {other.id for other in holds_of(sheet)}
    rests = [f"hold:{other}" for other in hold.rests_on if other in applying]
    joint = joint_with_role(sheet, hold.joint) if hold.joint else None
    return (*rests, *([f"joint:{joint}"] if joint else []))


def standings(sheet: DataSheet, state: State) -> tuple[Standing, ...]:
    """Every hold of this engine with whether it stands, those it rests on first."""
    done: dict[str, Standing] = {}
    for hold in holds_of(sheet):
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
    return Standing(hold, True, f"{read.code}, {read.read_from}", "")


def _standing(hold: Hold, sheet: DataSheet, state: State, before: Mapping[str, Standing]) -> Standing:
    if hold.id == IDENTITY:
        return _identity(hold, sheet, state)
    found = state.holds.get(hold.id)
    if found is None:
        return Standing(hold, False, "", "not proved yet")
    if found.status != "proved":
        return Standing(hold, False, found.value, f"void: {found.why_void}")
    for other in hold.rests_on:
        under = before.get(other)
        if under is not None and not under.stands:
            return Standing(
                hold, False, found.value, f"it rests on “{under.hold.name}”, which does not stand"
            )
    joint = joint_with_role(sheet, hold.joint) if hold.joint else None
    if joint is not None and not progress(sheet.joints[joint], state.joints.get(joint)).complete:
        return Standing(hold, False, found.value, f"its joint is not finished: {sheet.joints[joint].name}")
    return Standing(hold, True, found.value, "")
