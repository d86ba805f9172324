"""The whole bench set of a job: the cards, the measuring sheets, what is counted, the open lists, the hold points."""

from dataclasses import dataclass

from gudgeon.bench.answer import Heading
from gudgeon.bench.context import Bench
from gudgeon.bench.network import job_of
from gudgeon.bench.on_paper.counts_sheet import ListsAndCounts, lists_and_counts
from gudgeon.bench.on_paper.hold_points import HoldPoints, hold_points
from gudgeon.bench.on_paper.measuring_sheets import MeasuringSheets, measuring_sheets
from gudgeon.bench.on_paper.of_the_job import joints_of_job, left_out_words
from gudgeon.bench.on_paper.without_figures import card_without_figures
from gudgeon.bench.pull_list import JointCard, card


@dataclass(frozen=True, slots=True)
class WholeSet:
    """Everything that hangs and lies at the engine for a job; `locked` says why it holds no figure.

    `cautions` are those of the data sheet, `codes` what the engine code may be, `not_in_job` the joints that the job
    leaves alone. `code_as_read` is the code that the book has, with where and when it was read; empty before.
    """

    heading: Heading
    job: str
    codes: tuple[str, ...]
    code_is_read: str
    check_with_engine: tuple[str, ...]
    cautions: tuple[str, ...]
    cards: tuple[JointCard, ...]
    measuring: MeasuringSheets
    lists: ListsAndCounts
    holds: HoldPoints
    not_in_job: tuple[str, ...]
    locked: str
    code_as_read: str = ""
    code_read_from: str = ""
    code_read_on: str = ""


def whole_set(bench: Bench) -> WholeSet:
    """The set for the job that was chosen; before the engine code was read it is complete, and without a figure."""
    own, others = joints_of_job(bench)
    ask = card if bench.locked is None else card_without_figures
    engine, read = bench.sheet.engine, bench.state.identity
    return WholeSet(
        bench.heading("The bench set"), job_of(bench.state).name, tuple(engine.codes), engine.code_is_read,
        tuple(engine.check_with_engine), tuple(f"{one.text} ({one.basis})" for one in bench.sheet.cautions),
        tuple(ask(bench, key) for key in own), measuring_sheets(bench), lists_and_counts(bench), hold_points(bench),
        others, left_out_words(bench),
        read.code if read is not None else "", read.read_from if read is not None else "",
        read.time if read is not None else "",
    )  # fmt: skip
