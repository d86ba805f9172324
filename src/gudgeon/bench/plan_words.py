"""Words of entries on the plan, on parts to be had, and on money that was agreed."""

from collections.abc import Callable, Mapping
from typing import Any

from gudgeon.bench.context import Bench
from gudgeon.bench.network import JOBS, job, title_of

Body = Mapping[str, Any]


def _joined(*said: str | None) -> str:
    return ", ".join(filter(None, said))


def _number(count: int, word: str) -> str:
    return f"{count} {word}{'' if count == 1 else 's'}"


def _title(bench: Bench, key: str) -> str:
    return f"“{title_of(key, sheet=bench.sheet, state=bench.state)}”"


def _titles(bench: Bench, keys: list[str], lead: str) -> str:
    return f"{lead} {', '.join(_title(bench, key) for key in keys)}" if keys else ""


def part_name(bench: Bench, key: str) -> str:
    """What a part is called: as the data sheet calls it, else as it was said."""
    part = bench.sheet.parts.get(key)
    return part.name if part is not None else key


def _sum(body: Body, name: str = "amount") -> str:
    return f"{body[name]} {body['currency']}" if body.get(name) else ""


def _job(bench: Bench, body: Body) -> str:
    return _joined(job(body["job"]).name if body["job"] in JOBS else body["job"], body["why"])


def _added(bench: Bench, body: Body) -> str:
    return _joined(
        f"“{body['title']}”",
        f"{body['minutes']} min",
        _titles(bench, body["after"], "after"),
        _titles(bench, body["before"], "before"),
        "two people" if body["two_people"] else "",
        body["why"],
    )


def _dropped(bench: Bench, body: Body) -> str:
    return _joined(_title(bench, body["task"]), body["why"])


def _minutes(bench: Bench, body: Body) -> str:
    span = ""
    if body["low"] or body["high"]:
        span = f"{body['low'] or body['minutes']} at best, {body['high'] or body['minutes']} min at worst"
    return _joined(_title(bench, body["task"]), f"{body['minutes']} min", span, body["why"])


def _order(bench: Bench, body: Body) -> str:
    return _joined(f"{_title(bench, body['task'])} {_titles(bench, body['after'], 'after')}", body["why"])


def _day(bench: Bench, body: Body) -> str:
    whose = "second person" if body["whose"] == "second person" else ""
    return _joined(body["day"], whose, " and ".join(body["hours"]) or "no hours", body["why"])


def _promised(bench: Bench, body: Body) -> str:
    span = ""
    if body["earliest"] or body["latest"]:
        span = f"between {body['earliest'] or body['on']} and {body['latest'] or body['on']}"
    by = {"shop": "by the shop", "delivery": "as a delivery"}[body["of"]]
    return _joined(f"{part_name(bench, body['what'])} {by} on {body['on']}", span, body["by"])


def _ordered(bench: Bench, body: Body) -> str:
    expected = f"expected {body['expected']}" if body["expected"] else ""
    what = f"{body['quantity']} × {part_name(bench, body['part'])} of {body['supplier']}"
    return _joined(what, _sum(body), expected, body["note"])


def _price(bench: Bench, body: Body) -> str:
    pack = f"pack of {body['pack']}" if body["pack"] > 1 else ""
    days = f"there in {_number(body['days'], 'day')}" if body["days"] is not None else ""
    return _joined(
        part_name(bench, body["part"]), body["supplier"], _sum(body, "price"), pack, days, body["article"]
    )


def _age(bench: Bench, body: Body) -> str:
    run = f"{body['distance']} {body['unit']}" if body["distance"] else ""
    months = f"{_number(body['months'], 'month')} old" if body["months"] is not None else ""
    return _joined(part_name(bench, body["part"]), run, months, body["basis"])


def _life(bench: Bench, body: Body) -> str:
    return _joined(
        part_name(bench, body["part"]),
        f"shape {body['shape']}",
        f"life {body['life']} {body['unit']}",
        f"{body['until']} {body['unit']} until it is open again",
        f"a failure costs {_sum(body, 'cost')}",
        body["basis"],
    )


def _cost(bench: Bench, body: Body) -> str:
    money = f"{body['low']} to {body['high']} {body['currency']}, as a rule {body['likely']}"
    chance = f"chance {body['chance']}" if body["chance"] != "1" else ""
    return _joined(f"{body['what']} ({body['of']})", money, chance, body["basis"])


def _told(bench: Bench, body: Body) -> str:
    money = f"{body['low']} to {body['high']} {body['currency']}, middle {body['middle']}"
    return _joined(f"told to {body['to']} at {body['at']}", money, body["note"])


def _ceiling(bench: Bench, body: Body) -> str:
    return _joined(_sum(body), f"agreed by {body['by']}", f"until {body['until']}", body["note"])


def _approval(bench: Bench, body: Body) -> str:
    return _joined(f"{body['answer']} to {body['what']}", _sum(body), f"by {body['by']}", body["note"])


WORDS: Mapping[str, Callable[[Bench, Body], str]] = {
    "job-chosen": _job,
    "task-added": _added,
    "task-dropped": _dropped,
    "task-minutes": _minutes,
    "task-order": _order,
    "day-planned": _day,
    "promised": _promised,
    "part-ordered": _ordered,
    "price-seen": _price,
    "part-age": _age,
    "part-life": _life,
    "cost-expected": _cost,
    "estimate-told": _told,
    "ceiling-agreed": _ceiling,
    "approval": _approval,
}
