"""The questions, answered in the terminal."""

from argparse import Namespace
from typing import TYPE_CHECKING

from gudgeon.bench.context import Bench, open_bench
from gudgeon.cli.show import as_json, book_path, closing, heading, point, table

if TYPE_CHECKING:
    from gudgeon.bench.now import Now, TaskLine

YES, NO, ACCEPTED = 0, 1, 3


def bench_of(chosen: Namespace) -> Bench:
    """The bench that the arguments name; the command line lets go of its book when the command is done."""
    bench = open_bench(book_path(chosen.book), build=chosen.build)
    chosen.done = bench.store.close
    return bench


def now(chosen: Namespace) -> int:
    """Answer “What do I do now?”."""
    from gudgeon.bench.now import now as ask

    answer = ask(bench_of(chosen))
    if chosen.json:
        return as_json(answer)
    heading(answer.heading)
    if answer.stopped:
        point(f"You stopped on {answer.stopped}", mark="!")
    if answer.in_hand:
        point(f"In your hand: {answer.in_hand}", mark="!")
    if answer.stop is not None:
        point(f"Back to where you stopped: {answer.stop.command}", mark="!")
    if answer.look_first:
        point(answer.look_first, mark="!")
    for text in answer.not_inspected:
        point(f"Against a gate, not inspected: {text}", mark="!")
    print("Next")
    for text in answer.next:
        point(text)
    _tasks(answer, whole=chosen.all)
    if answer.timers:
        print("\nRunning by itself")
        for timer in answer.timers:
            mark = "-" if timer.mark in ("running", "over") else "!"
            point(
                f"{timer.name}: {timer.state} (due before {timer.due_before}; for “{timer.task}”)", mark=mark
            )
    if answer.engine:
        print("\nThe engine, as the book knows it")
        point("; ".join(answer.engine))
    print("\nOpen")
    for name, count in answer.counts.items():
        shown = ", ".join(answer.open[name][:4]) + (" …" if count > 4 else "")
        point(f"{name}: {count}" + (f" ({shown})" if count else ""))
    closing(answer.heading)
    return 0


SHOWN = 6
"""How many tasks of a kind are listed before the rest is counted."""


def _tasks(answer: "Now", *, whole: bool) -> None:
    """The job: what is in hand, what may be begun, what waits, what is blocked; or every task by its phase."""
    if whole:
        _whole_job(answer)
        return
    for name, tasks in (
        ("In hand", answer.running),
        ("May be begun", answer.ready),
        ("Waiting", answer.waiting),
        ("Blocked", answer.blocked),
    ):
        if tasks:
            print(f"\n{name}")
        for one in tasks[:SHOWN]:
            point(_task_words(one))
        if len(tasks) > SHOWN:
            point(f"and {len(tasks) - SHOWN} more: gudgeon now --all")
    missing = [one for one in answer.finished if "its proof is missing" in one.why and not one.taken]
    for one in missing:
        point(f"{one.title}: {one.why}", mark="!")
    guessed = f" {answer.taken} more are taken as done, because later work was begun." if answer.taken else ""
    print(
        f"\nThe job: {answer.done} of {answer.total} tasks done by the book.{guessed} All: gudgeon now --all"
    )


def _whole_job(answer: "Now") -> None:
    tasks = [*answer.finished, *answer.running, *answer.ready, *answer.waiting, *answer.blocked]
    words = {"running": "in hand", "ready": "may be begun"}
    for phase in answer.phases:
        print(f"\n{phase}")
        for one in sorted((one for one in tasks if one.phase == phase), key=lambda one: one.place):
            state = "taken as done" if one.taken else words.get(one.state, one.state)
            why = "" if one.taken or not one.why else f" ({one.why})"
            point(f"{state}: {one.title}{why}")


def _task_words(one: "TaskLine") -> str:
    """A task in a line: its title, how long it takes, why it stands so, what has to lie on the bench."""
    hands = f", {one.minutes} min" if one.minutes and one.state == "ready" else ""
    why = f": {one.why}" if one.why else ""
    two = "two people; " if one.two_people else ""
    bench = f" [{two}{', '.join(one.needs)}]" if one.state == "ready" and (one.needs or two) else ""
    return f"{one.title}{hands}{why}{bench}"


