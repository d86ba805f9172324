"""What a cut does to the timing of each camshaft, and to the slack that the tensioner takes up."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from gudgeon.bench.timing.drive_model import DriveModel, DriveWheel
from gudgeon.bench.timing.drive_words import worded
from gudgeon.calc.engine.cam_shift import slack_made, turned
from gudgeon.calc.engine.drive_path import WheelAt
from gudgeon.calc.metrology.propagation import Component, combine
from gudgeon.errors import InputError
from gudgeon.quantity.format import number

_STEP_MM = 0.01
"""How far a head is moved to see what a doubt of its height does: the shift is straight over so little."""


@dataclass(frozen=True, slots=True)
class Lowered:
    """How much nearer to the crankshaft a head stands than it did, with its standard uncertainty [mm].

    It is what was cut, less what a thicker gasket gives back; minus is higher than before.
    """

    mm: float
    u_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class CamShift:
    """How far a camshaft falls back: plus is later (retard), minus earlier (advance), with standard uncertainties."""

    wheel: str
    name: str
    cam_deg: float
    cam_deg_u: float
    crank_deg: float
    crank_deg_u: float
    teeth: float
    teeth_u: float

    @property
    def way(self) -> str:
        """`later`, `earlier`, or `as before`."""
        return "as before" if abs(self.cam_deg) < 0.0005 else "later" if self.cam_deg > 0 else "earlier"

    @property
    def words(self) -> str:
        """`0.19° of the camshaft (0.38° of the crankshaft) later`."""
        if self.way == "as before":
            return "as before"
        cam, crank = number(abs(self.cam_deg), decimals=2), number(abs(self.crank_deg), decimals=2)
        return f"{cam}° of the camshaft ({crank}° of the crankshaft) {self.way}"


@dataclass(frozen=True, slots=True)
class DriveShift:
    """What lowered heads do to the drive.

    `slack_mm` is what the tensioner must take up, None where it cannot be worked out; `slack_verdict` is inside,
    outside or in doubt against what it takes up by the sheet, or not stated. `missing` tells what could not be
    computed, and what is missing for it; `notes` what the figures do not hold.
    """

    camshafts: tuple[CamShift, ...]
    slack_mm: float | None
    slack_u_mm: float
    slack_verdict: str
    missing: tuple[str, ...]
    notes: tuple[str, ...]


def cam_shift(model: DriveModel, lowering: Mapping[str, Lowered]) -> DriveShift:
    """The shift of every camshaft when heads, by their names in the drive, stand nearer to the crankshaft."""
    missing: list[str] = []
    if model.kind == "timing gears":
        missing.append(
            "Gears: how a changed center distance turns a camshaft is not worked out; measure the backlash."
        )
        return DriveShift((), None, 0.0, "not worked out", tuple(missing), ())
    cams = [one for one in model.wheels.values() if one.is_camshaft]
    if model.cam_in_block:
        unmoved = tuple(_unmoved(one) for one in cams)
        slack = None if any(one.on for one in model.wheels.values()) else 0.0
        note = "The camshaft sits in the block: cutting a head does not turn it."
        return DriveShift(unmoved, slack, 0.0, "inside" if slack == 0.0 else "not worked out", (), (note,))
    heads = _heads(model, lowering, missing)
    found = [_shift(model, one, heads, missing) for one in cams]
    if not cams:
        missing.append("No wheel of the drive says that it turns a camshaft (`turns: camshaft`).")
    slack, slack_u = _slack(model, heads, missing)
    return DriveShift(
        tuple(one for one in found if one is not None),
        slack,
        slack_u,
        _verdict(model, slack, slack_u),
        tuple(dict.fromkeys(missing)),
        _notes(model),
    )


def _notes(model: DriveModel) -> tuple[str, ...]:
    if model.kind == "timing chain":
        return (
            "Worked out on the circles through the chain's pins. A worn chain is longer, and turns the camshafts later "
            "than most cuts do; its guide rails are not in the figures.",
        )
    return ()


def _heads(
    model: DriveModel, lowering: Mapping[str, Lowered], missing: list[str]
) -> dict[str, tuple[float, Lowered]]:
    """Direction and lowering of each head that carries a wheel."""
    found = {}
    for name in dict.fromkeys(one.on for one in model.wheels.values() if one.on):
        direction, low = model.heads.get(name), lowering.get(name)
        if direction is None:
            missing.append(
                f"In which direction {name} lies from the crankshaft is not stated (`heads` of the drive)."
            )
        if low is None:
            missing.append(f"How far {name} has come nearer to the crankshaft is not known.")
        if direction is not None and low is not None:
            found[name] = (direction, low)
    return found


def _unmoved(one: DriveWheel) -> CamShift:
    return CamShift(one.key, one.name, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0)


def _moved(
    model: DriveModel,
    keys: tuple[str, ...],
    heads: Mapping[str, tuple[float, Lowered]],
    more: Mapping[str, float],
) -> list[WheelAt]:
    found = []
    for key in keys:
        wheel = model.wheels[key]
        assert wheel.at is not None  # _stretch asks only for placed wheels
        if wheel.on:
            direction, low = heads[wheel.on]
            found.append(wheel.at.moved(direction + 180.0, by_mm=low.mm + more.get(wheel.on, 0.0)))
        else:
            found.append(wheel.at)
    return found


def _stretch(model: DriveModel, cam: DriveWheel, missing: list[str]) -> tuple[str, ...]:
    """The keys from a camshaft to the crankshaft as the belt runs; empty where that is not known, which is said."""
    told = f"How far {cam.name} turns is not worked out"
    if not cam.on:
        missing.append(f"{told}: it names no head that carries it (`on`).")
        return ()
    if not model.order or model.clockwise is None or not model.tight:
        missing.append(f"{told}: the path of the drive and its running direction are not both known.")
        return ()
    if cam.key not in model.order:
        missing.append(f"{told}: it is not on `path`, so another belt, chain or gear turns it.")
        return ()
    keys = (*model.order[model.order.index(cam.key) :], model.order[0])
    tensioner = next((model.wheels[key] for key in keys if model.wheels[key].is_tensioner), None)
    if tensioner is not None:
        missing.append(f"{told}: {tensioner.name} lies between it and the crankshaft, and gives as it likes.")
        return ()
    unplaced = [model.wheels[key] for key in keys if model.wheels[key].at is None]
    missing.extend(f"{told}: {one.name} has no {one.lacks}." for one in unplaced)
    return () if unplaced else keys


def _shift(
    model: DriveModel,
    cam: DriveWheel,
    heads: Mapping[str, tuple[float, Lowered]],
    missing: list[str],
) -> CamShift | None:
    keys = _stretch(model, cam, missing)
    if not keys or any(model.wheels[key].on and model.wheels[key].on not in heads for key in keys):
        return None
    before = [at for key in keys if (at := model.wheels[key].at) is not None]

    def lag(more: Mapping[str, float]) -> float:
        after = _moved(model, keys, heads, more)
        return turned(before, after=after, clockwise=bool(model.clockwise))[0].wheel_deg

    try:
        cam_deg = lag({})
        u = _uncertainty(lag, heads, {model.wheels[key].on for key in keys})
    except InputError as error:
        missing.append(
            f"How far {cam.name} turns is not worked out: {worded(error.message, kind=model.kind)}"
        )
        return None
    teeth = (cam.teeth or 0) / 360.0
    return CamShift(cam.key, cam.name, cam_deg, u, 2 * cam_deg, 2 * u, cam_deg * teeth, u * teeth)


def _uncertainty(
    of: Callable[[Mapping[str, float]], float],
    heads: Mapping[str, tuple[float, Lowered]],
    used: set[str],
) -> float:
    """What the doubt of each head's height makes of a result: each head by itself."""
    parts = [
        Component(
            name,
            low.u_mm,
            sensitivity=(of({name: _STEP_MM}) - of({name: -_STEP_MM})) / (2 * _STEP_MM),
        )
        for name, (_, low) in heads.items()
        if low.u_mm and name in used
    ]
    return combine(parts).u if parts else 0.0


