"""The setting that was read off a wrench's scale: once a stage, again after a pause or a change of wrench.

The list says what to set. What was set is a reading, and only a person can make it: nothing fills it in.
"""

from dataclasses import dataclass
from datetime import datetime, timedelta

from gudgeon.bench.context import Bench
from gudgeon.book.state import PullState
from gudgeon.errors import InputError

READ_KINDS = ("torque", "verify")
"""Kinds of stage that are pulled with a wrench that has a scale."""

PAUSE = timedelta(minutes=30)
"""A wrench that lay so long is read again; a shorter stop counts when it is written down as one."""


class SettingNotRead(InputError):
    """A pull with a torque wrench whose scale nobody has read for this stage."""

    def __init__(self, *, tool: str, stage: int, wanted: str, why: str) -> None:
        super().__init__(
            f"The scale of the {tool} has to be read for stage {stage}: {why}. The list asks for {wanted}. "
            "Look at the scale and say what it shows, with its unit (--setting)."
        )


@dataclass(frozen=True, slots=True)
class ScaleRead:
    """What a wrench was seen to be set to in this stage; `setting` is empty where it has to be read (again)."""

    tool: str
    setting: str
    why: str


def scale_read(bench: Bench, joint: str, *, stage: int, tool: str | None) -> ScaleRead:
    """The reading that the next pull of a stage may rest on, or why it has to be made.

    `tool` is the wrench that is named for the pull; without one it is that of the last pull of the stage.
    """
    state = bench.state.joints.get(joint)
    own = [pull for (number, _, _), pull in (state.pulls if state else {}).items() if number == stage]
    read = [pull for pull in own if pull.setting]
    if not read:
        return ScaleRead(tool or "", "", "nobody has said yet what it shows")
    last = max(read, key=lambda pull: pull.order)
    if tool and tool != last.tool:
        return ScaleRead(tool, "", "it is another wrench than before")
    stopped = state is not None and state.stopped_order > last.order
    if bench.state.paused is not None or stopped or _rested(bench, last):
        return ScaleRead(last.tool, "", "there was a pause since")
    if _set_for_another(bench, joint, stage=stage, last=last):
        return ScaleRead(last.tool, "", "it was used elsewhere since")
    return ScaleRead(last.tool, last.setting, "")


def _rested(bench: Bench, last: PullState) -> bool:
    return bench.now - datetime.fromisoformat(last.time) > PAUSE


def _set_for_another(bench: Bench, joint: str, *, stage: int, last: PullState) -> bool:
    """Whether the same wrench was set for another joint or another stage since."""
    return any(
        pull.order > last.order
        and pull.tool == last.tool
        and pull.setting
        and (key, number) != (joint, stage)
        for key, state in bench.state.joints.items()
        for (number, _, _), pull in state.pulls.items()
    )
