"""From what a person says of a wait to what the book keeps: by the sheet, by temperature, distance or morning."""

import math
import re
from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from gudgeon.bench.bodies import joint as joint_of
from gudgeon.bench.context import Bench
from gudgeon.bench.errors import Unknown
from gudgeon.bench.network import tasks_of
from gudgeon.bench.timers import cold_morning
from gudgeon.bench.wait_errors import (
    ColderThanStated,
    DistanceMissing,
    MinutesMissing,
    NoWaitStated,
    OdometerMissing,
    ReasonMissing,
    SealantTaskMissing,
    TemperatureMissing,
)
from gudgeon.book.fold_records import kilometers
from gudgeon.quantity.written import Amount, Printed, parse_amount
from gudgeon.sheet.figures import StatedTime
from gudgeon.sheet.model import Sealant

_DUE_BY_ITSELF = {"recall": "recall", "cold morning": "handover"}
"""What a wait is due before where nobody says it; any other before the starter."""
_THOUSANDS = re.compile(r"(?<=\d)[ ,\u00a0\u202f](?=\d{3}(?!\d))")
_MILE = Decimal("1.609344")


def timer_fields(bench: Bench, said: Mapping[str, Any], *, task: str) -> dict[str, Any]:
    """The body of a wait; `task` is the key of the work that has to wait."""
    kind = said.get("wait") or said.get("kind") or "other"
    fields = {
        "timer": said["timer"],
        "name": said["name"],
        "kind": kind,
        "task": task,
        "joint": said.get("joint"),
        "due_before": said.get("due_before") or _DUE_BY_ITSELF.get(kind, "crank"),
        "why": said.get("why") or "",
    }
    if fields["joint"] is not None:
        joint_of(bench.sheet, fields["joint"])
    if said.get("distance"):
        return fields | _distance(bench, said) | {"minutes": said.get("minutes")}
    if kind == "bleed-down":
        return fields | _bleed_down(bench, said)
    if said.get("minutes") is not None:
        return fields | {"minutes": said["minutes"], "temperature_c": _celsius(said)}
    if kind == "cold morning":
        seconds = (cold_morning(bench.now) - bench.now).total_seconds()
        return fields | {"minutes": math.ceil(seconds / 60)}
    raise DistanceMissing if kind == "recall" else MinutesMissing(kind)


def _celsius(said: Mapping[str, Any]) -> str | None:
    """The temperature in degrees Celsius, to a tenth where it was said in another unit."""
    text = said.get("temperature") or ""
    if not text:
        return None
    amount = parse_amount(str(text), kind="temperature")
    return str(amount.number) if amount.unit.symbol == "°C" else f"{amount.to('°C'):.1f}"


def _bleed_down(bench: Bench, said: Mapping[str, Any]) -> dict[str, Any]:
    """The wait that the sheet states for the temperature; by hand only with a reason."""
    celsius = _celsius(said)
    if said.get("minutes") is not None:
        if not (said.get("why") or "").strip():
            raise ReasonMissing("A bleed-down", said=f"{said['minutes']} min")
        return {"minutes": said["minutes"], "temperature_c": celsius}
    stated = sorted(bench.sheet.waits.bleed_down, key=lambda one: one.from_.in_unit("°C"))
    if not stated:
        raise NoWaitStated
    if celsius is None:
        raise TemperatureMissing
    degrees = parse_amount(str(said["temperature"]), kind="temperature").to("°C")
    holds = [one for one in stated if one.from_.in_unit("°C") <= degrees]
    if not holds:
        raise ColderThanStated(
            str(said["temperature"]).strip(),
            least=stated[0].from_.text,
            source=str(stated[0].cited(stated[0].time) or bench.sheet.waits.source),
        )
    one = holds[-1]
    source = one.cited(one.time) or bench.sheet.waits.source
    rests = f"{one.time.value.text} from {one.from_.text}, {source}"
    why = "; ".join(filter(None, [rests, said.get("why") or ""]))
    return {"minutes": _minutes(one.time.value, longest=True), "temperature_c": celsius, "why": why}


def _minutes(time: Printed, *, longest: bool) -> int:
    """Whole minutes on the safe side: of a range the end that errs that way."""
    low, high = time.low_in("min"), time.high_in("min")
    ends = [end for end in ((high, low) if longest else (low, high)) if end is not None]
    minutes = round(ends[0], 6)  # what the binary fraction of an hour adds is no minute
    return max(1, math.ceil(minutes) if longest else math.floor(minutes))


