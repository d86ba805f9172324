"""May I start it? Everything due before a milestone, and the reasons why not."""

import tomllib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime
from importlib import resources

from gudgeon.bench.after_heat import reasons as heat_reasons
from gudgeon.bench.against_gates import let_pass
from gudgeon.bench.against_gates import reasons as breach_reasons
from gudgeon.bench.answer import Heading
from gudgeon.bench.changed import reasons as changed_reasons
from gudgeon.bench.codes import in_a_command
from gudgeon.bench.context import Bench
from gudgeon.bench.counted import reasons as count_reasons
from gudgeon.bench.doubt_rules import doubt_words
from gudgeon.bench.evidence import evidence
from gudgeon.bench.good import Row, inspect
from gudgeon.bench.holds import IDENTITY, Standing, standings
from gudgeon.bench.job_choice import begun_in_another, left_out, untouched
from gudgeon.bench.judging.acceptance import part_decided, stand_and_past
from gudgeon.bench.network import Task, job_of, tasks_of, title_of
from gudgeon.bench.new_bolts import reasons as new_bolt_reasons
from gudgeon.bench.open_lists import several
from gudgeon.bench.photo_reasons import reasons as photo_reasons
from gudgeon.bench.progress import Progress, progress
from gudgeon.bench.provisional import finished_by_pulling, provisional
from gudgeon.bench.pull_list import state_words
from gudgeon.bench.reason import DUE, MILESTONES, WORDS, Reason, when
from gudgeon.bench.resting import UNDER_IT, first_names, not_standing_among
from gudgeon.bench.signed import signatures
from gudgeon.bench.timers import reasons as wait_reasons
from gudgeon.bench.undone_since import last_of
from gudgeon.bench.undone_since import reasons as undone_reasons
from gudgeon.book.state import OpenItem
from gudgeon.sheet.joints import Joint


@dataclass(frozen=True, slots=True)
class Readiness:
    """The answer to “May I start it?” for one milestone.

    `accepted` is what named persons let pass, `earlier` what they did and is not needed any more.
    """

    heading: Heading
    milestone: str
    milestone_words: str
    answer: str
    reasons: tuple[Reason, ...]
    later: tuple[Reason, ...]
    accepted: tuple[str, ...]
    earlier: tuple[str, ...]
    aside: tuple[str, ...]
    cautions: tuple[str, ...]
    signed: tuple[str, ...] = ()


def ready(bench: Bench, *, milestone: str) -> Readiness:
    """Yes when nothing due before the milestone is open; else every reason why not."""
    rows = inspect(bench).rows if bench.locked is None else ()
    passed = let_pass(bench, _reasons(bench, rows))
    last = DUE.index(milestone)
    now = tuple(reason for reason in passed.left if DUE.index(reason.due_before) <= last)
    later = tuple(reason for reason in passed.left if DUE.index(reason.due_before) > last)
    standing, past = stand_and_past(bench, rows)
    accepted = (*standing, *passed.standing)
    answer = "no" if now else "yes, with what was accepted" if accepted else "yes"
    heading = bench.heading("May I start it?")
    return Readiness(
        heading,
        milestone,
        WORDS[milestone],
        answer,
        now,
        later,
        accepted,
        (*past, *passed.gone),
        _aside(bench, rows),
        cautions(milestone),
        signatures(bench, passed.left, milestone=milestone),
    )


def all_reasons(bench: Bench) -> tuple[Reason, ...]:
    """Everything that is open before any milestone, whoever lets it pass."""
    return tuple(_reasons(bench, inspect(bench).rows if bench.locked is None else ()))


def _aside(bench: Bench, rows: tuple[Row, ...]) -> tuple[str, ...]:
    """What readiness does not count, said so that nobody takes silence for a yes."""
    said = []
    if not bench.sheet.joints:
        said.append("bolts: the data sheet names no bolted joint, so nothing asks whether one is tight")
    left = [bench.sheet.joints[key].name for key in untouched(bench)]
    if left:
        said.append(
            f"joints that are no part of this job, and were never loosened by the book: {', '.join(left)}"
        )
    out = left_out(bench)
    if out:
        said.append(f"tasks that are left out of this job: {'; '.join(out)}")
    for verdict in ("in doubt", "not measured", "no limit given"):
        names = dict.fromkeys(row.name for row in rows if row.verdict == verdict)
        if names:
            which = "with no limit given" if verdict == "no limit given" else verdict
            said.append(f"readings {which}, which a person decides: {', '.join(names)} (gudgeon judge)")
    renewed = dict.fromkeys(row.name for row in rows if row.verdict == "outside" and _decided(bench, row))
    if renewed:
        said.append(f"readings outside on parts that are renewed or accepted: {', '.join(renewed)}")
    return tuple(said)


