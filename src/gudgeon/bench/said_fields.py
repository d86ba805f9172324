"""What a person says of waits, bags, money and distances, as the book keeps it."""

from collections.abc import Callable, Mapping
from typing import Any

from gudgeon.bench.bodies import joint as joint_of
from gudgeon.bench.context import Bench
from gudgeon.bench.plan_fields import paid_fields
from gudgeon.bench.promises import sent_name
from gudgeon.bench.wait_fields import odometer_fields, sealant_fields, timer_fields

Fields = Mapping[str, Any]
FindTask = Callable[[Bench, str], str]


def said_fields(bench: Bench, kind: str, said: Fields, *, find_task: FindTask) -> dict[str, Any]:
    """The fields of a kind of which not everything is said as it is kept; any other as it was said."""
    if kind == "timer-started":
        return timer_fields(bench, said, task=find_task(bench, str(said["task"])))
    if kind == "sealant-laid":
        named = said.get("task")
        return sealant_fields(bench, said, task=find_task(bench, str(named)) if named else None)
    if kind == "odometer-read":
        return odometer_fields(said)
    if kind == "money":
        return paid_fields(said)
    if kind == "tightened-again":
        joint_of(bench.sheet, str(said["joint"]))
    if kind in ("shop-out", "shop-back"):
        return {**said, "part": sent_name(bench, str(said["part"]))}
    if kind == "taken-off":
        return {name: value for name, value in said.items() if name != "count" or value is not None}
    return dict(said)
