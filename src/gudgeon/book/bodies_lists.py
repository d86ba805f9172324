"""Bodies: the four open lists, and what was counted."""

from typing import Literal

from pydantic import Field

from gudgeon.book.body import Body, Due, Name, Ordinal, Remark, Said

Group = Literal["connector", "hose", "strap", "bracket", "bolt", "cover", "part"]


class ProvisionalMade(Body):
    """Something is left loose on purpose."""

    item: Name
    name: Name
    joint: Name | None = None
    why: Said
    due_task: Said
    due_before: Due


class Closed(Body):
    """Something on a list is closed, and how."""

    item: Name
    how: Said


class ItemOnly(Body):
    """Something on a list is closed."""

    item: Name


class PutIn(Body):
    """A temporary thing goes in, or an opening is closed.

    A pin or lock `holds` the timing and takes no torque; a holder takes torque; anything else holds nothing.
    """

    item: Name
    name: Name
    where: Said
    due_before: Due
    holds: Literal["nothing", "timing", "torque"] = "nothing"


class TakenOff(Body):
    """Something comes off that has to go back: one thing, or so many of a kind in one bag."""

    item: Name
    group: Group
    name: Name
    place: Name | None = None
    count: Ordinal = 1
    bag: Name | None = None
    due_before: Due


class Refitted(Body):
    """Something is back; of several in a bag, so many, or all that were still off."""

    item: Name
    place: Name | None = None
    count: Ordinal | None = None


class Counted(Body):
    """So many of a kind were counted, as they came off or as they went back."""

    group: Group
    when: Literal["off", "back"]
    count: int = Field(ge=0, le=10_000)
    note: Remark = ""


class Explained(Body):
    """One piece by which what was counted back differs from what was counted off: where it is, or whence it came."""

    group: Group
    way: Literal["missing", "over"]
    what: Name
    why: Said
