"""What do I do now? What is in hand, what may be begun, what runs by itself, what waits, what is blocked by what."""

from dataclasses import dataclass
from datetime import datetime

from gudgeon.bench.against_gates import not_inspected
from gudgeon.bench.answer import Heading
from gudgeon.bench.context import Bench, entries_of
from gudgeon.bench.doing import engine_words
from gudgeon.bench.entries import entry_words, item_names
from gudgeon.bench.holds import standings
from gudgeon.bench.network import tasks_of
from gudgeon.bench.progress import progress
from gudgeon.bench.provisional import provisional
from gudgeon.bench.pull_list import card
from gudgeon.bench.pull_words import bolt_words
from gudgeon.bench.reason import when
from gudgeon.bench.resting import not_standing_under
from gudgeon.bench.standing import Network, Stand
from gudgeon.bench.stops import LookAt, Stop, last_before, look_due, stop
from gudgeon.bench.timers import waits
from gudgeon.sheet.joints import Joint


@dataclass(frozen=True, slots=True)
class Timer:
    """A wait that the book knows: what it is, when it ends or what is wrong with it, and the work that waits for it."""

    name: str
    state: str
    due_before: str
    mark: str
    task: str


@dataclass(frozen=True, slots=True)
class Blocked:
    """Something that has to wait, and for what."""

    what: str
    by: str


@dataclass(frozen=True, slots=True)
class TaskLine:
    """One task of the job: what it is, how it stands and why, and what has to lie on the bench for it.

    `taken` says that no entry speaks of it: it is taken as done because a later task was begun.
    """

    task: str
    title: str
    phase: str
    minutes: int
    wait: str
    needs: tuple[str, ...]
    two_people: bool
    holds: tuple[str, ...]
    cautions: tuple[str, ...]
    state: str
    why: str
    since: str
    joint: str
    taken: bool
    place: int


@dataclass(frozen=True, slots=True)
class Now:
    """The answer to “What do I do now?”."""

    heading: Heading
    stopped: str
    in_hand: str
    look_first: str
    next: tuple[str, ...]
    next_joint: str
    running: tuple[TaskLine, ...]
    ready: tuple[TaskLine, ...]
    waiting: tuple[TaskLine, ...]
    blocked: tuple[TaskLine, ...]
    finished: tuple[TaskLine, ...]
    done: int
    taken: int
    total: int
    order: str
    phases: tuple[str, ...]
    timers: tuple[Timer, ...]
    counts: dict[str, int]
    open: dict[str, tuple[str, ...]]
    held: tuple[Blocked, ...]
    stop: Stop | None = None
    look: LookAt | None = None
    engine: tuple[str, ...] = ()
    not_inspected: tuple[str, ...] = ()


LOOKED = "gudgeon record looked {number} --seen 'WHAT YOU SAW' --as-recorded yes"

ORDER = "First what most work and waiting hangs on, up to the handover."


def now(bench: Bench) -> Now:
    """What the book says is next, running, ready, waiting and blocked."""
    state = bench.state
    paused = state.paused
    lists = {
        "provisional": provisional(bench),
        "left in": state.left_in,
        "plugged": state.plugged,
        "left over": state.left_over,
    }
    following, look_first, joint = _next(bench)
    look = look_due(bench, joint) if joint and bench.locked is None else None
    look_first = look_first or _softly(bench)
    stopped = ""
    if paused is not None:
        stopped = f"{when(datetime.fromisoformat(paused.time))}. You wanted to: {paused.next_action}"
    tasks = _tasks(bench)
    finished = tasks["done"]
    every = sorted((one for found in tasks.values() for one in found), key=lambda one: one.place)
    return Now(
        heading=bench.heading("What do I do now?"),
        stopped=stopped,
        in_hand=paused.hand if paused is not None else "",
        look_first=look_first,
        next=following,
        next_joint=joint,
        running=tasks["running"],
        ready=tasks["ready"],
        waiting=tasks["waiting"],
        blocked=tasks["blocked"],
        finished=finished,
        done=sum(not one.taken for one in finished),
        taken=sum(one.taken for one in finished),
        total=len(every),
        order=ORDER,
        phases=tuple(dict.fromkeys(one.phase for one in every)),
        timers=_timers(bench),
        counts={name: len(items) for name, items in lists.items()},
        open={name: tuple(item.name for item in items.values()) for name, items in lists.items()},
        held=_held(bench),
        engine=engine_words(state.engine),
        not_inspected=tuple(
            f"{one.what}: {one.why}. {one.how} Then: {one.close_with}" for one in not_inspected(bench)
        ),
        stop=stop(bench),
        look=look,
    )


def _softly(bench: Bench) -> str:
    """After a stop at no joint: what was recorded last, to be looked at before going on."""
    last = last_before(bench)
    if last is None:
        return ""
    names = item_names(entries_of(bench))
    return (
        f"Last in the book before you stopped: {entry_words(bench, last, names=names)}. Look whether it is so; "
        f"if you like, write it down: gudgeon record looked {last.number} --seen TEXT --as-recorded yes"
    )


def _tasks(bench: Bench) -> dict[str, tuple[TaskLine, ...]]:
    """The tasks of this engine by how they stand; what may be begun first what most hangs on."""
    network = Network(bench, tasks_of(bench.sheet, bench.state))
    stands = [network.stand(key) for key in network.tasks]
    by_state: dict[str, list[Stand]] = {
        name: [] for name in ("running", "ready", "waiting", "blocked", "done")
    }
    for one in stands:
        by_state[one.where].append(one)
    by_state["ready"].sort(key=lambda one: -one.ahead)
    by_state["blocked"].sort(key=lambda one: one.far)
    names = {key: found.hold.name for key, found in network.holds.items()}
    places = {key: number for number, key in enumerate(network.tasks, start=1)}
    return {
        name: tuple(_line(one, names, place=places[one.task.key]) for one in found)
        for name, found in by_state.items()
    }