def cautions(milestone: str) -> tuple[str, ...]:
    """What can hurt at a milestone, each with what it rests on."""
    text = resources.files("gudgeon.bench").joinpath("data/cautions.toml").read_text(encoding="utf-8")
    rows = tomllib.loads(text)["caution"]
    return tuple(f"{row['text']} ({row['basis']})" for row in rows if row["before"] == milestone)


def _reasons(bench: Bench, rows: tuple[Row, ...]) -> Iterator[Reason]:
    locked = bench.locked
    if locked is not None:
        yield Reason(
            "right thing",
            "Engine code",
            locked.message.splitlines()[0],
            "crank",
            "gudgeon record identity CODE",
            f"Read it off the engine: {bench.sheet.engine.code_is_read}.",
            "the code as read, and where",
        )
    yield from breach_reasons(bench)
    yield from _orphans(bench)
    yield from _smaller_job(bench)
    yield from _away(bench)  # nothing is proved of a part that is not here
    yield from _joints(bench)
    yield from new_bolt_reasons(bench)
    yield from _open_items(bench)
    yield from _final_too_soon(bench)
    yield from _holds(bench)
    yield from wait_reasons(bench)
    tasks = tasks_of(bench.sheet, bench.state)
    yield from _own_tasks(bench, tasks)
    yield from _in_hand(bench, tasks)
    yield from undone_reasons(bench, tasks)
    yield from count_reasons(bench)
    yield from heat_reasons(bench)
    yield from _measured(bench, rows)
    yield from changed_reasons(bench)
    yield from photo_reasons(bench)
    for entry, why in bench.state.doubtful:
        yield Reason(
            "in doubt",
            f"Entry {entry[:8]}",
            why,
            "crank",
            f"look, then record it again or: gudgeon strike {entry[:8]} --why …",
            "Look at the engine, then write it into the book again, or strike the entry with a reason.",
            "what you see",
            about=f"entry:{entry}",
        )


def _joints(bench: Bench) -> Iterator[Reason]:
    left = untouched(bench)
    for key, joint in bench.sheet.joints.items():
        if key in left:
            continue
        found = progress(joint, bench.state.joints.get(key))
        if found.complete and found.marked:
            yield from _unwitnessed(bench, key, joint)
            continue
        if found.halted:
            continue  # on the list “provisional”
        words = state_words(joint, found)
        todo = f"gudgeon record marked {key} --how MARKS" if found.complete else f"gudgeon tighten {key}"
        why = "; ".join(found.doubts) if found.doubts else words
        how, value = _fastening(joint, found)
        yield Reason("made fast", joint.name, why, joint.due_before, todo, how, value, about=f"joint:{key}")


def _unwitnessed(bench: Bench, key: str, joint: Joint) -> Iterator[Reason]:
    """Where the sheet asks for a second look, a mark alone is not enough."""
    if joint.witness and not bench.state.joints[key].witnessed:
        yield Reason(
            "made fast",
            joint.name,
            "complete and marked, and nobody has had the second look that the sheet asks for",
            joint.due_before,
            f"gudgeon record witnessed {key} --by NAME --seen …",
            "Let another person look along the marks, or look again on another day.",
            "what was seen, and by whom",
            about=f"joint:{key}",
        )


def _fastening(joint: Joint, found: Progress) -> tuple[str, str]:
    """What is left to do at a joint, and what to write down."""
    if found.doubts:
        return doubt_words(joint, found), "what was done about it"
    if found.complete:
        return f"Mark every {joint.called} that has had its last stage.", "how it is marked"
    step = found.next
    assert step is not None
    at = "" if len(joint.bolt_names) == 1 or step.bolt == "all" else f", {joint.called} {step.bolt}"
    go_on = "Go on" if found.started else "Begin"
    return (
        f"{go_on} at stage {step.stage} of {len(joint.program)}{at}, on the card of this joint.",
        "pulls done, and how it is marked",
    )


def _open_items(bench: Bench) -> Iterator[Reason]:
    """Provisional and left in one by one; what is plugged or off in groups, as it is counted."""
    state = bench.state
    for family, items, command, words, value in (
        ("provisional", provisional(bench).values(), "cleared", "Make it final.", "how it was made final"),
        ("left in", state.left_in.values(), "taken-out", "Take it out.", "where it lies now"),
    ):
        for item in items:
            why = ", ".join(
                filter(None, [item.why, item.where, f"since {when(datetime.fromisoformat(item.since))}"])
            )
            due = f" (due: {item.due_task})" if item.due_task else ""
            how = " --how TEXT" if command == "cleared" else ""
            typed = f"gudgeon record {command} {item.item}{how}"
            if finished_by_pulling(item):
                typed, words = (
                    f"gudgeon tighten {item.joint}",
                    "Finish it by its card: the stages after the stop.",
                )
            about = f"item:{family}:{item.item}"
            yield Reason(family, item.name, why + due, item.due_before, typed, words, value, about=about)
    yield from _grouped(bench, "plugged", state.plugged.values(), "opened")
    yield from _grouped(bench, "left over", state.left_over.values(), "refitted")


