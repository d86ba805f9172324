"""The drive of the camshafts and the valve gear."""

from typing import Annotated, Any, Literal

from pydantic import Discriminator, Field, Tag, model_validator

from gudgeon.sheet.figures import (
    Sourced,
    StatedAngle,
    StatedGap,
    StatedLength,
    StatedRatio,
)
from gudgeon.written.fields import Angle, Key, Length, Name, Section, Text, Whole, YesNo, refuse

Turning = Literal["clockwise", "counterclockwise"]


class Wheel(Section):
    """A wheel of the drive: toothed, or a smooth roller; its center in mm, seen from the stated side.

    `turns` says what it drives. `on` is the head that carries it, by its name in `heads` of the drive: it comes nearer
    to the crankshaft when that head is cut. A wheel that names none sits in the block. A smooth one states the
    `diameter` it runs on; `back` is a wheel that the back of the belt runs on. `mark_at` is where its mark stands when
    the engine is timed: 0° is up, 90° to the right.
    """

    name: Text
    teeth: Whole | None = Field(default=None, ge=6, le=200)
    diameter: Length | None = None
    turns: Literal["crankshaft", "camshaft", "pump", "balance shaft", "nothing"] | None = None
    mark: Text | None = None
    mark_at: Angle | None = None
    x: Length | None = None
    y: Length | None = None
    on: Name | None = None
    back: YesNo = False
    keyed: YesNo = True

    @model_validator(mode="after")
    def _toothed_or_smooth(self) -> "Wheel":
        if (self.teeth is None) == (self.diameter is None):
            raise refuse(
                "A wheel states its teeth, or, where it is smooth, its diameter: exactly one of both."
            )
        return self


class TeethBetween(Section):
    """How many teeth of the belt, or links of the chain, lie between two marks, counted as the belt runs."""

    from_: Key = Field(alias="from")
    to: Key
    teeth: Whole = Field(ge=0, le=2000)
    way: Text | None = None

    def __str__(self) -> str:
        way = f", {self.way}" if self.way else ""
        return f"{self.from_} to {self.to}{way}: {self.teeth}".replace("_", " ")


def _between_shape(value: Any) -> str:
    return "counted" if isinstance(value, dict | TeethBetween) else "words"


BetweenMarks = Annotated[
    Annotated[TeethBetween, Tag("counted")] | Annotated[Text, Tag("words")], Discriminator(_between_shape)
]


class Drive(Sourced):
    """What turns the camshafts: belt, chain or gears.

    `path` names the wheels in the order in which the belt runs over them, begun at the crankshaft. `heads` says for
    each head in which direction it lies from the crankshaft: 0° is up, 90° to the right; a head that no wheel names
    needs none. `rise` is how far the pitch line of a belt runs above a smooth roller on its back.
    `crank_stops` is the characteristic that holds where the crank stood at a piston stop, turned both ways.
    """

    kind: Literal["timing belt", "timing chain", "timing gears"]
    viewed_from: Text | None = None
    turns: Turning | None = None
    pitch: StatedLength | None = None
    belt_teeth: Whole | None = None
    wheels: dict[Key, Wheel] = Field(default_factory=dict)
    heads: dict[Name, StatedAngle] = Field(default_factory=dict)
    path: tuple[Text, ...] = ()
    tensioner: Text | None = None
    tensioner_pin: Text | None = None
    tensioner_takes_up: StatedGap | None = None
    rise: StatedGap | None = None
    teeth_between_marks: tuple[BetweenMarks, ...] = ()
    locking_tools: tuple[Text, ...] = ()
    counter_hold: tuple[Text, ...] = ()
    keyless: tuple[Key, ...] = ()
    crank_stops: Key | None = None
    note: Text | None = None


class Valves(Sourced):
    """The intake or the exhaust valves: when they open, how they stand, what is measured on them.

    `opens` and `closes` are crank degrees as the trade writes them: an intake opens before top and closes after bottom
    dead center, an exhaust opens before bottom and closes after top; a minus is the other side. `centerline` is the
    crank angle of full lift from top dead center: after it for the intake, before it for the exhaust. `angle` lies
    between valve stem and cylinder axis. `piston_margin` is the nearest that valve and piston come, square to the face
    of the valve. `clearance`, `shim`, `margin` and `lobe` are the characteristics that hold what was measured.
    """

    opens: StatedAngle | None = None
    closes: StatedAngle | None = None
    duration: StatedAngle | None = None
    centerline: StatedAngle | None = None
    at_lift: StatedGap | None = None
    lift: StatedGap | None = None
    angle: StatedAngle | None = None
    piston_margin: StatedGap | None = None
    least_piston_margin: StatedGap | None = None
    clearance: Key | None = None
    shim: Key | None = None
    margin: Key | None = None
    lobe: Key | None = None


class ValveGear(Sourced):
    """How the valves are moved and set."""

    adjustment: Literal["shims", "screw adjusters", "hydraulic lifters", "none"]
    camshaft: Literal["in the head", "in the block"] | None = None
    intake_valves: Whole | None = None
    exhaust_valves: Whole | None = None
    intake: Valves | None = None
    exhaust: Valves | None = None
    followers: Text | None = None
    set_at: Text | None = None
    rocker_ratio: StatedRatio | None = None
    lifter_preload: StatedGap | None = None
    shim_thickness: StatedLength | None = None
    shim_step: StatedGap | None = None
    note: Text | None = None