def _line(stand: Stand, holds: dict[str, str], *, place: int) -> TaskLine:
    task = stand.task
    return TaskLine(
        task=task.key,
        title=task.title,
        phase=task.phase,
        minutes=task.minutes,
        wait=f"{task.wait.what}, {_length(task.wait.minutes)}" if task.wait is not None else "",
        needs=task.needs,
        two_people=task.two_people,
        holds=tuple(holds[hold] for hold in task.proves if hold in holds),
        cautions=tuple(f"{one.text} ({one.basis})" for one in task.cautions),
        state=stand.where,
        why=stand.why,
        since=when(stand.since) if stand.since is not None else "",
        joint=stand.joint,
        taken=stand.taken,
        place=place,
    )


def _length(minutes: int) -> str:
    """A length of time as a person says it."""
    if minutes < 120:
        return f"{minutes} min"
    hours = minutes / 60
    return f"{hours:.0f} h" if hours < 72 else f"{hours / 24:.0f} days"


def _next(bench: Bench) -> tuple[tuple[str, ...], str, str]:
    """The next pull of the joint that was begun, else the mark that is missing, else the first that can be proved."""
    if bench.locked is not None:
        return (" ".join(bench.locked.message.split()),), "", ""
    stopped = bench.state.paused.joint if bench.state.paused is not None else ""
    unmarked = []
    for key in sorted(bench.sheet.joints, key=lambda key: key != stopped):
        joint = bench.sheet.joints[key]
        found = progress(joint, bench.state.joints.get(key))
        if found.complete and not found.marked:
            unmarked.append(key)
            if key == stopped:
                break
        if found.taken_apart:
            counted = (
                f"{joint.name}: being taken apart, {found.let_go} of {found.to_let_go} steps done. Not tight"
            )
            return (counted, f"Its list: gudgeon tighten {key} --loosening"), "", key
        if not (found.started or found.doubts) or found.complete or found.halted:
            continue
        shown = card(bench, key)
        step = next((pull for pull in shown.pulls if pull.number == shown.next_pull), None)
        if found.doubts or step is None:
            doubt = f"{joint.name}: in doubt. {'; '.join(found.doubts)}. {shown.in_doubt}"
            return (doubt,), shown.look_first, key
        if shown.look is not None:
            return _look(joint, shown.look), shown.look_first, key
        where = f" ({step.where})" if step.where else ""
        setting = f", set {step.setting}" if step.setting else ""
        text = (
            f"{joint.name}: pull {step.number} of {step.total}, stage {step.stage} of {len(joint.program)}, "
            f"{bolt_words(joint, step.bolt)}{where}: {step.action}, with {step.tool}{setting}"
        )
        return (text, f"The whole list: gudgeon tighten {key}"), shown.look_first, key
    if unmarked:
        return _to_mark(bench, unmarked[0])
    return (_to_prove(bench),), "", ""


def _to_prove(bench: Bench) -> str:
    """The first proof that is missing, or what has to be done before it can be given."""
    one = next((one for one in standings(bench.sheet, bench.state) if not one.stands), None)
    if one is None:
        return "Nothing is open. Ask: gudgeon ready --for crank"
    under = not_standing_under(one.hold, bench.sheet, bench.state)
    if under:
        return f"{under[0].name}: {under[0].why}. {under[0].command}, for the proof “{one.hold.name}”"
    return f"{one.hold.name}: {one.hold.ask} Then: gudgeon record hold {one.hold.id} VALUE ({one.hold.value})"


def _look(joint: Joint, look: LookAt) -> tuple[str, str]:
    """After a stop: what is looked at, and how that is written down."""
    words = f"{joint.name}: first look at {look.bolt}, because {look.why}"
    return words, f"Then: {LOOKED.format(number=look.number)}"


def _to_mark(bench: Bench, key: str) -> tuple[tuple[str, ...], str, str]:
    """A joint of which every pull is in the book, and no mark."""
    joint, look = bench.sheet.joints[key], look_due(bench, key)
    pulls = len(progress(joint, bench.state.joints.get(key)).steps)
    counted = "its one pull is" if pulls == 1 else f"all {pulls} pulls are"
    mark = (
        f"{joint.name}: {counted} in the book, and it is not marked. Pull nothing again; look at every "
        f"{joint.called}. Then: gudgeon record marked {key} --how MARKS"
    )
    if look is None:
        return (mark,), "", key
    return (*_look(joint, look), mark), look.words, key


def _timers(bench: Bench) -> tuple[Timer, ...]:
    titles = {one.key: one.title for one in tasks_of(bench.sheet, bench.state)}
    return tuple(
        Timer(one.name, one.words, one.due_before, one.mark, titles.get(one.task, one.task))
        for one in waits(bench)
    )


def _held(bench: Bench) -> tuple[Blocked, ...]:
    """Proofs that wait for another proof."""
    found = {one.hold.id: one for one in standings(bench.sheet, bench.state)}
    lines = []
    for one in found.values():
        by = [
            found[other].hold.name
            for other in one.hold.rests_on
            if other in found and not found[other].stands
        ]
        if not one.stands and by:
            lines.append(Blocked(one.hold.name, "; ".join(by)))
    return tuple(lines)
