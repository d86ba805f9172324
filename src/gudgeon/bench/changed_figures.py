"""What differs between the figures that an entry was made against and the sheet and kit of today."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from gudgeon.bench.made_against import (
    LIMITS,
    SET_BY,
    adapter_key,
    gauge_figures,
    lever_figures,
    limits_shown,
    order_shown,
    shape_figures,
    stated,
    worked_out_limits,
    wrench_figures,
)
from gudgeon.bench.same import NOT_STATED, same_figure, same_words
from gudgeon.book.state import PullState, ReadingState, ScanState
from gudgeon.kit.gauges import DIFFERENCE, Gauge
from gudgeon.kit.model import Kit
from gudgeon.kit.torque import Wrench
from gudgeon.sheet.figures import Stated
from gudgeon.sheet.inspections import Characteristic
from gudgeon.sheet.joints import Joint
from gudgeon.sheet.model import DataSheet

SHAPE = "limit "
"""How the names of figures of limits with shapes begin."""
GONE = "no longer in the kit"


@dataclass(frozen=True, slots=True)
class Difference:
    """One figure that has changed: of which paper, where in it, what it is, what it was and what it is now."""

    paper: Literal["data sheet", "kit"]
    where: str
    what: str
    before: str
    now: str

    @property
    def words(self) -> str:
        """The change in a line."""
        return f"{self.what} was {self.before}, the {self.paper} now says {self.now}"


def of_reading(reading: ReadingState | ScanState, sheet: DataSheet, kit: Kit) -> Iterator[Difference]:
    """What a reading or the scan of a face was judged by and measured with, and is no longer so."""
    item = sheet.characteristics.get(reading.item)
    if item is None:
        return  # told as a key that is gone
    now, path = limits_shown(item), f"characteristics.{reading.item}"
    for name, field in LIMITS.items():
        yield from _limit(reading.shown, now, name, where=f"{path}.{field}", what=item.name, kind=item.kind)
    kept = [name for name in reading.shown if name.startswith(SHAPE)]
    yield from _shapes(reading.shown, kept, item, prefix="", path=path)
    for name, what in (("method", "method"), ("kind", "kind of quantity"), ("material", "material")):
        before, today = reading.shown.get(name), getattr(item, name) or NOT_STATED
        if before is not None and before != today:
            field = "quantity" if name == "kind" else name
            yield Difference("data sheet", f"{path}.{field}", f"{item.name}, {what}", before, today)
    yield from _worked_out(reading, sheet)
    yield from _of_gauge(reading, kit)


def _limit(
    shown: Mapping[str, str], now: Mapping[str, str], name: str, *, where: str, what: str, kind: str
) -> Iterator[Difference]:
    before, today = shown.get(name, NOT_STATED), now.get(name, NOT_STATED)
    if not same_figure(before, now=today, kind=kind):
        yield Difference("data sheet", where, f"{what}, {name.rpartition(': ')[2]}", before, today)


def _worked_out(reading: ReadingState | ScanState, sheet: DataSheet) -> Iterator[Difference]:
    """Limits of what is worked out from a reading: of those that it was shown with."""
    now = worked_out_limits(sheet, reading.item)
    known = [name for name in reading.shown if ": " in name]
    for name in dict.fromkeys((*known, *(now if "method" in reading.shown else ()))):
        key, _, limit = name.partition(": ")
        other = sheet.characteristics.get(key)
        if other is not None and limit in LIMITS:
            where = f"characteristics.{key}.{LIMITS[limit]}"
            yield from _limit(reading.shown, now, name, where=where, what=other.name, kind=other.kind)
    for key, other in sheet.characteristics.items():
        if reading.item in other.of:
            kept = [name.partition(": ")[2] for name in known if name.startswith(f"{key}: {SHAPE}")]
            path = f"characteristics.{key}"
            yield from _shapes(reading.shown, kept, other, prefix=f"{key}: ", path=path)


def _shapes(
    shown: Mapping[str, str], kept: list[str], item: Characteristic, *, prefix: str, path: str
) -> Iterator[Difference]:
    """Figures of limits with shapes: those that were kept, and those that stand there now."""
    if "method" not in shown:
        return  # it kept nothing beside its plain limits
    now = shape_figures(item)
    for name in dict.fromkeys((*kept, *now)):
        where, figure = now.get(name, ("limits", None))
        before, today = shown.get(prefix + name, NOT_STATED), figure.value.text if figure else NOT_STATED
        kind = kind_of_figure(figure)
        if not same_figure(before, now=today, kind=kind):
            words = name.removeprefix(SHAPE)
            yield Difference("data sheet", f"{path}.{where}", f"{item.name}, {words}", before, today)


def kind_of_figure(figure: Stated | None) -> str:
    """Of what kind a stated figure is; empty where there is none."""
    end = (figure.value.first.low or figure.value.first.high) if figure is not None else None
    return end.kind.name if end is not None else ""


def _of_gauge(reading: ReadingState | ScanState, kit: Kit) -> Iterator[Difference]:
    if not reading.instrument:
        return
    gauge, where = kit.gauges.get(reading.instrument), f"gauges.{reading.instrument}"
    if gauge is None:
        yield Difference("kit", where, f"gauge `{reading.instrument}`", "in the kit", GONE)
        return
    before, now = stated(reading.shown, "gauge"), gauge_figures(gauge, kit)
    if "method" not in reading.shown:
        return  # it kept nothing of its gauge
    yield from _figures(before, now, where=where, what=gauge.name, kinds=_of_what(gauge))
    yield from _checked(before, now, where=where, what=gauge.name)


def _of_what(gauge: Gauge) -> dict[str, str]:
    """Of what kind each figure of a gauge is that a reading depends on; empty for words."""
    difference = DIFFERENCE.get(gauge.reads, gauge.reads)
    error = "ratio" if gauge.error_share is not None else difference
    words = dict.fromkeys(("blades", "steps", "stated as", "material", "zeroed in", SET_BY), "")
    return {"range": gauge.reads, "step": difference, "error": error, **words}


_WRENCH = {"range": "torque", "class": "", "deviation": ""}
_LEVER = {"length": "length", "adapter length": "length", "adapter angle": "angle"}


def _figures(
    before: Mapping[str, str], now: Mapping[str, str], *, where: str, what: str, kinds: Mapping[str, str]
) -> Iterator[Difference]:
    for name, kind in kinds.items():
        old, new = before.get(name, NOT_STATED), now.get(name, NOT_STATED)
        if not all(same_figure(before_it, now=it, kind=kind) for before_it, it in _pairs(old, new)):
            yield Difference("kit", f"{where}.{name.replace(' ', '_')}", f"{what}, {name}", old, new)


def _pairs(old: str, new: str) -> list[tuple[str, str]]:
    """Two scales are compared one by one."""
    before, now = old.split(" and "), new.split(" and ")
    return list(zip(before, now, strict=True)) if len(before) == len(now) else [(old, new)]


def _checked(
    before: Mapping[str, str], now: Mapping[str, str], *, where: str, what: str
) -> Iterator[Difference]:
    """A later check that changed no figure confirms; a date that was taken back does not."""
    old, new = before.get("checked", ""), now.get("checked", "")
    if old and new < old:
        yield Difference("kit", f"{where}.checked", f"{what}, last check", old, new or NOT_STATED)


def of_pull(pull: PullState, joint: Joint, kit: Kit, *, key: str, stage: int) -> Iterator[Difference]:
    """What a pull was made to and made with, and is no longer so."""
    yield from of_program(pull, joint, key=key, stage=stage)
    if not pull.tool or "thread state" not in pull.shown:
        return
    wrench, where = kit.wrenches.get(pull.tool), f"wrenches.{pull.tool}"
    if wrench is not None:
        yield from _of_wrench(pull, wrench, kit, where=where)
    elif stated(pull.shown, "wrench"):
        yield Difference("kit", where, f"wrench `{pull.tool}`", "in the kit", GONE)
    elif pull.tool not in kit.turning:
        yield Difference("kit", f"turning.{pull.tool}", f"tool `{pull.tool}`", "in the kit", GONE)
    else:
        error = kit.turning[pull.tool].error
        before, now = (
            pull.shown.get("tool error", NOT_STATED),
            error.text if error is not None else NOT_STATED,
        )
        if not same_figure(before, now=now, kind="angle"):
            name = kit.turning[pull.tool].name
            yield Difference("kit", f"turning.{pull.tool}.error", f"{name}, error", before, now)


def of_program(pull: PullState, joint: Joint, *, key: str, stage: int) -> Iterator[Difference]:
    """What the program and its joint said when a pull was made, and no longer say."""
    path = f"joints.{key}.program.{stage}"
    if stage > len(joint.program):
        said = f"{pull.shown.get('kind', 'stage')} {pull.target}".strip()
        yield Difference("data sheet", path, f"{joint.name}, stage {stage}", said, "no such stage")
        return
    wanted = joint.program[stage - 1]
    before, now = pull.shown.get("kind", wanted.kind), wanted.kind
    target = wanted.figure.text if wanted.figure is not None else str(wanted.loosen or "to contact")
    what = f"{joint.name}, stage {stage}"
    if before != now:
        yield Difference("data sheet", path, what, f"{before} {pull.target}", f"{now} {target}")
    elif pull.target and not same_figure(pull.target, now=target, kind=STAGE_KIND.get(now, "")):
        yield Difference("data sheet", path, what, pull.target, target)
    yield from of_order(pull, joint, key=key, stage=stage)
    yield from of_thread(key, pull, joint)


STAGE_KIND = {
    "turn": "angle",
    "draw down": "angle",
    "loosen": "angle",
    "torque": "torque",
    "verify": "torque",
    "stretch": "length_difference",
    "wait": "time",
}
"""Of what kind the figure of a stage is."""


def of_order(pull: PullState, joint: Joint, *, key: str, stage: int) -> Iterator[Difference]:
    """The order of a stage, where it was kept."""
    if "thread state" not in pull.shown or stage > len(joint.program):
        return
    before = pull.shown.get("order", "")
    now = order_shown(joint, joint.program[stage - 1])
    if before and now and before != now:
        what = f"{joint.name}, order of stage {stage}"
        yield Difference("data sheet", f"joints.{key}.order", what, before, now)


def of_thread(key: str, pull: PullState, joint: Joint) -> Iterator[Difference]:
    """The state of the thread, where it was kept."""
    before = pull.shown.get("thread state", joint.thread_state)
    if not same_words(before, now=joint.thread_state):
        what = f"{joint.name}, state of the thread"
        yield Difference("data sheet", f"joints.{key}.thread_state", what, before, joint.thread_state)


def _of_wrench(pull: PullState, wrench: Wrench, kit: Kit, *, where: str) -> Iterator[Difference]:
    before, now = stated(pull.shown, "wrench"), wrench_figures(wrench)
    yield from _figures(before, now, where=where, what=wrench.name, kinds=_WRENCH)
    yield from _checked(before, now, where=where, what=wrench.name)
    day = datetime.fromisoformat(pull.time).date().isoformat()
    old, new = before.get("overloaded", ""), now.get("overloaded", "")
    if new and new != old and new <= day:
        what = f"{wrench.name}, overloaded on"
        yield Difference("kit", f"{where}.overloaded", what, old or "not known", new)
    if not before.get("adapter"):
        return
    found = adapter_key(kit, pull.adapter)
    if not found:
        gone = before["adapter"]
        yield Difference("kit", f"adapters.{gone}", f"adapter `{gone}`", "in the kit", GONE)
        return
    levers = lever_figures(wrench, kit, adapter=pull.adapter)
    yield from _figures(before, levers, where=where, what=f"{wrench.name} with {found}", kinds=_LEVER)
