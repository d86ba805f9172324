"""The drive of the camshafts and the valve gear."""

from typing import Literal

from pydantic import Field

from gudgeon.sheet.figures import Sourced, StatedGap, StatedLength
from gudgeon.written.fields import Key, Length, Section, Text, Whole, YesNo


class Wheel(Section):
    """A toothed wheel of the drive; its center in mm, seen from the stated side."""

    name: Text
    teeth: Whole = Field(ge=6, le=200)
    mark: Text | None = None
    x: Length | None = None
    y: Length | None = None
    keyed: YesNo = True


class Drive(Sourced):
    """What turns the camshafts: belt, chain or gears."""

    kind: Literal["timing belt", "timing chain", "timing gears"]
    viewed_from: Text | None = None
    pitch: StatedLength | None = None
    belt_teeth: Whole | None = None
    wheels: dict[Key, Wheel] = Field(default_factory=dict)
    path: tuple[Text, ...] = ()
    tensioner: Text | None = None
    tensioner_pin: Text | None = None
    teeth_between_marks: tuple[Text, ...] = ()
    locking_tools: tuple[Text, ...] = ()
    keyless: tuple[Key, ...] = ()
    note: Text | None = None


class ValveGear(Sourced):
    """How the valves are moved and set."""

    adjustment: Literal["shims", "screw adjusters", "hydraulic lifters", "none"]
    intake_valves: Whole | None = None
    exhaust_valves: Whole | None = None
    followers: Text | None = None
    set_at: Text | None = None
    shim_thickness: StatedLength | None = None
    shim_step: StatedGap | None = None
    note: Text | None = None