def judge(chosen: Namespace) -> int:
    """Answer “Is it good?”."""
    from gudgeon.bench.good import inspect

    bench = bench_of(chosen)
    answer = inspect(bench, only=chosen.what)
    if chosen.picture is not None:
        from gudgeon.cli.picture import write_picture

        write_picture(chosen, bench)
    code = NO if "outside" in answer.counts else YES
    if chosen.json:
        as_json(answer)
        return code
    from gudgeon.cli.judging import show_inspection

    show_inspection(answer)
    return code


def tighten(chosen: Namespace) -> int:
    """Answer “What do I set?”."""
    from gudgeon.bench.pull_list import all_joints, card, loosening_card

    bench = bench_of(chosen)
    if chosen.joint is None:
        listed = all_joints(bench)
        if chosen.json:
            return as_json(listed)
        heading(listed.heading)
        table(
            ("joint", "name", "state", "pulls", "tools", "what is missing"),
            [
                (one.joint, one.name, one.state, f"{one.done}/{one.total}", one.tools, one.missing)
                for one in listed.joints
            ],
        )
        print("\nOne of them: gudgeon tighten JOINT")
        closing(listed.heading)
        return 0
    if chosen.loosening:
        answer = loosening_card(bench, chosen.joint)
    else:
        answer = card(bench, chosen.joint, bolts_are=chosen.bolts_are)
    if chosen.json:
        return as_json(answer)
    from gudgeon.cli.joint_card import show_card

    show_card(answer, start=chosen.start)
    return 0


def ready(chosen: Namespace) -> int:
    """Answer “May I start it?”."""
    from gudgeon.bench.ready import ready as ask

    answer = ask(bench_of(chosen), milestone=chosen.milestone)
    code = NO if answer.reasons else ACCEPTED if answer.accepted else YES
    if chosen.json:
        as_json(answer)
        return code
    heading(answer.heading)
    print(f"May I {answer.milestone_words}?  {answer.answer.upper()}")
    if answer.reasons:
        count = len(answer.reasons)
        print(f"{count} {'thing is' if count == 1 else 'things are'} open before it:\n")
        table(
            ("", "what", "why", "closed with"),
            [(one.family, one.what, one.why, one.close_with) for one in answer.reasons],
        )
        print("\nWhat a named person answers for: gudgeon record override WHAT --by NAME --why …")
    for text in answer.accepted:
        point(text, mark="accepted:")
    for text in answer.earlier:
        point(text, mark="let pass earlier:")
    for text in answer.aside:
        point(text, mark="not counted:")
    for text in answer.signed:
        point(text, mark="signed:")
    if answer.later:
        print("\nDue later:")
        for one in answer.later:
            point(f"{one.what} (before {one.due_before}): {one.why}")
    print("\nCautions before you do it:")
    for text in answer.cautions:
        point(text, mark="!")
    closing(answer.heading)
    return code


def open_lists(chosen: Namespace) -> int:
    """The four open lists."""
    from gudgeon.bench.open_lists import open_lists as ask

    answer = ask(bench_of(chosen))
    if chosen.json:
        return as_json(answer)
    heading(answer.heading)
    for one in answer.lists:
        print(f"{one.name}: {len(one.items)}  ({one.meaning})")
        if one.items:
            table(
                ("item", "what", "place", "why", "since", "due before"),
                [(item.item, item.name, item.where, item.why, item.since, item.due) for item in one.items],
            )
        print()
    for count in answer.counts:
        counted = [
            f"{number} counted {words}"
            for number, words in ((count.counted_off, "off"), (count.counted_back, "back"))
            if number is not None
        ]
        point(", ".join([f"{count.group}s: {count.off} off, {count.on} back on", *counted]))
        for text in count.differs:
            point(text, mark="  !")
        for text in count.explained:
            point(f"explained, {text}", mark="  ")
    closing(answer.heading)
    return 0