def _distance(bench: Bench, said: Mapping[str, Any]) -> dict[str, Any]:
    """How far, and from where; in kilometers where the two are said in different units."""
    if said.get("unit"):
        return {name: said[name] for name in ("distance", "odometer", "unit")}
    distance = read_distance(str(said["distance"]))
    if said.get("odometer"):
        start = read_distance(str(said["odometer"]))
        odometer, unit = start.number, start.unit.symbol
    elif bench.state.odometer is not None:
        odometer, unit = Decimal(bench.state.odometer[0]), bench.state.odometer[1]
    else:
        raise OdometerMissing
    far = distance.number
    if distance.unit.symbol != unit:
        far, odometer = (
            one * (_MILE if of == "mi" else 1) for one, of in ((far, distance.unit.symbol), (odometer, unit))
        )
        unit = "km"
    return {"distance": _plain(far), "odometer": _plain(odometer), "unit": unit}


def read_distance(text: str) -> Amount:
    """A distance as an odometer shows it; thousands may stand apart, as in 84 120 km or 84,120 mi."""
    return parse_amount(_THOUSANDS.sub("", text), kind="distance")


def odometer_fields(said: Mapping[str, Any]) -> dict[str, Any]:
    """What an odometer shows, with its unit."""
    if said.get("unit"):
        return dict(said)
    amount = read_distance(str(said["value"]))
    return {"value": _plain(amount.number), "unit": amount.unit.symbol}


def _plain(number: Decimal) -> str:
    return format(number, "f")


def sealant_fields(bench: Bench, said: Mapping[str, Any], *, task: str | None) -> dict[str, Any]:
    """The body of a bead: both times from the sheet, or by hand with a reason; what neither says stays open."""
    key, joint = str(said["sealant"]), str(said["joint"])
    if key not in bench.sheet.sealants:
        raise Unknown("sealant", key, bench.sheet.sealants)
    joint_of(bench.sheet, joint)
    sealant = bench.sheet.sealants[key]
    shown: dict[str, str] = {}
    minutes = {}
    for name, stated in (("open", sealant.open_time), ("cure", sealant.cure)):
        words = "open time" if name == "open" else "cure"
        minutes[name], said_of_it = _clock(sealant, stated, said, name=name, words=words)
        if said_of_it:
            shown[words] = said_of_it
    return {
        "sealant": key,
        "timer": key if key == joint else f"{key}_{joint}",
        "name": sealant.name,
        "joint": joint,
        "minutes_ago": said.get("minutes_ago") or 0,
        "open_minutes": minutes["open"],
        "cure_minutes": minutes["cure"],
        "task": task or _waits_for_sealants(bench),
        "due_before": said.get("due_before") or "crank",
        "shown": shown,
        "why": said.get("why") or "",
    }


def _clock(
    sealant: Sealant, stated: StatedTime | None, said: Mapping[str, Any], *, name: str, words: str
) -> tuple[int | None, str]:
    """The minutes of one clock, and where they stand; None where nobody knows."""
    printed = f"{stated.value.text}, {sealant.cited(stated)}" if stated is not None else ""
    by_hand = str(said.get(name) or "").strip()
    if by_hand:
        why = (said.get("why") or "").strip()
        if not why:
            raise ReasonMissing(f"The {words}", said=by_hand)
        minutes = parse_amount(by_hand, kind="time", default_unit="min").to("min")
        beside = f"; the sheet states {printed}" if printed else "; the sheet states none"
        safe = math.floor if name == "open" else math.ceil
        return max(1, safe(round(minutes, 6))), f"{by_hand}, by hand: {why}{beside}"
    if stated is None:
        return None, ""
    return _minutes(stated.value, longest=name == "cure"), printed


def _waits_for_sealants(bench: Bench) -> str:
    """The task of the job that waits for every clock."""
    found = next((one.key for one in tasks_of(bench.sheet, bench.state) if one.no_timer), None)
    if found is None:
        raise SealantTaskMissing
    return found


def odometer_back(bench: Bench, value: str, *, unit: str) -> bool:
    """Whether an odometer shows less than before."""
    shown = bench.state.odometer
    return shown is not None and kilometers(value, unit=unit) < kilometers(shown[0], unit=shown[1])
