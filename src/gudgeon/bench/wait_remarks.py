"""What is to be said at once of a wait, a bead, a count, an odometer, a signature that was just written."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime, timedelta

from gudgeon.bench.after_heat import counts
from gudgeon.bench.context import Bench
from gudgeon.bench.counted import differences
from gudgeon.bench.progress import progress
from gudgeon.bench.reason import here
from gudgeon.bench.timers import sealing, waits
from gudgeon.book.entries import Entry
from gudgeon.book.fold_timers import CLOCKS_DIFFER
from gudgeon.book.state import State, Tally


def wait_remarks(bench: Bench, entry: Entry, after: State) -> tuple[str, ...]:
    """What follows from an entry for clocks and counts; `after` is what the book adds up to with it."""
    speak = {
        "sealant-laid": _sealant,
        "pull": _pull,
        "timer-started": _timer,
        "counted": _counted,
        "explained": _counted,
        "refitted": _refitted,
        "tightened-again": _again,
        "odometer-read": _odometer,
    }.get(entry.kind)
    said = tuple(speak(replace(bench, state=after), entry)) if speak is not None else ()
    return (*_hour(bench, entry), *said)


def _hour(bench: Bench, entry: Entry) -> Iterator[str]:
    """An hour before that of the last entry, which was there to be seen; a wait says it by itself."""
    last = bench.state.last_time
    if not last or entry.basis != bench.state.head or entry.kind in ("timer-started", "sealant-laid"):
        return
    shows, known = datetime.fromisoformat(entry.device_time), datetime.fromisoformat(last)
    if known - shows > CLOCKS_DIFFER:
        yield (
            f"The clock of this device shows {here(shows)}, and the last entry, which was there already, is of "
            f"{here(known)}. Which of the two is wrong? Waits count from the later one."
        )


def _sealant(bench: Bench, entry: Entry) -> Iterator[str]:
    body = entry.body
    yield from _behind(bench, entry, f"{body['timer']}_cure")
    for text in sealing(bench, body["joint"]):
        yield f"{text[:1].upper()}{text[1:]}."
    yield "The cure counts from when the joint is together, not from when the bead was laid: that is the later of both."
    missing = [name for name in ("open time", "cure") if name not in body["shown"]]
    if missing:
        flags = " and ".join(f"--{name.partition(' ')[0]}" for name in missing)
        yield (
            f"The sheet states no {' and no '.join(missing)} for it, and none is filled in. Read it off the tube and "
            f"record the bead again with {flags}, --why, and --ago in minutes; or write it into the sheet first."
        )


def _pull(bench: Bench, entry: Entry) -> Iterator[str]:
    yield from _late(bench, entry)
    yield from _too_soon(bench, entry)


def _too_soon(bench: Bench, entry: Entry) -> Iterator[str]:
    """A wait between two stages that is said to be over before its time; it counts from the last pull before it."""
    joint, number = bench.sheet.joints.get(entry.body["joint"]), entry.body["stage"]
    if joint is None or number > len(joint.program) or (wait := joint.program[number - 1].wait) is None:
        return
    pulls = bench.state.joints[entry.body["joint"]].pulls
    before = [pull for (stage, _, _), pull in pulls.items() if stage < number]
    if not before:
        return
    last = datetime.fromisoformat(max(before, key=lambda one: one.order).time)
    waited = (datetime.fromisoformat(entry.device_time) - last).total_seconds() / 60
    if waited < (wait.low_in("min") or 0):
        yield (
            f"The last pull before this wait is of {here(last)}, {max(0, waited):.0f} min ago, and the sheet waits "
            f"{wait.text}. Let the rest of it run before the next pull; it counts as you said it."
        )


def _late(bench: Bench, entry: Entry) -> Iterator[str]:
    """A joint is pulled although its bead has skinned."""
    for one in waits(bench):
        if one.joint == entry.body["joint"] and one.mark == "late":
            yield f"Stop. {one.name}: {one.words}."


def _timer(bench: Bench, entry: Entry) -> Iterator[str]:
    yield from tuple(_behind(bench, entry, entry.body["timer"])) or _ran_longer(bench, entry)
    if entry.body["kind"] == "bleed-down":
        yield f"It waits {entry.body['minutes']} min ({entry.body['why']})."
    if entry.body["kind"] == "cold morning":
        yield "It counts as long as nobody runs the engine; after a run it waits for another morning."


def _behind(bench: Bench, entry: Entry, key: str) -> Iterator[str]:
    """A clock that runs behind would have ended the wait too soon."""
    timer = bench.state.timers.get(key)
    if timer is not None and timer.entry == entry.id and timer.behind:
        showed, known = (here(datetime.fromisoformat(one)) for one in (entry.device_time, timer.behind))
        yield (
            f"The clock of this device showed {showed}, and the book has entries up to {known} that were seen before: "
            "set the clock. The wait counts from the later hour. If it was the clock of before that was wrong, end the "
            f"wait with the reason when it is over: gudgeon record timer-ended {key} --how …"
        )


def _ran_longer(bench: Bench, entry: Entry) -> Iterator[str]:
    """A wait that ran already and would have ended later than it does by the new entry."""
    key, minutes = entry.body["timer"], entry.body["minutes"]
    there = next((one for one in waits(bench) if one.key == key), None)
    if there is None or minutes is None or not (kept := bench.state.timers[key].ends):
        return
    said = datetime.fromisoformat(entry.device_time) + timedelta(minutes=minutes)
    # Less than that is what a clock makes that runs behind a little.
    if datetime.fromisoformat(kept) - said > CLOCKS_DIFFER:
        yield (
            f"{there.name} ran already, and starting it again makes no wait shorter: {there.words}. If it is over, say "
            f"why: gudgeon record timer-ended {key} --how …"
        )


def _counted(bench: Bench, entry: Entry) -> Iterator[str]:
    group = entry.body["group"]
    tally = bench.state.tallies.get(group, Tally())
    for one in differences(group, bench.state.counts.get(group), tally):
        if (
            entry.kind == "explained"
            or entry.body["when"] == "back"
            or tally.back is not None
            or "list" in one.why
        ):
            yield f"{one.why}. {one.how}"


def _refitted(bench: Bench, entry: Entry) -> Iterator[str]:
    there = bench.state.left_over.get(entry.body["item"])
    if there is not None:
        where = f", in bag {there.bag}" if there.bag else ""
        yield f"{there.off} of {there.of} are still off{where}: {there.name} stays on the list."


def _again(bench: Bench, entry: Entry) -> Iterator[str]:
    key = entry.body["joint"]
    joint = bench.sheet.joints[key]
    if joint.again_after is None:
        yield "The sheet does not ask for it."
    if not progress(joint, bench.state.joints.get(key)).complete:
        yield "The joint is not finished: what is tightened again comes after its last stage."
    elif counts(bench, key) is None:
        yield "It was pulled or slackened since: it does not count."


def _odometer(bench: Bench, entry: Entry) -> Iterator[str]:
    """A distance that is reached is said at once; one that cannot be is in doubt."""
    for doubtful, why in bench.state.doubtful:
        if doubtful == entry.id:
            yield f"Look: {why}. Strike the wrong one, or read it again."
    for one in waits(bench):
        if one.mark == "due" and one.kind == "recall":
            yield f"{one.name}: {one.words}."
