"""A mark seen off: read as a person writes it, in teeth and degrees, late or early, and what the cut explains of it."""

import math
import re
from dataclasses import dataclass
from fractions import Fraction

from gudgeon.bench.timing.drive_model import DriveModel, DriveWheel
from gudgeon.bench.timing.errors import (
    OffsetBothSides,
    OffsetNeedsPitch,
    OffsetTooLarge,
    OffsetUnreadable,
    OffsetWheelUnknown,
)
from gudgeon.bench.timing.shift import CamShift, DriveShift
from gudgeon.calc.engine.drive_wheels import Offset, belt_radius, chain_radius, seen_offset
from gudgeon.quantity.format import both, number
from gudgeon.quantity.written import parse_amount

NEAR_WHOLE = 0.25
"""By so much of a tooth a mark is read off aside (common practice): nearer to nothing or to a whole tooth is that."""

_SIDE_TELLS = 0.5
"""Left and right tell something where the rim of the wheel runs at least this much that way."""

_SIDES = {
    "late": ("late", "later", "retarded"),
    "early": ("early", "earlier", "advanced"),
    "ahead": ("ahead",),
    "behind": ("behind",),
    "clockwise": ("clockwise", "cw"),
    "counterclockwise": ("counterclockwise", "anticlockwise", "ccw"),
    "left": ("left",),
    "right": ("right",),
    "up": ("up", "above", "high"),
    "down": ("down", "below", "low"),
}
_LENGTHS = ("mm", "in", '"')
_SINGULAR = {0.25: "a quarter of a", 0.5: "half a", 1.0: "1"}
_SMALL = {"half": "1/2", "quarter": "1/4", "third": "1/3", "one": "1", "a": "1", "an": "1", "two": "2", "three": "3",
          "four": "4"}  # fmt: skip
_AMOUNT = re.compile(
    r"(?P<number>\d+\s+\d+/\d+|\d+/\d+|\d*\.?\d+)\s*"
    r"(?P<unit>teeth|tooth|links?|crank(?:shaft)? (?:degrees?|deg|°)|cam(?:shaft)? (?:degrees?|deg|°)"
    r"|degrees?|deg|°(?: (?:of the |at the )?(?:crank|cam)(?:shaft)?)?|mm|in|\")(?![a-z])"
)


@dataclass(frozen=True, slots=True)
class SeenOffset:
    """One mark that is off: how far, late or early, what of it the cut explains, what is left.

    Angles are without sign; `timing` is `late`, `early`, or empty where the side was not said or cannot be told.
    `explained_cam_deg` is None where the cut is not known, and `rest_cam_deg` then all of it.
    """

    said: str
    wheel: str
    name: str
    teeth: float
    cam_deg: float
    crank_deg: float
    timing: str
    why_timing: str
    explained_cam_deg: float | None
    explained_u_cam_deg: float
    rest_cam_deg: float
    rest_teeth: float
    words: str
    advice: str


@dataclass(frozen=True, slots=True)
class _Read:
    wheel: DriveWheel
    amount: Offset
    side: str
    in_length: bool = False


def seen(text: str, model: DriveModel, *, shift: DriveShift | None) -> SeenOffset:
    """What a seen offset means; `shift` is what the cut in the book does to the camshafts."""
    read = _read(text, model)
    timing, why = _timing(read, model)
    of = _shift_of(read.wheel, shift)
    return _answer(text, read, timing, why, of, model)


def wheels_to_see(model: DriveModel) -> dict[str, DriveWheel]:
    """The wheels whose marks tell the timing: those of crankshaft and camshafts."""
    return {
        key: one for key, one in model.wheels.items() if (one.is_crankshaft or one.is_camshaft) and one.teeth
    }


def _read(text: str, model: DriveModel) -> _Read:
    wheels = wheels_to_see(model)
    plain = " ".join(text.lower().replace(":", " : ").replace("−", "-").split())
    key, rest = _wheel(text, plain, model)
    rest = _numbered(rest)
    found = _AMOUNT.search(rest)
    if found is None:
        raise OffsetUnreadable(text, wheels)
    side = _side(text, rest[: found.start()] + " " + rest[found.end() :], wheels)
    wheel = wheels[key]
    offset = seen_offset(
        _teeth(text, found, wheel, model), wheel_teeth=wheel.teeth or 1, of_crank=wheel.is_crankshaft
    )
    if offset.teeth > (wheel.teeth or 1) / 2:
        raise OffsetTooLarge(text, offset.teeth, wheel.teeth or 1)
    return _Read(wheel, offset, side, found["unit"] in _LENGTHS)


