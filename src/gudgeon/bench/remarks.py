"""What a careful helper would say at once of an entry that was just written. Nothing here refuses anything."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any

from gudgeon.bench.blade_remarks import blade_remarks
from gudgeon.bench.codes import in_a_command
from gudgeon.bench.context import Bench, entry_of
from gudgeon.bench.doubt_rules import doubt_words
from gudgeon.bench.evidence import joints_of
from gudgeon.bench.gates import inspect_words
from gudgeon.bench.holds import Hold, all_holds, contradiction, standings
from gudgeon.bench.money_remarks import money_remarks
from gudgeon.bench.network import tasks_of
from gudgeon.bench.part_remarks import own_part_remarks, part_remarks, promised_remarks, received_remarks
from gudgeon.bench.plan_remarks import job_remarks
from gudgeon.bench.progress import UNSAID, loosening, progress
from gudgeon.bench.provisional import condition, until
from gudgeon.bench.pull_words import as_called, bolt_words
from gudgeon.bench.ready import cautions
from gudgeon.bench.resting import first_words, not_standing_under
from gudgeon.bench.standing import Network
from gudgeon.bench.stops import look_due, looks_due
from gudgeon.bench.timers import reasons as timer_reasons
from gudgeon.bench.verdict_remarks import verdict_remarks
from gudgeon.bench.wait_remarks import wait_remarks
from gudgeon.bench.wrench_state import override
from gudgeon.book.entries import Entry
from gudgeon.book.gates import RULES
from gudgeon.book.state import OpenItem, State


def remarks_on(bench: Bench, entry: Entry, after: State) -> tuple[str, ...]:
    """What is to be said of an entry; `bench` is as it was before, `after` what the book adds up to with it."""
    speak = {
        "reading": _reading_remarks,
        "face-scanned": _reading_remarks,
        "task-started": _started_remarks,
        "task-done": _finished_remarks,
        "provisional-cleared": _final_remarks,
        "taken-out": _support_remarks,
        "pull": _pull_remarks,
        "bolt-loosened": _loosened_remarks,
        "hold-proved": _hold_remarks,
        "looked": _looked_remarks,
        "refitted": _refitted_remarks,
        "joint-marked": _marked_remarks,
        "identity-read": _identity_remarks,
        "strike": _strike_remarks,
        "part-disposition": part_remarks,
        "part-received": received_remarks,
        "promised": promised_remarks,
        "job-chosen": job_remarks,
        "money": money_remarks,
        **dict.fromkeys(("part-ordered", "price-seen", "part-age", "part-life"), own_part_remarks),
    }.get(entry.kind)
    said = tuple(speak(bench, entry, after)) if speak is not None else ()
    return (*_breaches(entry, after), *_void(entry, after), *said, *wait_remarks(bench, entry, after))


def _breaches(entry: Entry, after: State) -> Iterator[str]:
    """An act against a gate: kept as it happened, and what has to be looked at before anything else."""
    for one in after.breaches:
        if one.entry != entry.id:
            continue
        if one.passed_by:
            yield f"Against a gate ({one.why}), let pass by {one.passed_by}. It is shown for ever."
            continue
        look = next(rule.look for gate, rule in RULES.items() if gate == one.gate)
        yield (
            f"This was against a gate: {one.why}. It is kept as it happened, and blocks until somebody has looked. "
            f"{look} Then: {inspect_words(one.order, one.gate)}"
        )


def _void(entry: Entry, after: State) -> Iterator[str]:
    """Which proofs do not stand any more by what an entry says, those first that it took the ground from itself."""
    if entry.kind == "hold-proved":
        return
    found = [(len(one.void_path), hold, one) for hold, one in after.holds.items() if one.void_by == entry.id]
    void = [(all_holds()[hold].name, one) for _, hold, one in sorted(found) if hold in all_holds()]
    if void:
        named = ", ".join(f"“{name}”" for name, _ in void[:4])
        more = f" and {len(void) - 4} more, which gudgeon ready names" if len(void) > 4 else ""
        yield f"No longer proved by it: {named}{more} ({void[0][1].why_void}). Prove them again when it is done."


def _pull_remarks(bench: Bench, entry: Entry, after: State) -> Iterator[str]:
    body, joint = entry.body, bench.sheet.joints[entry.body["joint"]]
    before = progress(joint, bench.state.joints.get(body["joint"]))
    expected = before.next
    if body["outcome"] == "clicked at once" and expected is not None and not expected.at_once_is_good:
        yield (
            f"The wrench moved nothing, so this pull is not done. The {joint.called} was at this torque already, "
            "or it binds: slacken it and pull it again, or record it as doubtful."
        )
    if expected is not None and (expected.stage, expected.round, expected.bolt) != (
        body["stage"], body["round"], body["bolt"],
    ):  # fmt: skip
        yield (
            f"This was not the next pull: {bolt_words(joint, expected.bolt)}, stage {expected.stage} was. "
            "It is kept as it happened."
        )
    if before.halted and body["stage"] > before.stop:
        yield (
            f"After stage {before.stop} the joint was left provisional {until(joint, before.stop)}, and this is the "
            f"first pull after it. If it is not so that {condition(joint, before.stop)}, go no further and strike "
            "this entry."
        )
    if below := override(bench.kit, tool=body["tool"], setting=body["setting"]):
        kept = "It is kept as your override" + ("." if body["why"] else "; no reason was given (--why).")
        yield f"{below[0].upper()}{below[1:]}. {kept}"
    if body["shown"].get("adapter") and body["setting"] and not _said_before(bench.state, body):
        yield (
            f"This setting counts only with the adapter on the wrench: {body['shown']['adapter']}. "
            f"Without it {body['setting']} is not {body['shown']['target']} at the bolt."
        )
    if due := look_due(bench, body["joint"], found=before):
        yield (
            f"The last pull was not looked at before this one, and {due.why}. It is kept as it happened. {due.words} "
            "Had it been turned already, it is turned twice now."
        )
    found = progress(joint, after.joints.get(body["joint"]))
    doubts = found.doubts
    if any(UNSAID in one for one in doubts) and not (body["tool"] or body["setting"] or body["why"]):
        yield (
            f"Nothing says with what it was pulled: none of your wrenches does {body['shown']['target']}. Strike it "
            f"(gudgeon strike {entry.number} --why …) and record it again with --tool and --setting, or with --why."
        )
    if doubts:
        said = as_called(joint, "; ".join(doubts))
        yield f"The joint is in doubt: {said}. {doubt_words(joint, found)}"


def _loosened_remarks(bench: Bench, entry: Entry, after: State) -> Iterator[str]:
    """The first bolt that is let go undoes the work of all: that is said before the second one."""
    key = entry.body["joint"]
    joint, before = bench.sheet.joints[key], bench.state.joints.get(key)
    body, expected = entry.body, loosening(joint, before).next
    if expected is not None and (expected.stage, expected.round, expected.bolt) != (
        body["stage"], body["round"], body["bolt"],
    ):  # fmt: skip
        yield (
            f"This was not the next step of loosening: {bolt_words(joint, expected.bolt)}, stage {expected.stage} "
            "was. It is kept as it happened. Go back to it before anything else."
        )
    if before is not None and before.pulls:
        yield (
            f"This begins to take the joint apart: its {len(before.pulls)} pulls no longer count. If that was not "
            "meant, strike this entry, and they count again."
        )
        if joint.loosening_cold:
            yield "Only with the engine cold, says the sheet: is it?"
    found = loosening(joint, after.joints.get(key))
    if found.next is not None:
        yield f"{found.done} of {len(found.steps)} steps of loosening are done. The joint is not tight."


def _said_before(state: State, body: Mapping[str, Any]) -> bool:
    """Whether an earlier pull of the stage was made with the same wrench at the same setting."""
    joint = state.joints.get(body["joint"])
    return any(
        (stage, pull.tool, pull.setting) == (body["stage"], body["tool"], body["setting"])
        for (stage, _, _), pull in (joint.pulls.items() if joint else ())
    )


def _hold_remarks(bench: Bench, entry: Entry, after: State) -> Iterator[str]:
    found = next((one for one in standings(bench.sheet, after) if one.hold.id == entry.body["hold"]), None)
    if found is None:
        yield "This engine does not need it, by its sheet."
    elif against := contradiction(found.hold, after):
        yield f"Look: {against}. It does not stand as long as the book says both."
    elif not found.stands:
        first = first_words(not_standing_under(found.hold, bench.sheet, after))
        yield f"It does not stand yet: {found.why_not}. {first}{' Then prove this again.' if first else ''}".rstrip()
    if found is not None:
        yield from _proved_too_soon(bench, found.hold, after)


def _proved_too_soon(bench: Bench, hold: Hold, after: State) -> Iterator[str]:
    """A proof that was given before the work that it belongs to could be done."""
    network = Network(bench, tasks_of(bench.sheet, bench.state))
    for task in network.tasks.values():
        against = network.blocked_by(task.key) if hold.id in task.proves else ""
        if against:
            yield (
                f"It was proved although “{task.title}” has to wait for: {against}. It is kept; look again when "
                "that is done, and prove it anew if anything has changed."
            )
    if hold.id == "sealants_cured":
        for one in timer_reasons(replace(bench, state=after)):
            timer = after.timers.get(one.about.removeprefix("timer:"))
            if timer is not None and timer.kind in ("cure", "open time"):
                yield f"Look: the book says otherwise of {one.what}: {one.why}."


def _refitted_remarks(bench: Bench, entry: Entry, after: State) -> Iterator[str]:
    item, place = bench.state.left_over[entry.body["item"]], entry.body["place"]
    if (entry.body["count"] or 0) > item.off:
        yield (
            f"{entry.body['count']} are said to be back, and only {item.off} of {item.name} were off: "
            "whose is the other?"
        )
    if place and item.where and place != item.where:
        yield f"{item.name} came from place {item.where}, now it is at {place}: are two of them crossed?"
    elif item.where and not place:
        yield f"Its place number is {item.where}: look at it."


def _looked_remarks(bench: Bench, entry: Entry, after: State) -> Iterator[str]:
    """A look at an older pull, or at something else, says nothing of the last one."""
    target = entry_of(bench, entry.body["entry"])
    joints = {target.body.get("joint") if target is not None else None}
    joints |= {after.paused.joint} if after.paused is not None else set()
    for due in looks_due(replace(bench, state=after)):
        if due.joint in joints:
            yield (
                f"The last pull, entry {due.number}, is still to be looked at, because {due.why}: no next pull is "
                f"offered before. {due.words}"
            )


def _marked_remarks(bench: Bench, entry: Entry, after: State) -> Iterator[str]:
    joint = bench.sheet.joints[entry.body["joint"]]
    found = progress(joint, after.joints.get(entry.body["joint"]))
    if not found.complete:
        counted = f"{found.done} of {len(found.steps)} pulls are done"
        yield f"The joint is not finished: {counted}. The mark does not count yet."


def _identity_remarks(bench: Bench, entry: Entry, after: State) -> Iterator[str]:
    if not entry.body["matches"] and not entry.body["why_not"]:
        code = in_a_command(entry.body["code"])
        yield f"Figures stay locked until you say why this sheet serves: gudgeon record identity {code} --why REASON"


def _strike_remarks(bench: Bench, entry: Entry, after: State) -> Iterator[str]:
    for key, joint in bench.sheet.joints.items():
        now = progress(joint, after.joints.get(key))
        new = [text for text in now.doubts if text not in progress(joint, bench.state.joints.get(key)).doubts]
        if new:
            yield f"{joint.name}: in doubt since then ({'; '.join(new)}). {doubt_words(joint, now)}"


def _reading_remarks(bench: Bench, entry: Entry, after: State) -> Iterator[str]:
    """The verdict at once, while the gauge is still in the hand, and of what the place is judged together with."""
    if entry.kind == "reading":
        yield from blade_remarks(bench, entry)
    if bench.locked is not None:
        return
    yield from verdict_remarks(bench, entry, after)


def _started_remarks(bench: Bench, entry: Entry, after: State) -> Iterator[str]:
    yield from _blocked(bench, entry, after, said="begun")
    stop = after.paused
    if stop is not None and bench.state.paused is not None:
        yield f"The stop still stands: {stop.hand}; you wanted to: {stop.next_action}. It ends when that goes on."


def _finished_remarks(bench: Bench, entry: Entry, after: State) -> Iterator[str]:
    network = Network(replace(bench, state=after), tasks_of(bench.sheet, bench.state))
    task = network.tasks.get(entry.body["task"])
    if task is None:
        return
    for key in joints_of(task, bench.sheet):
        joint, found = bench.sheet.joints[key], progress(bench.sheet.joints[key], after.joints.get(key))
        if not found.complete:
            yield f"Its joint is not finished: {joint.name}, {found.done} of {len(found.steps)} pulls done."
    for hold in task.proves:
        one = network.holds.get(hold)
        if one is not None and not one.stands:
            yield f"Its proof is missing: {one.hold.name} ({one.why_not}). {one.hold.ask}"
    yield from _blocked(bench, entry, after, said="recorded as finished")


def _blocked(bench: Bench, entry: Entry, after: State, *, said: str) -> Iterator[str]:
    """What the book held against a task when it was spoken of, and what follows from that."""
    key, tasks = entry.body["task"], tasks_of(bench.sheet, bench.state)
    network = Network(bench, tasks)
    if key not in network.tasks or network.own[key].status == "done":
        return
    now = Network(replace(bench, state=after), tasks)
    against = now.breaches.get(key) or network.blocked_by(key)
    if not against:
        return
    yield f"It was {said} although it has to wait for: {against}. It is kept as it happened."
    if key in now.breaches:
        yield "What comes before it is not taken as done by it, because the book says otherwise."
    elif any(now.taken(name) and not network.taken(name) for name in now.tasks):
        yield "What comes before it, and the book does not name, is taken as done now. If it is not, do that first."


def _final_remarks(bench: Bench, entry: Entry, after: State) -> Iterator[str]:
    joint = bench.sheet.joints.get(bench.state.provisional[entry.body["item"]].joint or "")
    if joint is None:
        return
    key = bench.state.provisional[entry.body["item"]].joint or ""
    found = progress(joint, after.joints.get(key))
    if not found.complete:
        yield (
            f"Look: it was made final, and of its joint, {joint.name}, {found.done} of {len(found.steps)} pulls "
            f"are in the book. Pull it by its card: gudgeon tighten {key}"
        )


_SUPPORT = re.compile(r"\b(jacks?|stands?|blocks?|supports?|props?|hoists?|cranes?|slings?)\b")
_ENGINE = re.compile(r"\b(mounts?|mounting|engine|oil pan|sump)\b")


def _support_remarks(bench: Bench, entry: Entry, after: State) -> Iterator[str]:
    """What carries the engine is taken away while a mount that has to carry it is not fast."""
    if not _carries_engine(bench.state.left_in[entry.body["item"]]):
        return
    for key, joint in bench.sheet.joints.items():
        found = progress(joint, after.joints.get(key))
        if joint.role == "engine mount" and not found.complete:
            load = next((one for one in cautions("crank") if one.startswith("Every load")), "")
            yield (
                f"Look: of {joint.name}, {found.done} of {len(found.steps)} pulls are in the book. What carries the "
                f"engine now? Put the support back before anything else, and no hand under the load. {load}"
            )


def _carries_engine(item: OpenItem) -> bool:
    return bool(_SUPPORT.search(item.name.lower()) and _ENGINE.search(f"{item.name} {item.where}".lower()))