def _slack(
    model: DriveModel, heads: Mapping[str, tuple[float, Lowered]], missing: list[str]
) -> tuple[float | None, float]:
    """Belt that becomes slack, with its standard uncertainty."""
    carried = {one.on for one in model.wheels.values() if one.on}
    told = "What the tensioner must take up is not worked out"
    unplaced = [model.wheels[key] for key in model.order if model.wheels[key].at is None]
    if model.path is None:
        lack = (
            "; ".join(f"{one.name} has no {one.lacks}" for one in unplaced)
            or "the path of the drive is not known"
        )
        missing.append(f"{told}: {lack}.")
        return None, 0.0
    if carried - set(heads) or any(one.is_camshaft and not one.on for one in model.wheels.values()):
        return None, 0.0  # what is missing has been said
    before, way = list(model.path.wheels), model.path.clockwise

    def slack(more: Mapping[str, float]) -> float:
        return slack_made(before, after=_moved(model, model.order, heads, more), clockwise=way)

    try:
        return slack({}), _uncertainty(slack, heads, carried)
    except InputError as error:
        missing.append(f"{told}: {worded(error.message, kind=model.kind)}")
        return None, 0.0


def _verdict(model: DriveModel, slack: float | None, u: float) -> str:
    """Whether the tensioner takes up the slack, by what the sheet says of it."""
    if slack is None:
        return "not worked out"
    if model.takes_up_mm is None:
        return "not stated"
    if abs(slack) + 2 * u <= model.takes_up_mm:
        return "inside"
    return "outside" if abs(slack) - 2 * u > model.takes_up_mm else "in doubt"