def _final_too_soon(bench: Bench) -> Iterator[Reason]:
    """What is said to be final while its joint is not, and was due before the joint is."""
    for item in bench.state.made_final.values():
        joint = bench.sheet.joints.get(item.joint or "")
        if joint is None or MILESTONES.index(item.due_before) >= MILESTONES.index(joint.due_before):
            continue  # due no earlier than its joint, which is asked for itself
        found = progress(joint, bench.state.joints.get(item.joint or ""))
        if not found.complete:
            why = (
                f"said to be final, but of its joint {found.done} of {len(found.steps)} pulls are in the book"
            )
            how, value = _fastening(joint, found)
            yield Reason(
                "provisional", item.name, why, item.due_before, f"gudgeon tighten {item.joint}", how, value,
                about=f"joint:{item.joint}",
            )  # fmt: skip


_GROUPS = {
    "plugged": ("Take the plug out, look in, and count it.", "how many came out"),
    "left over": ("Put it back where it came from.", "how many went back"),
}


def _grouped(bench: Bench, family: str, items: Iterable[OpenItem], command: str) -> Iterator[Reason]:
    """Ten plugs are one reason with ten names; one alone, or one that is let pass, is named by itself."""
    how, value = _GROUPS[family]
    passed = {one.about for one in bench.state.overrides if one.stands}
    groups: dict[tuple[str, str, str], list[OpenItem]] = {}
    for item in items:
        alone = item.item if f"item:{family}:{item.item}" in passed else ""
        groups.setdefault((item.group or "opening", item.due_before, alone), []).append(item)
    for (group, due, _), members in groups.items():
        first = members[0]
        off_since = f"since {when(datetime.fromisoformat(first.since))}"
        if len(members) == 1:
            why = ", ".join(filter(None, [first.where, several(first), off_since]))
            typed = f"gudgeon record {command} {first.item}"
            about = f"item:{family}:{first.item}"
            yield Reason(family, first.name, why, due, typed, how, "where it is now", about=about)
            continue
        closed = "still closed" if family == "plugged" else "still off"
        names = tuple(_with_bag(item) for item in members)
        yield Reason(
            family,
            f"{sum(item.off for item in members)} {group}s",
            f"{closed}: {', '.join(names)}",
            due,
            f"gudgeon record {command} ITEM, one by one",
            how,
            value,
            names,
        )


def _with_bag(item: OpenItem) -> str:
    more = several(item)
    return f"{item.name} ({more})" if more else item.name


def _holds(bench: Bench) -> Iterator[Reason]:
    found = standings(bench.sheet, bench.state)
    for one in found:
        # A code that was not read, or is another one, is a reason of its own.
        if not one.stands and (one.hold.id != IDENTITY or bench.locked is None):
            yield Reason(
                one.hold.family,
                one.hold.name,
                _why_not(bench, one, found),
                one.hold.before,
                f"gudgeon record hold {one.hold.id} VALUE",
                one.hold.ask,
                one.hold.value,
                about=f"hold:{one.hold.id}",
            )


def _why_not(bench: Bench, one: Standing, found: Iterable[Standing]) -> str:
    """Why a proof does not stand; what it rests on is named, and is in this list with what closes it."""
    if not one.why_not.startswith(f"void: {UNDER_IT}"):
        return one.why_not
    names = first_names(not_standing_among(one.hold, found, sheet=bench.sheet, state=bench.state))
    return f"{one.why_not}: {names}" if names else f"{one.why_not}; it is by now: prove this again"


def _measured(bench: Bench, rows: tuple[Row, ...]) -> Iterator[Reason]:
    for row in rows:
        if row.verdict != "outside" or _decided(bench, row):
            continue
        what = f"{row.item} {row.place}".strip()
        todo = f'rework, renew, or accept: gudgeon record accepted "{what}" --by NAME --why …'
        name = f"{row.name}, {row.place}".rstrip(", ")
        how = "Rework it, renew it, or accept it in writing with a name and a reason."
        why = f"{row.reading}: {row.reason}" if row.reading else row.reason
        yield Reason("measured", name, why, "crank", todo, how, "what was decided", about=f"reading:{what}")