def _wheel(text: str, plain: str, model: DriveModel) -> tuple[str, str]:
    """The wheel that is named first, by its key, its name, or the one word that only it has; and the words after it."""
    wheels = wheels_to_see(model)
    ways: dict[str, str] = {}
    for key, one in wheels.items():
        for way in (one.name.lower(), key.lower(), key.lower().replace("_", " ")):
            ways.setdefault(way, key)
    if sum(one.is_camshaft for one in wheels.values()) == 1:
        cam = next(key for key, one in wheels.items() if one.is_camshaft)
        for way in ("camshaft", "cam"):
            ways.setdefault(way, cam)
    crank = next((key for key, one in wheels.items() if one.is_crankshaft), "")
    for way in ("crankshaft", "crank"):
        if crank:
            ways.setdefault(way, crank)
    for way in sorted(ways, key=len, reverse=True):
        if re.match(rf"{re.escape(way)}\b", plain):
            rest = plain[len(way) :].lstrip(" :")
            return ways[way], re.sub(
                r"^(?:camshaft|crankshaft|sprocket|wheel|cam|mark)\b[ :]*(?=.*\d|.*tooth)", "", rest
            )
    named = plain.partition(":")[0].strip() if ":" in plain else plain.partition(" ")[0]
    if not named or not _AMOUNT.search(_numbered(plain)):
        raise OffsetUnreadable(text, wheels)
    raise OffsetWheelUnknown(named, wheels)


def _numbered(words: str) -> str:
    """`half a tooth` as `1/2 tooth`, `one and a half teeth` as `1 1/2 teeth`."""
    found = re.sub(
        r"\b(half|quarter|third)(?: of)? (?:an? )?(?=tooth|link|degree)", lambda m: f"{_SMALL[m[1]]} ", words
    )
    found = re.sub(r"\b(an?|one|two|three|four)\b(?= )", lambda m: _SMALL[m[1]], found)
    found = re.sub(r"\bhalf\b", "1/2", found)
    return re.sub(r"(\d+) and (?:1 )?(?=1/2)", r"\1 ", found)


def _side(text: str, words: str, wheels: dict[str, DriveWheel]) -> str:
    known = {said: side for side, all_of in _SIDES.items() for said in all_of}
    filler = {
        "",
        "to",
        "the",
        "of",
        "at",
        "on",
        "is",
        "too",
        "off",
        "by",
        "its",
        "mark",
        "stands",
        "it",
        "side",
        ":",
    }
    sides = []
    for word in re.split(r"[\s,;.]+", words):
        if word in known:
            sides.append(known[word])
        elif word not in filler:
            raise OffsetUnreadable(text, wheels)
    if len(set(sides)) > 1:
        raise OffsetBothSides(text, dict.fromkeys(sides))
    return sides[0] if sides else ""


def _teeth(text: str, found: re.Match[str], wheel: DriveWheel, model: DriveModel) -> float:
    """The amount in teeth of the wheel."""
    unit, value = found["unit"], float(sum(Fraction(part) for part in found["number"].split()))
    per_degree = (wheel.teeth or 1) / 360.0
    if unit.startswith(("tooth", "teeth", "link")):
        return value
    if unit in _LENGTHS:
        if model.pitch_mm is None:
            raise OffsetNeedsPitch(text)
        length = parse_amount(f"{found['number']} {'in' if unit == chr(34) else unit}", kind="length").to(
            "mm"
        )
        return length / _rim_mm(wheel, model) / math.tau * (wheel.teeth or 1)
    if "crank" in unit and not wheel.is_crankshaft:
        return value / 2 * per_degree
    if "cam" in unit and wheel.is_crankshaft:
        return value * 2 * per_degree
    return value * per_degree


def _rim_mm(wheel: DriveWheel, model: DriveModel) -> float:
    """The radius on which millimeters at a wheel are taken: its pitch circle, of a chain that through its pins."""
    if wheel.at is not None:
        return wheel.at.radius_mm
    of = chain_radius if model.kind == "timing chain" else belt_radius
    return of(model.pitch_mm or 1.0, teeth=wheel.teeth or 1)


def _as_said(wheel: DriveWheel, side: str) -> str:
    """Late and early are those of the valves; at the crankshaft that is told, since its mark goes the other way."""
    if not wheel.is_crankshaft:
        return "as said"
    stands = "ahead of" if side == "late" else "behind"
    return (
        f"said of the valves; the mark of {wheel.name} then stands {stands} its place while the camshafts "
        "stand at theirs"
    )


def _timing(read: _Read, model: DriveModel) -> tuple[str, str]:
    """Whether the valves come late or early, and what tells it."""
    side = read.side
    if side in ("late", "early"):
        return side, _as_said(read.wheel, side)
    if not side:
        return "", "on which side the mark stands was not said: late, early, or left, right, up, down"
    if side in ("ahead", "behind"):
        ahead, turns = side == "ahead", ""
    else:
        turning, seen_clockwise = _turns_clockwise(read.wheel, model), _clockwise(side, read.wheel)
        if turning is None:
            return "", "which way this wheel turns is not known, so the side tells nothing"
        if seen_clockwise is None:
            return (
                "",
                f"where this mark stands, {side} is no way along the rim: say clockwise or counterclockwise",
            )
        ahead = seen_clockwise == turning
        turns = f"the wheel turns {'clockwise' if turning else 'counterclockwise'}, and "
    early = ahead != read.wheel.is_crankshaft  # a crankshaft that is ahead has its camshafts behind
    return (
        "early" if early else "late",
        f"{turns}its mark stands {'ahead of' if ahead else 'behind'} its place",
    )


