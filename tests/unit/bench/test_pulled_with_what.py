"""No wrench of the kit fits: a pull that does not say what it was made with is kept, asked about, and in doubt."""

from pathlib import Path

import pytest

from gudgeon.bench.pull_list import card
from tests.unit.bench.benches import KIT, Job, make_job, said_pull
from tests.unit.sheet.sheets import SMALL


@pytest.fixture
def job(tmp_path: Path) -> Job:
    """A joint whose next stage is above every scale."""
    made = make_job(tmp_path, sheet=SMALL.replace("torque: 10 N·m", "torque: 300 N·m"), kit=KIT)
    made.read_code()
    for bolt in "1324":
        made.pull(1, bolt)
    return made


def test_it_is_kept_asked_about_and_in_doubt(job: Job) -> None:
    kept = said_pull(job)
    entry = job.bench().state.joints["head"].pulls[(2, 1, "1")]
    assert entry.entry == kept.entry
    assert kept.remarks[0] == (
        "Nothing says with what it was pulled: none of your wrenches does 300 N·m. Strike it "
        f"(gudgeon strike {entry.order} --why …) and record it again with --tool and --setting, or with --why."
    )
    answer = card(job.bench(), "head")
    assert answer.doubts == ("bolt 1, stage 2: nothing says with what it was pulled",)
    assert answer.next_pull is None


@pytest.mark.parametrize(
    "said",
    [
        {"why": "a spring scale at 500 mm, 600 N"},
        {"tool": "half", "setting": "200 N·m"},
        {"setting": "300 N·m"},
    ],
)
def test_who_says_it_is_asked_nothing(job: Job, said: dict[str, str]) -> None:
    kept = said_pull(job, **said)
    assert not any("Nothing says" in remark for remark in kept.remarks)
    assert not any("nothing says" in doubt for doubt in card(job.bench(), "head").doubts)


def test_once_said_it_serves_the_stage(job: Job) -> None:
    said_pull(job, why="a borrowed wrench, set to 300 N·m")
    for _ in range(3):
        assert said_pull(job).remarks == ()
    assert card(job.bench(), "head").doubts == ()


def test_what_is_said_later_does_not_serve_what_went_before(job: Job) -> None:
    said_pull(job)
    said_pull(job, stage=2, bolt="3", why="a borrowed wrench, set to 300 N·m")
    assert card(job.bench(), "head").doubts == ("bolt 1, stage 2: nothing says with what it was pulled",)