def _decided(bench: Bench, row: Row) -> bool:
    """Whether somebody has decided about a reading outside: the part is renewed, or the reading is accepted."""
    return bool(row.accepted) or part_decided(bench, row.item, rests_on=frozenset(row.rests_on))


_KEY_BACK = "Put its key back into the data sheet: what was done belongs to it."


def _orphans(bench: Bench) -> Iterator[Reason]:
    """What the book holds of a joint or a characteristic that the sheet no longer has."""
    for key, joint in bench.state.joints.items():
        if key not in bench.sheet.joints and joint.pulls:
            why = f"{len(joint.pulls)} pulls in the book belong to it, and the sheet no longer has it"
            todo = "put its key back into the sheet"
            yield Reason("right thing", f"Joint `{key}`", why, "crank", todo, _KEY_BACK)
    gone = [item for item, _, _ in bench.state.readings if item not in bench.sheet.characteristics]
    for item in dict.fromkeys(gone):
        why = f"{gone.count(item)} readings in the book belong to it, and the sheet no longer has it"
        todo = "put its key back into the sheet"
        yield Reason("right thing", f"Characteristic `{item}`", why, "crank", todo, _KEY_BACK)


def _smaller_job(bench: Bench) -> Iterator[Reason]:
    """What was begun of a larger job than the present one would be asked for by nothing."""
    name, begun = begun_in_another(bench.state)
    if begun:
        titles = "; ".join(f"“{title_of(key, sheet=bench.sheet, state=bench.state)}”" for key in begun[:3])
        more = f" and {len(begun) - 3} more" if len(begun) > 3 else ""
        yield Reason(
            "right thing",
            "How far the job goes",
            f"“{job_of(bench.state).name}” has no {titles}{more}, and the book says that it was begun",
            "crank",
            f"gudgeon record job {name} --why …",
            "Choose the job to which that belongs; or strike what was written down by mistake.",
            "why the job goes as far",
            about=f"job:{name}",
        )


_WHERE = {"running": "begun, and not said to be done", "paused": "begun, and left standing"}


def _own_tasks(bench: Bench, tasks: Iterable[Task]) -> Iterator[Reason]:
    """Tasks that he added himself: only his word says that one is done, whatever was begun after it."""
    added = bench.state.plan.added
    for task in tasks:
        found = bench.state.tasks.get(task.key)
        if task.key not in added or (found is not None and found.status == "done"):
            continue
        yield Reason(
            "your own",
            task.title,
            "not begun" if found is None else _WHERE[found.status],
            task.due_before,
            f"gudgeon record task-done {_named(task)}",
            "Do it, and say that it is done; or leave it out of the job, with the reason.",
            "that it is done",
        )


def _named(task: Task) -> str:
    """A task as a command names it: a quotation mark in its title would end the words, so there it is the key."""
    named = in_a_command(task.title)
    return named if named.strip('"') == task.title else task.key


def _in_hand(bench: Bench, tasks: Iterable[Task]) -> Iterator[Reason]:
    """Tasks of the job that were begun by his own word, and are not done by his word, their pulls or their proofs.

    What was said after the last pull of its joint is of what is left: an oil drain plug that is tight fills no oil.
    A task that is a milestone itself is what is asked about, and stands in its own way no more.
    """
    state, added = bench.state, bench.state.plan.added
    asked = {one.hold.id for one in standings(bench.sheet, state)}
    for task in tasks:
        word = state.tasks.get(task.key)
        if word is None or word.status == "done" or task.key in added or task.gate:
            continue
        found = evidence(task, bench.sheet, state, holds=[hold for hold in task.proves if hold in asked])
        left = bool(found.joint) and found.status == "done" and word.order > last_of(task, bench)
        if not (found.said or left):
            continue
        since = when(datetime.fromisoformat(word.since))
        yield Reason(
            "in hand",
            task.title,
            f"left standing: {word.said} ({since})"
            if word.status == "paused"
            else f"begun {since}, and not said to be done",
            task.due_before,
            f"gudgeon record task-done {_named(task)}",
            "Finish it, and say that it is done.",
            "that it is done",
            about=f"entry:{word.entry}",
        )


def _away(bench: Bench) -> Iterator[Reason]:
    for part, one in bench.state.shop.items():
        if not one.back:
            why = f"at {one.shop} since {when(datetime.fromisoformat(one.out))}"
            typed = f"gudgeon record shop-back {part} --found …"
            how = "Fetch it, and measure it against the order yourself."
            yield Reason("away", part, why, "crank", typed, how, "what you measured", about=f"part:{part}")