def _turns_clockwise(wheel: DriveWheel, model: DriveModel) -> bool | None:
    """The way in which a wheel turns; gears mesh, and their order is not told by the sheet."""
    if model.clockwise is None or (model.kind == "timing gears" and not wheel.is_crankshaft):
        return None
    return model.clockwise != wheel.back


def _clockwise(side: str, wheel: DriveWheel) -> bool | None:
    """Whether a side is clockwise along the rim, at the place where the mark stands."""
    if side in ("clockwise", "counterclockwise"):
        return side == "clockwise"
    if wheel.mark_at_deg is None:
        return None
    at = math.radians(wheel.mark_at_deg)
    along = {"right": math.cos(at), "left": -math.cos(at), "up": -math.sin(at), "down": math.sin(at)}[side]
    return None if abs(along) < _SIDE_TELLS else along > 0


def _shift_of(wheel: DriveWheel, shift: DriveShift | None) -> CamShift | None:
    """What the cut does to this camshaft; seen at the crankshaft, to the camshaft that it moves most."""
    if shift is None or not shift.camshafts:
        return None
    if wheel.is_crankshaft:
        return max(shift.camshafts, key=lambda one: abs(one.cam_deg))
    return next((one for one in shift.camshafts if one.wheel == wheel.key), None)


def _answer(
    text: str, read: _Read, timing: str, why: str, of: CamShift | None, model: DriveModel
) -> SeenOffset:
    cam = read.amount.cam_deg
    explained = None if of is None else _explained(cam, timing, of.cam_deg)
    rest = cam - (explained or 0.0)
    per_cam_degree = read.amount.teeth / cam if cam else 0.0
    rest_teeth = rest * per_cam_degree
    words = _words(read, timing, of, explained, model)
    return SeenOffset(
        text, read.wheel.key, read.wheel.name, read.amount.teeth, cam, read.amount.crank_deg, timing, why, explained,
        of.cam_deg_u if of is not None else 0.0, rest, rest_teeth, words, _advice(abs(rest_teeth), model),
    )  # fmt: skip


def _explained(cam: float, timing: str, shift: float) -> float:
    """How much of an offset the cut makes; what it moves the other way it makes worse, with a minus."""
    signed = shift if timing != "early" else -shift
    if timing == "":
        signed = abs(shift)
    return min(signed, cam) if signed > 0 else signed


def _words(read: _Read, timing: str, of: CamShift | None, explained: float | None, model: DriveModel) -> str:
    amount = read.amount
    one = "link" if model.units == "links" else "tooth"
    units = one if round(amount.teeth, 6) in _SINGULAR else model.units
    place = f"at {read.wheel.name}"
    late = f", the valves come {timing}" if timing else ""
    said = (
        f"{_plain(amount.teeth)} {units} {place}{_circle(read, model)}: {_deg(amount.cam_deg, finer=True)} at the "
        f"camshaft, {_deg(amount.crank_deg)} at the crankshaft{late}"
    )
    if of is None or explained is None:
        return f"{said}; what the cut does to it is not known"
    if explained < 0:
        return f"{said}; the cut explains none of it, and hides {_deg(-explained)} more at the camshaft"
    sure = "" if timing else ", if it stands late" if of.cam_deg > 0 else ", if it stands early"
    return f"{said}; the cut explains {_deg(explained)} of it at the camshaft{sure if explained else ''}"


def _circle(read: _Read, model: DriveModel) -> str:
    """Where a length was taken."""
    if not read.in_length:
        return ""
    return f", read on the pitch circle of {both(_rim_mm(read.wheel, model), kind='length')} radius"


def _advice(rest_teeth: float, model: DriveModel) -> str:
    """What is left, and what it can be."""
    whole = round(rest_teeth)
    unit = "link" if model.kind == "timing chain" else "tooth"
    if rest_teeth < NEAR_WHOLE:
        return (
            f"What is left is less than a quarter {unit}: as near as a mark is read. Look at it straight on, after two "
            "turns in the running direction."
        )
    if whole >= 1 and abs(rest_teeth - whole) <= NEAR_WHOLE:
        count = f"a whole {unit}" if whole == 1 else f"{whole} {model.units}"
        return f"What is left is {count}: set it right before anything turns. No cut explains a whole {unit}."
    keyless = (
        " a wheel without a key that has moved," if any(one.keyless for one in model.wheels.values()) else ""
    )
    return (
        f"What is left is no cut, and it is no whole {unit} either: a mark seen from aside, slack on the pulled side,"
        f"{keyless} or a {unit} to set right. Take up the slack, turn two turns in the running direction and look "
        "straight on."
    )


def _deg(angle: float, *, finer: bool = False) -> str:
    """An angle to a tenth, small ones to a hundredth; `finer` so that twice the camshaft is the crankshaft."""
    text = number(angle, decimals=2 if finer or abs(angle) < 1 else 1)
    return f"{text.rstrip('0').rstrip('.') if '.' in text else text}°"


def _plain(teeth: float) -> str:
    text = number(teeth, decimals=2)
    return _SINGULAR.get(round(teeth, 6)) or (text.rstrip("0").rstrip(".") if "." in text else text)
