"""Parts that are chosen to fit each other: bearing shells by grade, and what may differ in weight."""

from pydantic import Field

from gudgeon.sheet.figures import Sourced, StatedGap, StatedLength, StatedMass
from gudgeon.written.fields import Key, Name, Text, YesNo


class ShellGrade(Sourced):
    """One grade of a bearing shell: its thickness in the middle, its color or mark."""

    thickness: StatedLength
    mark: Text | None = None


class Bearing(Sourced):
    """A plain bearing whose shells are chosen: bore without shells, journal, the clearance wanted, the grades.

    `bore` and `journal` are the characteristics that hold what was measured, place by place in the same order.
    `codes` gives the grade of a shell for the two letters or numbers that the maker stamped: `A 1`, bore first.
    """

    name: Text
    bore: Key | None = None
    journal: Key | None = None
    clearance: StatedGap
    worn_clearance: StatedGap | None = None
    grades: dict[Name, ShellGrade] = Field(default_factory=dict)
    codes: dict[Name, Name] = Field(default_factory=dict)
    mixed_halves: YesNo = False
    note: Text | None = None


class Weights(Sourced):
    """What of pistons and rods may differ in mass, and the characteristics that hold the masses."""

    pistons: Key | None = None
    rods: Key | None = None
    most_difference: StatedMass | None = None


class Fits(Sourced):
    """Fits that are chosen part by part.

    `ring_gaps` are the characteristics of ring gaps that may be bettered by changing the rings among the bores.
    """

    bearings: dict[Key, Bearing] = Field(default_factory=dict)
    ring_gaps: tuple[Key, ...] = ()
    ring_bore: Key | None = None
    weights: Weights | None = None
