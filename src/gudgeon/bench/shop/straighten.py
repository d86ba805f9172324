"""Whether a head that carries its camshafts is straightened before it is cut: else the cam tunnel stays bent."""

from collections import Counter
from dataclasses import dataclass
from typing import Literal

from gudgeon.bench.context import Bench
from gudgeon.bench.judging.decision import decide, value_of
from gudgeon.bench.judging.evaluate import findings
from gudgeon.bench.judging.finding import NOT_MEASURED, shown_value
from gudgeon.bench.measured import measured
from gudgeon.bench.shop.face_now import face_now
from gudgeon.bench.shop.finish import metal_of
from gudgeon.bench.shop.found import face_key
from gudgeon.quantity.format import both
from gudgeon.sheet.model import DataSheet
from gudgeon.sources.finish import straighten_above

Due = Literal["straighten first", "in doubt", "not by its flatness", "not worked out", "not for this head"]
Where = Literal["in the head", "in the block", ""]

TUNNEL_WHY = (
    "Cutting makes the face flat and leaves the bearings of the camshafts bent as they are: the camshafts bind, or "
    "wear their bearings in the middle"
)
BY_HAND = "Caps on at their torque, valves out: each camshaft has to turn by hand, all the way round"


@dataclass(frozen=True, slots=True)
class Distortion:
    """How far the face is off flat now, against the limit for straightening; `after` is what was done to it."""

    verdict: str
    shown: str
    where: str
    unread: tuple[str, ...]
    after: str = ""


@dataclass(frozen=True, slots=True)
class Straighten:
    """Whether to straighten first, why, and what shows whether the cam tunnel is straight.

    `limit` is the distortion above which it is due, with its source; `tunnel` what the book knows of the tunnel.
    """

    due: Due
    why: str
    limit: str
    source: str
    tunnel: tuple[str, ...]
    missing: tuple[str, ...] = ()


def straighten(bench: Bench) -> Straighten:
    """The answer for the head as it was read last."""
    where, material = camshafts(bench.sheet), bench.sheet.head.material if bench.sheet.head else None
    if where == "in the block":
        return Straighten(
            "not for this head",
            "The camshaft runs in the block: no cam tunnel in the head can be bent.",
            "", "", (),
        )  # fmt: skip
    if metal_of(material) == "iron":
        return Straighten(
            "not for this head",
            "The head is of iron: it breaks rather than bends back, so it is not straightened. Where its cam tunnel is "
            "bent, ask the shop about boring the bearings in line, or find another head.",
            "", "common practice", tuple(tunnel_words(bench)),
        )  # fmt: skip
    limit, text, source = _limit(bench)
    found = distortion(bench, limit_mm=limit)
    due, why = _by(found, text)
    missing = []
    if not where:
        missing.append("where the camshafts run (valve_gear: camshaft): the head is taken to carry them")
    if not metal_of(material):
        missing.append(
            "what the head is made of (head: material): one of iron is not straightened, one of aluminum is"
        )
    if found is None:
        missing.append(
            "how flat the head is: no characteristic of the sheet is read on its face (head: face)"
        )
    elif found.unread:
        since = f" after {found.after}" if found.after else ""
        missing.append(f"flatness not read{since}: {', '.join(found.unread)}")
    return Straighten(due, why, text, source, tuple(tunnel_words(bench)), tuple(missing))


def camshafts(sheet: DataSheet) -> Where:
    """Where the camshafts run, as the sheet says it anywhere; nothing where it does not."""
    if sheet.valve_gear is not None and sheet.valve_gear.camshaft is not None:
        return sheet.valve_gear.camshaft
    if sheet.lacks("overhead cam"):
        return "in the block"
    wheels = sheet.drive.wheels.values() if sheet.drive is not None else ()
    in_head = any(one.turns == "camshaft" and one.on is not None for one in wheels)
    return "in the head" if in_head else ""


