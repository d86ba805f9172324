"""Every tightening: joint by joint, stage by stage, bolt by bolt, with outcome, tool, setting, hour and hand."""

from collections.abc import Iterator, Sequence
from itertools import groupby

from gudgeon.bench.closed.model import BoltsPicture, Drawn, Mark, Row, Section, Table
from gudgeon.bench.closed.told import Told, hour
from gudgeon.bench.job_choice import untouched
from gudgeon.bench.pattern import pattern
from gudgeon.bench.progress import progress
from gudgeon.bench.pull_list import state_words
from gudgeon.bench.pull_words import bolt_words
from gudgeon.book.entries import Entry

ACTS = ("pull", "bolt-loosened")
AROUND = (
    "joint-marked", "joint-witnessed", "joint-disturbed", "tightened-again", "provisional-made",
    "provisional-cleared", "looked",
)  # fmt: skip
HEADS = ("Bolt", "Outcome", "With what", "When", "Who", "Besides")


def tightened(told: Told) -> Section:
    """A table for each joint that was worked on, its bolts drawn; the joints of which the book holds nothing."""
    bench = told.bench
    worked = dict.fromkeys(str(one.body["joint"]) for one in told.of(*ACTS))
    doubts = dict(bench.state.doubtful)
    tables = [
        Table(_name(told, key), HEADS, tuple(_rows(told, key, doubts)), _state(told, key)) for key in worked
    ]
    tables += told.listed("Marks, second looks, and what was left loose on purpose", told.of(*AROUND))
    left = [key for key in untouched(bench) if key not in worked]
    never = [one.name for key, one in bench.sheet.joints.items() if key not in worked and key not in left]
    open_ones = [_name(told, key) for key in worked if key in bench.sheet.joints and not _complete(told, key)]
    missing = [f"No tightening in the book of: {'; '.join(never)}."] if never else []
    if left:
        names = "; ".join(_name(told, key) for key in left)
        missing.append(f"No part of this job, and never loosened by the book: {names}.")
    if open_ones:
        missing.append(f"Not complete, or in doubt: {'; '.join(open_ones)}.")
    return Section(
        "tightened",
        "Every tightening",
        said=("In the order in which it was written down. “Struck” and “in doubt” stand with the row.",)
        if tables
        else (),
        tables=tuple(tables),
        missing=tuple(missing),
        pictures=tuple(_pictures(told, worked)),
    )


def _name(told: Told, key: str) -> str:
    joint = told.bench.sheet.joints.get(key)
    return joint.name if joint is not None else key


def _state(told: Told, key: str) -> str:
    joint, state = told.bench.sheet.joints.get(key), told.bench.state.joints.get(key)
    if joint is None:
        return "The sheet holds no such joint any more."
    found = progress(joint, state)
    return "; ".join((f"{joint.name}: {state_words(joint, found)}", *found.doubts))


def _complete(told: Told, key: str) -> bool:
    found = progress(told.bench.sheet.joints[key], told.bench.state.joints.get(key))
    return found.complete and found.marked


def _rows(told: Told, key: str, doubts: dict[str, str]) -> Iterator[Row]:
    own = [one for one in told.of(*ACTS) if one.body["joint"] == key]
    for stage, several in groupby(own, key=_stage):
        yield Row((stage,), mark="group")
        yield from (_row(told, one, doubts.get(one.id, "")) for one in several)


def _stage(one: Entry) -> str:
    """What the list said that day of the stage that an act belongs to."""
    shown = one.body.get("shown", {})
    what = " ".join(filter(None, [shown.get("kind", ""), shown.get("target", "")]))
    loosened = "Taken apart, " if one.kind == "bolt-loosened" else ""
    stage = f"{loosened}stage {shown.get('stage') or one.body['stage']}"
    again = f", pass {one.body['round']}" if one.body["round"] > 1 else ""
    return f"{stage[0].upper()}{stage[1:]}{again}" + (f": {what}" if what else "")


def _row(told: Told, one: Entry, doubt: str) -> Row:
    body = one.body
    joint = told.bench.sheet.joints.get(body["joint"])
    name = bolt_words(joint, body["bolt"]) if joint is not None else str(body["bolt"])
    doubtful = bool(doubt) or body["outcome"] == "doubtful" or bool(body.get("doubt"))
    besides = [
        f"IN DOUBT: {doubt or body['why']}" if doubtful else "",
        "" if doubtful and not doubt else body["why"],
    ]
    mark: Mark = "doubt" if doubtful else ""
    angle = f" {body['angle_deg']}°" if body.get("angle_deg") else ""
    return told.row(
        one, name, f"{body['outcome']}{angle}", _with_what(told, one), hour(one.device_time), one.who,
        "; ".join(dict.fromkeys(filter(None, besides))), mark=mark,
    )  # fmt: skip


def _with_what(told: Told, one: Entry) -> str:
    body = one.body
    kit, shown = told.bench.kit, body.get("shown", {})
    tool = kit.wrenches.get(body["tool"]) or kit.turning.get(body["tool"])
    name = tool.name if tool is not None else str(body["tool"])
    if shown.get("adapter"):
        name += f" with {shown['adapter']}"
    setting = body.get("setting", "")
    return f"{name}, set to {setting}" if setting else name


def _pictures(told: Told, worked: Sequence[str] | dict[str, None]) -> Iterator[Drawn]:
    """The bolts of each joint that the sheet places, as far as they are."""
    if told.bench.locked is not None:
        return
    for key in worked:
        if key in told.bench.sheet.joints:
            found = pattern(told.bench, key)
            if len(found.spots) > 1:
                yield BoltsPicture(_name(told, key), found)
