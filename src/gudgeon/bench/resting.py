"""What a proof rests on and is not so: each by its name, why it does not stand, and what to type for it."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from gudgeon.bench.holds import IDENTITY, Hold, Standing, joints_of, standings
from gudgeon.bench.progress import progress
from gudgeon.book.state import State
from gudgeon.sheet.model import DataSheet

UNDER_IT = "what it rests on"
"""So begin the words of the book for a proof that was given before what it rests on was proved."""


@dataclass(frozen=True, slots=True)
class Under:
    """One thing that a proof rests on and that does not stand, with the command that proves it."""

    name: str
    why: str
    command: str

    def __str__(self) -> str:
        return f"“{self.name}” ({self.why}): {self.command}"


def not_standing_under(hold: Hold, sheet: DataSheet, state: State) -> tuple[Under, ...]:
    """Everything under a proof that does not stand, in the order of the work: first things first."""
    return not_standing_among(hold, standings(sheet, state), sheet=sheet, state=state)


def not_standing_among(
    hold: Hold, all_of: Iterable[Standing], *, sheet: DataSheet, state: State
) -> tuple[Under, ...]:
    """The same, where the standings of this engine are at hand."""
    found = {one.hold.id: one for one in all_of}
    wanted: dict[str, None] = {}
    todo = list(hold.rests_on)
    while todo:
        one = found.get(todo.pop())
        if one is not None and not one.stands and one.hold.id not in wanted:
            wanted[one.hold.id] = None
            todo += one.hold.rests_on
    said = [each for key, one in found.items() if key in wanted for each in _told(one, sheet, state)]
    return (*said, *_joints(hold, sheet, state))


def _told(one: Standing, sheet: DataSheet, state: State) -> Iterator[Under]:
    """A proof with the joints that it is of; those are finished first."""
    yield from _joints(one.hold, sheet, state)
    command = (
        "gudgeon record identity CODE"
        if one.hold.id == IDENTITY
        else f"gudgeon record hold {one.hold.id} VALUE"
    )
    yield Under(one.hold.name, one.why_not, command)


def _joints(hold: Hold, sheet: DataSheet, state: State) -> Iterator[Under]:
    for key in joints_of(hold, sheet):
        found = progress(sheet.joints[key], state.joints.get(key))
        if not found.complete:
            why = f"{found.done} of {len(found.steps)} pulls are in the book"
            yield Under(sheet.joints[key].name, why, f"gudgeon tighten {key}")


def first_words(under: tuple[Under, ...]) -> str:
    """What is to be proved first, in one sentence; nothing where nothing is missing."""
    return f"First, in this order: {'; '.join(map(str, under))}." if under else ""


def first_names(under: tuple[Under, ...]) -> str:
    """The same by name and command, without the reasons, for a list that has each of them with its reason."""
    return "; ".join(f"“{one.name}” ({one.command})" for one in under)
