"""A card before the engine code was read: which bolts, in which order and what kind of stages, and no figure at all."""

from dataclasses import replace

from gudgeon.bench.bodies import joint as joint_of
from gudgeon.bench.context import Bench
from gudgeon.bench.on_paper.of_the_job import left_out_words
from gudgeon.bench.progress import Step, progress
from gudgeon.bench.pull_list import JointCard, Pull, StageLine, bolt_place
from gudgeon.bench.tools import Choice
from gudgeon.sheet.joints import Joint, Stage

LEFT_OUT = "figures are left out: the engine code comes first"
NO_TOOL = Choice(tool="", name="", setting="", exact="", rounding="", error="", note="", ways_out=())


def card_without_figures(bench: Bench, key: str) -> JointCard:
    """The card of a joint to be filled in by hand: its figures are locked, and nothing of it was done by this sheet.

    It holds places, order and the kinds of the stages; no torque, angle, limit, thread, setting or rule.
    """
    joint = joint_of(bench.sheet, key)
    steps = progress(joint, None).steps
    return JointCard(
        heading=bench.heading("What do I set?"), joint=key, name=joint.name, state=LEFT_OUT, thread="",
        thread_state="", numbered_from=joint.numbered_from or "", viewed_from=joint.viewed_from or "",
        before_work=(), cautions=joint.cautions, reuse="",
        stages=tuple(_stage(joint, number, stage, steps=steps) for number, stage in joint.stages()),
        pulls=tuple(_pull(step, total=len(steps)) for step in steps),
        next_pull=None, outcomes=(), look_first="", doubts=(), in_doubt="", source="", called=joint.called,
        free_order=joint.order == "free",
        places=tuple(replace(bolt_place(joint, name), thread="") for name in joint.sequence),
        sources=tuple(f"{one.title}, {one.edition}" for one in bench.sheet.sources.values()),
        figures_left_out=left_out_words(bench),
    )  # fmt: skip


def _stage(joint: Joint, number: int, stage: Stage, *, steps: tuple[Step, ...]) -> StageLine:
    total = sum(step.stage == number for step in steps)
    bolts = joint.stage_bolts(stage)
    return StageLine(number, len(joint.program), stage.kind, stage.kind, bolts, NO_TOOL, 0, total)


def _pull(step: Step, *, total: int) -> Pull:
    return Pull(
        step.number, total, step.stage, step.round, step.bolt, "", step.kind, "", "", "", "", "", "", "", "",
    )  # fmt: skip
