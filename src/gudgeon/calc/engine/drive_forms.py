"""The calculators of the drive: from inputs to kernels and back to results."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from gudgeon.calc.calculator import Found, Value, Worked
from gudgeon.calc.engine.cam_shift import slack_made, turned
from gudgeon.calc.engine.drive_errors import BesideTooFar, ListsDiffer, OnlyTwoWheels
from gudgeon.calc.engine.drive_list_forms import Carrier, Listed, centers, teeth_list, wheels
from gudgeon.calc.engine.drive_path import DrivePath, WheelAt, drive_path
from gudgeon.calc.engine.drive_wheels import center_distance, marks_realign
from gudgeon.calc.errors import positive
from gudgeon.calc.input_errors import GivenBoth, InputNeeded
from gudgeon.calc.reading import count, figure, maybe, needed, text
from gudgeon.errors import InputError

SHIFT, LENGTH = "engine.cam-shift", "engine.belt-length"
RULES_OF_THUMB = (
    "Rules of thumb in print often give camshaft degrees where crankshaft degrees are meant: they differ by two. "
    "1° of the crankshaft for each 0.508 mm (0.020 in) fits a camshaft wheel of 116 mm (4.6 in) pitch diameter."
)
NOT_TWO_TO_ONE = (
    "The wheel of the camshaft is not twice that of the crankshaft; crankshaft degrees are twice those of the camshaft "
    "all the same, as in every four-stroke engine. Check the wheels."
)


@dataclass(frozen=True, slots=True)
class Bank:
    """A camshaft's wheel, the direction in which its head lies, and how far the head is lowered."""

    cam: WheelAt
    direction_deg: float
    lowering_mm: float

    def lowered(self, wheel: WheelAt) -> WheelAt:
        """A wheel of this head after the cut."""
        return wheel.moved(self.direction_deg + 180.0, by_mm=self.lowering_mm)


def shift(values: Mapping[str, Value]) -> Worked:
    """Works out engine.cam-shift."""
    carrier = Carrier(maybe(values, "pitch"), text(values, "drive") == "chain", maybe(values, "rise"))
    lowering = figure(values, "lowering")
    far = maybe(values, "far_lowering")
    bank = maybe(values, "bank_angle")
    if far is not None and bank is None:
        raise InputNeeded("bank_angle with far_lowering", SHIFT, "bank_angle='60°'")
    apart, beside = figure(values, "center_distance"), figure(values, "cam_beside")
    half = (bank or 0.0) / 2
    crank = _shaft(values, "crank", carrier, at=(0.0, 0.0), name="the crankshaft's wheel")
    near = Bank(
        _shaft(values, "cam", carrier, at=_place(apart, beside, half), name="the camshaft's wheel"),
        half,
        lowering,
    )
    banks = [near]
    if bank is not None:
        place = _place(apart, beside, -half)
        cam = _shaft(values, "cam", carrier, at=place, name="the far camshaft's wheel")
        banks.append(Bank(cam, -half, lowering if far is None else far))
    listed = text(values, "idlers") if values["idlers"] is not None else ""
    between = wheels(listed, carrier=carrier) if listed else ()
    return _shifted(crank, banks, between, carrier)


def _place(apart: float, beside: float, direction_deg: float) -> tuple[float, float]:
    """The center of a camshaft beside the line along which its head is lowered; plus is to the right."""
    if abs(beside) >= apart:
        raise BesideTooFar(beside, apart)
    angle = math.radians(direction_deg) + math.asin(beside / apart)
    return apart * math.sin(angle), apart * math.cos(angle)


def _shaft(
    values: Mapping[str, Value], shaft: str, carrier: Carrier, *, at: tuple[float, float], name: str
) -> WheelAt:
    """The wheel of crankshaft or camshaft, by its teeth or by its pitch radius."""
    teeth, radius = maybe(values, f"{shaft}_teeth"), maybe(values, f"{shaft}_radius")
    if radius is not None:
        if teeth is not None:
            raise GivenBoth(f"{shaft}_radius", f"{shaft}_teeth")
        return WheelAt(name, *at, positive(radius, f"{shaft.capitalize()} radius", unit="mm"))
    if teeth is None:
        example = f"{shaft}_teeth={'20' if shaft == 'crank' else '40'}"
        raise InputNeeded(f"{shaft}_teeth or {shaft}_radius", SHIFT, example)
    needed(values, "pitch", calculator=SHIFT, example="pitch='9.525 mm'")
    return carrier.wheel(name, at=at, teeth=count(values, f"{shaft}_teeth"))


