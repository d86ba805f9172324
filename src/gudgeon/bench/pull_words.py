"""A stage and a pull in words: what is done in it, when it is done, what to look at after a stop."""

import re

from gudgeon.bench.marks import clock, dots
from gudgeon.bench.progress import Progress
from gudgeon.bench.same import same_figure
from gudgeon.book.state import PullState
from gudgeon.sheet.joints import Joint, Stage


def stage_words(stage: Stage, *, figure: str = "", of_pass: int = 0, backwards: bool = True) -> str:
    """A stage in words: `torque to 25 N·m`, `turn by 90° ± 5°`, `loosen fully, reversed order`.

    `figure` stands for that of the sheet where a pull was done to another, `of_pass` names one pass of several, and
    without `backwards` it is not said that loosening goes backwards by itself.
    """
    figure = figure or (stage.figure.text if stage.figure is not None else "")
    words = {
        "hand-run": "run in to contact",
        "draw down": f"draw down by {figure} a pass, every bolt before the next pass, until seated",
        "torque": f"torque to {figure}",
        "turn": f"turn by {figure}",
        "loosen": "loosen fully" if stage.loosen == "fully" else f"loosen by {figure}",
        "verify": f"verify with {figure}: the bolt must not move",
        "stretch": f"tighten to a stretch of {figure}",
        "wait": f"wait {figure}",
    }[stage.kind]
    if stage.kind == "loosen" and stage.order is None:
        words += ", in reversed order" if backwards else ""
    elif stage.order in ("reversed", "free"):
        words += f", {stage.order} order"
    if stage.only:
        words += f", only bolts {', '.join(stage.only)}"
    if stage.repeat > 1:
        words += f", pass {of_pass} of {stage.repeat}" if of_pass else f", {stage.repeat} passes"
    return words + (f" ({stage.note})" if stage.note else "")


def done_when(stage: Stage) -> str:
    """What has to be so before a pull of this stage counts as done."""
    if stage.kind == "loosen" and stage.loosen != "fully":
        return "it has turned back so far"
    return _DONE_WHEN[stage.kind]


_DONE_WHEN = {
    "hand-run": "it turns freely by hand and touches",
    "draw down": "it has turned so far, or the part is seated",
    "torque": "the wrench clicks or shows it while the bolt turns",
    "turn": "the paint mark has reached its place",
    "loosen": "it is loose",
    "verify": "the wrench clicks and the bolt has not moved",
    "stretch": "the measured length has grown by it",
    "wait": "the time has run out",
}


def look_first(joint: Joint, found: Progress) -> str:
    """After a stop the last recorded pull is verified by looking, never by pulling again."""
    return "" if found.complete else look_at_last(joint, found)


def look_at_last(joint: Joint, found: Progress) -> str:
    """What has to be seen of the last recorded pull, whether others come after it or not."""
    last = found.last
    if last is None or last.pull is None:
        return ""
    where = joint.bolt(last.bolt).where
    place = f"{bolt_words(joint, last.bolt)} ({where})" if where else bolt_words(joint, last.bolt)
    said = f"Last recorded: {place}, stage {last.stage} of {len(joint.program)}, {last.pull.outcome}"
    again = "do not pull it again. If you cannot see it, record it as doubtful."
    if last.pull.outcome == "stopped at":
        reached = last.turn_before + float(last.pull.angle_deg or 0)
        return f"{said} {last.pull.angle_deg}°. Look whether its mark stands at {clock(reached)}; go on from there."
    if last.pull.outcome == "clicked at once" and not last.done:
        return (
            f"{said}: the wrench moved nothing. The {joint.called} was at this torque already, or it binds: "
            "slacken it and pull it again, or record it as doubtful."
        )
    if last.pull.outcome == "doubtful":
        return f"{said}: {last.pull.why}."
    if last.kind == "turn":
        return f"{said}. Look whether its mark stands at {clock(last.turn_after)}; {again}"
    if last.kind in ("torque", "verify", "draw down"):
        return f"{said}. Look whether it carries {dots(last)}; {again}"
    return f"{said}. Look at it before you go on."


def set_otherwise(pull: PullState) -> bool:
    """Whether the wrench of a pull was set to something else than the list asked for."""
    wanted = pull.asked or pull.target
    return bool(pull.setting and wanted) and not same_figure(pull.setting, now=wanted, kind="torque")


def as_called(joint: Joint, words: str) -> str:
    """Our own words about a bolt, with what the sheet calls it: `the nut must not move`."""
    return words if joint.called == "bolt" else re.sub(r"\bbolt(s?)\b", rf"{joint.called}\1", words)


def bolt_words(joint: Joint, name: str) -> str:
    """`bolt 4`, `nut 2`; a single fastener is only called what it is."""
    return name if name in (joint.called, "all") else f"{joint.called} {name}"
