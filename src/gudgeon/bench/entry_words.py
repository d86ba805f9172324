"""Words of entries whose fields do not read by themselves: beads, bags, faces, counts, money, distances."""

from collections.abc import Callable, Mapping
from typing import Any

from gudgeon.bench.context import Bench
from gudgeon.bench.plan_words import WORDS as OF_THE_PLAN
from gudgeon.bench.reason import WORDS
from gudgeon.bench.timers import grouped


def _joined(*said: str | None) -> str:
    return ", ".join(filter(None, said))


def _sealant(bench: Bench, body: Mapping[str, Any]) -> str:
    joint = bench.sheet.joints.get(body["joint"])
    ago = f"laid {body['minutes_ago']} min before" if body["minutes_ago"] else ""
    clocks = [f"{name} {text}" for name, text in body["shown"].items()]
    at = f"at {joint.name if joint else body['joint']}"
    return _joined(body["name"], at, ago, *clocks, body["why"])


def _timer(bench: Bench, body: Mapping[str, Any]) -> str:
    minutes = f"{body['minutes']} min" if body["minutes"] is not None else ""
    far = ""
    if body["distance"] is not None:
        far = f"{grouped(body['distance'])} {body['unit']} from {grouped(body['odometer'])}"
    return _joined(body["name"], minutes, far, body["why"])


def _off(bench: Bench, body: Mapping[str, Any]) -> str:
    many = f"{body['count']} in all" if body["count"] > 1 else ""
    return _joined(
        body["group"], body["name"], body["place"], many, f"bag {body['bag']}" if body["bag"] else ""
    )


def _counted(bench: Bench, body: Mapping[str, Any]) -> str:
    many = body["group"] if body["count"] == 1 else f"{body['group']}s"
    words = "as they came off" if body["when"] == "off" else "as they went back"
    return _joined(f"{body['count']} {many} {words}", body["note"])


def _explained(bench: Bench, body: Mapping[str, Any]) -> str:
    return _joined(f"{body['group']} {body['way']}", body["what"], body["why"])


def _money(bench: Bench, body: Mapping[str, Any]) -> str:
    return _joined(
        f"{body['what']}, {body['way']} {body['amount']} {body['currency']}", body["part"], body["to"]
    )


def _odometer(bench: Bench, body: Mapping[str, Any]) -> str:
    return f"{grouped(body['value'])} {body['unit']}"


def _face(bench: Bench, body: Mapping[str, Any]) -> str:
    item, gauge = bench.sheet.characteristics.get(body["item"]), bench.kit.gauges.get(body["instrument"])
    return _joined(
        item.name if item else body["item"],
        f"{len(body['points'])} points of {body['file']}",
        body["condition"],
        gauge.name if gauge else body["instrument"],
        body["note"],
    )


def _signed(bench: Bench, body: Mapping[str, Any]) -> str:
    return f"{body['by']}, before you {WORDS[body['milestone']]}: {body['words']}"


OWN_WORDS: Mapping[str, Callable[[Bench, Mapping[str, Any]], str]] = {
    **OF_THE_PLAN,
    "sealant-laid": _sealant,
    "timer-started": _timer,
    "taken-off": _off,
    "counted": _counted,
    "explained": _explained,
    "money": _money,
    "odometer-read": _odometer,
    "signed-off": _signed,
    "face-scanned": _face,
}