def _shifted(crank: WheelAt, banks: Sequence[Bank], between: Sequence[Listed], carrier: Carrier) -> Worked:
    """The tight side runs down on the right: far bank, near bank, wheels between, crankshaft."""
    near = banks[0]
    down = tuple(reversed(between))
    before = (*(one.cam for one in reversed(banks)), *(one.at for one in down), crank)
    after = (
        *(one.lowered(one.cam) for one in reversed(banks)),
        *(near.lowered(one.at) if one.on_head else one.at for one in down),
        crank,
    )
    drive_path(before, clockwise=True)  # refuses a path that cannot be
    found = turned(before, after=after, clockwise=True)
    lag = found[len(banks) - 1]
    results: dict[str, Found] = {
        "cam_deg": lag.wheel_deg,
        "crank_deg": 2 * lag.wheel_deg,
        "teeth": lag.belt_mm / carrier.pitch_mm if carrier.pitch_mm is not None else None,
        "tensioner_takeup_mm": slack_made(before, after=after, clockwise=True),
        "direction": _direction(lag.wheel_deg),
    }
    if len(banks) > 1:
        far = found[0]
        results |= {
            "far_cam_deg": far.wheel_deg,
            "far_crank_deg": 2 * far.wheel_deg,
            "far_teeth": far.belt_mm / carrier.pitch_mm if carrier.pitch_mm is not None else None,
        }
    uneven = abs(near.cam.per_radian_mm / crank.per_radian_mm - 2) > 0.01
    return Worked(results, (*((NOT_TWO_TO_ONE,) if uneven else ()), RULES_OF_THUMB))


def _direction(lag_deg: float) -> str:
    if abs(lag_deg) < 1e-9:
        return "as before"
    return "later: the camshaft is retarded" if lag_deg > 0 else "earlier: the camshaft is advanced"


def length(values: Mapping[str, Value]) -> Worked:
    """Works out engine.belt-length."""
    carrier = Carrier(figure(values, "pitch"), text(values, "drive") == "chain", maybe(values, "rise"))
    ways = ("center_distance", "centers", "wheels", "belt_teeth")
    given = [name for name in ways if values[name] is not None]
    if len(given) > 1:
        raise GivenBoth(given[0], given[1])
    if not given:
        raise InputNeeded(
            "center_distance, centers, wheels or belt_teeth", LENGTH, "center_distance='150 mm'"
        )
    if given == ["wheels"]:
        if values["teeth"] is not None:
            raise GivenBoth("wheels", "teeth")
        return _looped([one.at for one in wheels(text(values, "wheels"), carrier=carrier)], carrier)
    if values["teeth"] is None:
        raise InputNeeded("teeth", LENGTH, "teeth='20; 40'")
    teeth = teeth_list(text(values, "teeth"))
    if given == ["centers"]:
        places = centers(text(values, "centers"))
        if len(places) != len(teeth):
            raise ListsDiffer(len(teeth), len(places))
    else:
        if len(teeth) != 2:
            raise OnlyTwoWheels(len(teeth), given[0])
        places = ((0.0, 0.0), (0.0, _distance(values, teeth, carrier)))
    pairs = zip(teeth, places, strict=True)
    worked = _looped(
        [carrier.wheel(f"wheel {at}", at=place, teeth=one) for at, (one, place) in enumerate(pairs, start=1)],
        carrier,
    )
    if given != ["centers"]:
        return worked
    return replace(worked, understood={"centers": f"{'; '.join(f'{x:g} {y:g}' for x, y in places)} mm"})


def _distance(values: Mapping[str, Value], teeth: Sequence[int], carrier: Carrier) -> float:
    """The center distance as given, or the one that a belt of so many teeth just goes around."""
    given = maybe(values, "center_distance")
    if given is not None:
        return given
    pitch, links = figure(values, "pitch"), count(values, "belt_teeth")
    first, second = (carrier.wheel("", at=(0.0, 0.0), teeth=one) for one in teeth)
    return center_distance(
        pitch * links,
        first_mm=first.radius_mm,
        second_mm=second.radius_mm,
        first_per_radian_mm=first.per_radian_mm,
        second_per_radian_mm=second.per_radian_mm,
    )


def _looped(on: Sequence[WheelAt], carrier: Carrier) -> Worked:
    """The loop over wheels listed in either direction."""
    path = _either_way(on)
    assert carrier.pitch_mm is not None
    results: dict[str, Found] = {
        "length_mm": path.length_mm,
        "teeth": path.length_mm / carrier.pitch_mm,
        "wraps_deg": tuple(round(one.wrap_deg, 1) for one in path.wraps),
        "spans_mm": tuple(round(one.length_mm, 2) for one in path.spans),
    }
    if len(on) == 2:
        results["center_distance_mm"] = math.dist((on[0].x_mm, on[0].y_mm), (on[1].x_mm, on[1].y_mm))
    return Worked(results, _whole(path.length_mm / carrier.pitch_mm))


def _either_way(on: Sequence[WheelAt]) -> DrivePath:
    try:
        return drive_path(on, clockwise=True)
    except InputError:
        try:
            return drive_path(on, clockwise=False)
        except InputError:
            pass
        raise


def _whole(teeth: float) -> tuple[str, ...]:
    off = teeth - round(teeth)
    if abs(off) < 0.01:
        return ()
    than = "shorter" if off > 0 else "longer"
    return (f"That is no whole number of teeth: {round(teeth)} would be {abs(off):.2f} of a tooth {than}.",)


def realign(values: Mapping[str, Value]) -> Worked:
    """Works out engine.marks-realign."""
    turns = marks_realign(
        count(values, "belt_teeth"),
        crank_teeth=count(values, "crank_teeth"),
        with_cam=text(values, "with_cam") == "yes",
    )
    return Worked({"crank_turns": float(turns)})
