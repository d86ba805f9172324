"""The card of a joint in the terminal: pattern of the bolts, stages, the pulls around the next one."""

import textwrap

from gudgeon.bench.pull_list import JointCard, Pull
from gudgeon.bench.recordable import OUTCOMES
from gudgeon.bench.stops import LookAt
from gudgeon.cli.pattern import drawn
from gudgeon.cli.show import clean, closing, heading, table, width


def show_card(answer: JointCard, *, start: int | None) -> None:
    """Print a joint card; the pull list begins at the next pull, or at the one asked for."""
    heading(answer.heading)
    print(f"{answer.name}: {answer.state}")
    facts = {
        "Thread": answer.thread,
        "State of the thread": answer.thread_state,
        "Using the bolts again": answer.reuse,
        **dict(answer.made_of),
        "These bolts are": answer.bolts_are,
        "Numbered from": answer.numbered_from,
        "Seen from": answer.viewed_from,
        "Source": answer.source,
    }
    for name, text in facts.items():
        if text:
            print(f"  {name}: {text}")
    for text in answer.before_work:
        print(textwrap.fill(f"  before: {text}", width=width(), subsequent_indent="    "))
    for text in answer.sealing:
        print(textwrap.fill(f"  ! {clean(text)}", width=width(), subsequent_indent="    "))
    for text in answer.cautions:
        print(textwrap.fill(f"  ! caution: {text}", width=width(), subsequent_indent="    "))
    print()
    _pattern(answer)
    _stages(answer)
    if answer.next_words:
        print(textwrap.fill(f"! next: {answer.next_words}", width=width(), subsequent_indent="  "))
    for one in answer.refused:
        text = f"! no next pull, not now: {one.why}. {one.way_out}."
        print(textwrap.fill(text, width=width(), subsequent_indent="  "))
    look = f"Look first, because {answer.look.why}. " if answer.look is not None else ""
    for text in (answer.provisional, look + answer.look_first):
        if text:
            print(textwrap.fill(f"! {text}", width=width(), subsequent_indent="  "))
    for text in answer.doubts:
        print(f"! in doubt: {text}")
    if answer.doubts:
        print(textwrap.fill(f"! {answer.in_doubt}", width=width(), subsequent_indent="  "))
    print()
    _pulls(answer, start)
    closing(answer.heading)


def _pattern(answer: JointCard) -> None:
    awaited = 0 if answer.go_on_when or answer.look else answer.next_pull
    following = next((one.bolt for one in answer.pulls if one.number == awaited), "")
    lines = drawn(answer.places, following=following, width=min(width() - 4, 76))
    if lines:
        print("\n".join(f"  {line}".rstrip() for line in lines))
        said = [
            f"seen from {answer.viewed_from}" if answer.viewed_from else "",
            "[ ] is the next one" if following else "",
        ]
        seen = "; ".join(filter(None, said))
        print(textwrap.fill(f"  {seen}\n", width=width(), subsequent_indent="  "), end="\n\n")


def _stages(answer: JointCard) -> None:
    table(
        ("stage", "what", "with", "set on its scale", "exactly", "tool may be off by", "done"),
        [
            (
                f"{one.stage} of {one.of}",
                f"{one.words}; {one.stop}" if one.stop else one.words,
                one.tool.name or "NO WRENCH OF YOURS",
                f"{one.tool.setting} with {one.tool.through}" if one.tool.through else one.tool.setting,
                one.tool.exact,
                one.tool.error,
                f"{one.done}/{one.total}",
            )
            for one in answer.stages
        ],
    )
    said = {text: None for one in answer.stages for text in (one.tool.note, one.tool.rounding) if text}
    for text in said:
        print(f"  {text}")
    for one in answer.stages:
        if one.tool.ways_out:
            print(f"  ways out for stage {one.stage}:")
            for way in one.tool.ways_out:
                print(textwrap.fill(f"    - {way}", width=width(), subsequent_indent="      "))
    print(f"  order of stage 1: {' '.join(answer.stages[0].bolts)}\n")


def _pulls(answer: JointCard, start: int | None) -> None:
    first = min(start or answer.next_pull or 1, len(answer.pulls))
    shown = [pull for pull in answer.pulls if first - 2 <= pull.number < first + 12]
    for datum in answer.datums:
        print(textwrap.fill(f"  mark: {datum.words}", width=width(), subsequent_indent="    "))
    if answer.datums:
        print()
    heads = ("pull", "stage", "bolt", "where", "do", "set", "mark, since the line", "leaves", "state")
    table(heads, [_pull(pull) for pull in shown])
    last = shown[-1].number if shown else 0
    if last < len(answer.pulls):
        print(
            f"  … to pull {len(answer.pulls)}; go on with: "
            f"gudgeon tighten {answer.joint}{_option(answer)} --from {last + 1}"
        )
    if answer.look is not None:
        _look(answer.look)
        return
    for pull in shown:
        if pull.number == answer.next_pull:
            print(f"Pull {pull.number} is done when {pull.done_when}.")
    _record(answer)


def _look(look: LookAt) -> None:
    """No pull is called the next one before the last one was looked at."""
    typed = f"gudgeon record looked {look.number} --seen 'WHAT YOU SAW' --as-recorded yes|no"
    print(textwrap.fill(f"Before the next pull: look at {look.bolt}, then: {typed}", width=width()))


def _option(answer: JointCard) -> str:
    return " --loosening" if answer.program == "loosening" else ""


def _record(answer: JointCard) -> None:
    """How the next pull is written down; what its wrench is set to is read, and said once a stage."""
    if answer.next_pull is None:
        return
    outcomes = "|".join(typed for typed, outcome in OUTCOMES.items() if outcome in answer.outcomes)
    what = "loosened" if answer.program == "loosening" else "pull"
    typed = f"gudgeon record {what} {answer.joint} {outcomes}"
    if answer.scale is not None and answer.scale.setting:
        print(
            f"Its wrench{_through(answer)} was read to be set to {answer.scale.setting}; "
            "look again after a pause or a change of wrench."
        )
    elif answer.scale is not None:
        typed += " --setting 'WHAT ITS SCALE SHOWS'"
    when = f"When it is so that {answer.go_on_when}, record" if answer.go_on_when else "Record"
    print(f"{when} pull {answer.next_pull}: {typed}")


def _through(answer: JointCard) -> str:
    """The adapter of the next pull, said wherever its wrench is."""
    through = next((pull.through for pull in answer.pulls if pull.number == answer.next_pull), "")
    return f" with {through}," if through else ""


def _pull(pull: Pull) -> tuple[str, ...]:
    words = f"{pull.action}; {pull.turned_before} → {pull.turned_after}" if pull.turned_after else pull.action
    state = pull.state.upper() if pull.state == "next" else pull.state
    return (
        f"{pull.number}/{pull.total}",
        str(pull.stage),
        pull.bolt,
        pull.where,
        words,
        pull.set_to,
        f"{pull.mark} ({pull.flats})" if pull.flats else pull.mark,
        pull.leaves,
        state,
    )
