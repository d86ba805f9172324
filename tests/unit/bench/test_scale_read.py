"""The setting is read off the scale by a person: once a stage, again after a pause or a change of wrench."""

from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest

from gudgeon.bench.acts import pull_fields
from gudgeon.bench.context import open_bench
from gudgeon.bench.pull_list import card
from gudgeon.bench.record import record
from gudgeon.bench.scale_read import SettingNotRead
from tests.unit.bench.benches import KIT, PULL, Job, make_job

SMALL_WRENCH = "  small: {name: quarter-inch click wrench, kind: click, range: 4–20 N·m, step: 0.5 N·m, deviation: 4 %}\n"


@pytest.fixture
def job(tmp_path: Path) -> Job:
    """A joint whose first torque stage comes next."""
    made = make_job(tmp_path, kit=KIT.replace("  beam:", f"{SMALL_WRENCH}  beam:"))
    made.read_code()
    for bolt in "1324":
        made.pull(1, bolt)
    return made


def pull(job: Job, outcome: str = "clicked", **said: Any) -> dict[str, Any]:
    """The next pull as a person says it; what goes into the book of it."""
    job.now += timedelta(minutes=1)
    bench = open_bench(job.book, now=job.now)
    try:
        fields = pull_fields(bench, {**PULL, **said, "outcome": outcome})
        record(bench, "pull", fields)
    finally:
        bench.store.close()
    return fields


def refused(job: Job, **said: Any) -> str:
    with pytest.raises(SettingNotRead) as caught:
        pull(job, **said)
    return str(caught.value)


def test_nothing_fills_in_what_nobody_read(job: Job) -> None:
    assert refused(job) == (
        "The scale of the quarter-inch click wrench has to be read for stage 2: nobody has said yet what it shows. "
        "The list asks for 10.0 N·m. Look at the scale and say what it shows, with its unit (--setting)."
    )


def test_read_once_it_serves_the_stage_and_not_the_next(job: Job) -> None:
    first = pull(job, setting="10 N·m")
    assert (first["tool"], first["setting"], first["asked"]) == ("small", "10 N·m", "10.0 N·m")
    for _ in range(3):
        assert pull(job)["setting"] == "10 N·m"
    assert "for stage 3: nobody has said yet" in refused(job)


def test_read_again_after_a_pause(job: Job) -> None:
    pull(job, setting="10 N·m")
    job.record("paused", hand="the wrench", next_action="nut 3")
    assert "there was a pause since" in refused(job)
    pull(job, setting="10 N·m")
    assert pull(job)["setting"] == "10 N·m"
    job.now += timedelta(minutes=40)
    assert "there was a pause since" in refused(job)


def test_read_again_after_a_change_of_wrench(job: Job) -> None:
    pull(job, setting="10 N·m")
    said = refused(job, tool="three")
    assert (
        "The scale of the three-eighths click wrench has to be read for stage 2: it is another wrench" in said
    )
    assert "The list asks for 10 N·m" in said
    changed = pull(job, tool="three", setting="10.5 N·m")
    assert (changed["tool"], changed["asked"]) == ("three", "")
    # He goes on with the wrench in his hand.
    assert (pull(job)["tool"], pull(job)["setting"]) == ("three", "10.5 N·m")


def test_read_again_when_the_wrench_was_set_for_another_stage(job: Job) -> None:
    pull(job, setting="10 N·m")
    job.pull(3, "4", "clicked while turning", tool="small", setting="18 N·m")
    assert card(job.bench(), "head").doubts
    job.record("strike", entry=job.bench().state.joints["head"].pulls[(3, 1, "4")].entry, why="wrong stage")
    assert pull(job)["setting"] == "10 N·m"


def test_a_doubtful_pull_is_never_held_up(job: Job) -> None:
    kept = pull(job, outcome="doubtful", why="it creaked")
    assert kept["setting"] == ""


def test_a_turn_takes_no_reading(job: Job) -> None:
    for _ in range(4):
        pull(job, setting="10 N·m")
    for _ in range(4):
        pull(job, setting="24 N·m")
    assert pull(job, outcome="angle-reached")["setting"] == ""


def test_the_card_says_whether_it_has_to_be_read(job: Job) -> None:
    before = card(job.bench(), "head").scale
    assert before is not None
    assert (before.setting, before.why) == ("", "nobody has said yet what it shows")
    pull(job, setting="10 N·m")
    after = card(job.bench(), "head").scale
    assert after is not None
    assert (after.tool, after.setting) == ("small", "10 N·m")


def test_what_the_list_asked_for_is_kept_with_the_pull(job: Job) -> None:
    """An adapter lowers the setting: what the list asked for is right, although the stage says more."""
    job.pull(2, "1", "clicked while turning", tool="three", setting="8.0 N·m", asked="8.0 N·m")
    assert card(job.bench(), "head").doubts == ()
    job.pull(2, "3", "clicked while turning", tool="three", setting="6.0 N·m", asked="8.0 N·m")
    assert card(job.bench(), "head").doubts == (
        "bolt 3, stage 2: the wrench was set to 6.0 N·m, the stage asks for 10 N·m",
    )