def _limit(bench: Bench) -> tuple[float, str, str]:
    head = bench.sheet.head
    if head is not None and head.straighten_above is not None:
        stated = head.straighten_above.value
        low, high = stated.low_in("mm"), stated.high_in("mm")
        end = high if high is not None else low
        assert end is not None
        return end, stated.text, str(head.cited(head.straighten_above) or "")
    usual = straighten_above()
    return usual.value, both(usual.value, kind="length_difference", decimals=3), str(usual.source)


def distortion(bench: Bench, *, limit_mm: float) -> Distortion | None:
    """How far the face of the head is off flat as it was read last; nothing where no characteristic holds it."""
    key = face_key(bench, part="head")
    if key is None:
        return None
    item, now = bench.sheet.characteristics[key], face_now(bench, key, part="head")
    readings, scan = now.read, now.surface
    if scan is not None:
        zone = scan.zone()
        by_zone = decide(zone, low=None, high=limit_mm).verdict
        shown = f"{shown_value(zone, 'length_difference')}, minimum zone of {len(scan.points)} points"
        return Distortion(by_zone, shown, "whole face", (), now.after)
    unread = now.unread
    if not readings or item.method != "straightedge lines":
        return Distortion(NOT_MEASURED, "", "", unread or ("the points of the face",), now.after)
    worst = max(readings.values(), key=lambda one: (one.low, one.high))
    verdicts = {decide(value_of(one), low=None, high=limit_mm).verdict for one in readings.values()}
    otherwise = NOT_MEASURED if unread else "inside"
    verdict = "outside" if "outside" in verdicts else "in doubt" if "in doubt" in verdicts else otherwise
    return Distortion(verdict, worst.text, worst.place, unread, now.after)


def _by(found: Distortion | None, limit: str) -> tuple[Due, str]:
    if found is None or (found.verdict == NOT_MEASURED and not found.shown):
        before = f"Its flatness was read before {found.after}. " if found is not None and found.after else ""
        return (
            "not worked out",
            f"{before}It is straightened first where the face is off by more than {limit}.",
        )
    said = f"The face is off by {found.shown}" + (f" ({found.where})" if found.where else "")
    if found.verdict == "outside":
        return "straighten first", f"{said}, more than {limit}. {TUNNEL_WHY}."
    if found.verdict == "in doubt":
        return (
            "in doubt",
            f"{said}: whether that is more than {limit} cannot be told with this gauge. Let the camshafts decide: "
            "where one binds, it is straightened first.",
        )
    if found.verdict == NOT_MEASURED:
        return (
            "not worked out",
            f"{said}, not more than {limit}, but not all lines are read. It is straightened first where one is more.",
        )
    return (
        "not by its flatness",
        f"{said}, not more than {limit}. Where a camshaft binds, straighten it all the same.",
    )


def tunnel_words(bench: Bench) -> list[str]:
    """What the book knows of the bearings of the camshafts, and what to try by hand in any case."""
    head = bench.sheet.head
    key = head.cam_tunnel if head is not None else None
    if key is None or key not in bench.sheet.characteristics:
        return [
            "The sheet names nothing that shows whether the cam tunnel is straight (head: cam_tunnel).",
            f"{BY_HAND}.",
        ]
    item, readings = bench.sheet.characteristics[key], measured(bench, key)
    if not readings:
        return [f"{item.name}: not read (gudgeon record reading {key}).", f"{BY_HAND}."]
    worst: dict[str, str] = {}
    for limit, one in findings(bench, key, readings=readings):
        if limit is not None:
            worst[one.place] = one.verdict if worst.get(one.place) != "outside" else "outside"
    conditions = " and ".join(dict.fromkeys(one.condition for one in readings.values()))
    counted = Counter(worst.values())
    told = ", ".join(
        f"{counted[word]} {word}" for word in ("inside", "outside", "in doubt", NOT_MEASURED) if counted[word]
    )
    said = [f"{item.name}, {conditions}: {told or 'read, and no limit given'}."]
    bad = [place for place, verdict in worst.items() if verdict == "outside"]
    if bad:
        said.append(f"Outside: {', '.join(place or 'the one place' for place in bad)}.")
    return [*said, f"{BY_HAND}."]
