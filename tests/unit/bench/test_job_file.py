"""A job written by hand: what is refused, where, and in which words."""

import pytest

from gudgeon.bench.holds import all_holds
from gudgeon.bench.job_file import read_job
from gudgeon.written.errors import DuplicateKey, FileRefused

JOB = f"""\
gudgeon: job 1
name: Small
cautions:
  hot: {{text: Let it cool., basis: common practice}}
phases:
  - phase: Look
    due_before: crank
    tasks:
      read_code: {{title: Read the code, minutes: 5}}
      look_in:
        title: Look in
        after: [read_code]
        minutes: 10
        cautions: [hot]
      prove_all:
        title: Prove everything
        after: [look_in]
        minutes: 10
        proves: [{", ".join(all_holds())}]
"""

FIVE = "minutes: 5"


def changed(old: str, new: str) -> str:
    assert JOB.count(old) == 1
    return JOB.replace(old, new)


def refusal(old: str, new: str) -> str:
    with pytest.raises(FileRefused) as caught:
        read_job(changed(old, new), file="job.yaml")
    return caught.value.message


def test_the_job_of_these_tests_is_a_good_one() -> None:
    read = read_job(JOB, file="job.yaml")
    assert [task["key"] for task in read["tasks"]] == ["read_code", "look_in", "prove_all"]
    assert read["tasks"][1]["cautions"] == [["Let it cool.", "common practice"]]
    assert read["tasks"][1]["due_before"] == "crank", "a task is due when its phase is"


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("after: [read_code]", "after: [prove_all]",
         "job.yaml, line 12, column 16: These tasks wait for each other, so none can begin: "
         "look_in after prove_all after look_in. Take one `after` out."),
        ("after: [look_in]", "after: [look_in, prove_all]",
         "job.yaml, line 17, column 16: These tasks wait for each other, so none can begin: "
         "prove_all after prove_all. Take one `after` out."),
        ("after: [read_code]", "after: [read_cod]",
         "job.yaml, line 12, column 17: `read_cod` is not a known task here. Did you mean `read_code`?"),
        (", next_morning]", "]",
         "job.yaml, line 5, column 1: No task proves the hold `next_morning` for every engine. "
         "Add `proves: [next_morning]` to the task in which it is seen."),
        (FIVE, "minutes: 5, after_hold: [sealants_cured]",
         "job.yaml, line 9, column 66: `sealants_cured` is proved only in `prove_all`, which comes after this task. "
         "It could never begin."),
        (FIVE, "minutes: 5, engine_has: [timing bell]",
         "job.yaml, line 9, column 66: `timing bell` is not a known feature of an engine here. "
         "Did you mean `timing belt`?"),
        (FIVE, "minutes: 5, joint: cylinder hat",
         "job.yaml, line 9, column 60: `cylinder hat` is not a known role of a joint here. "
         "Did you mean `cylinder head`?"),
        (FIVE, "minutes: 5, after_hold: [timing_prove]",
         "job.yaml, line 9, column 66: `timing_prove` is not a known hold here. Did you mean `timing_proved`?"),
        (FIVE, "minutes: 5, proves: [sealants_curd]",
         "job.yaml, line 9, column 62: `sealants_curd` is not a known hold here. Did you mean `sealants_cured`?"),
        ("cautions: [hot]", "cautions: [cold]",
         "job.yaml, line 14, column 20: `cold` is not a known caution of this file here. Known here: hot."),
        (FIVE, "minutes: 5, without: {shim: {minutes: 4}}",
         "job.yaml, line 9, column 63: `shim` is not a known feature of an engine here. Did you mean `shims`?"),
        (FIVE, "minutes: 5, without: {shims: {cautions: [cold]}}",
         "job.yaml, line 9, column 82: `cold` is not a known caution of this file here. Known here: hot."),
        ("title: Look in", "title: read the CODE",
         "job.yaml, line 11, column 16: `read_code` has this title already. Say what is different about this one."),
        (FIVE, "minutes: 5, without: {shims: {title: Prove everything}}",
         "job.yaml, line 16, column 16: `read_code` has this title already. Say what is different about this one."),
        ("title: Read the code", "title: ''",
         "job.yaml, line 9, column 26: title: Text was expected, nothing was found. "
         "Write it, or take the line out: what is not stated is a gap."),
        ("title: Read the code, ", "",
         "job.yaml, line 9, column 18: `title` is missing here. Write it with its value."),
        (FIVE, "minutes: 0",
         "job.yaml, line 9, column 50: Only what the machine shop does takes no minutes of hands. "
         "Write how long it takes."),
        (FIVE, "minutes: five",
         "job.yaml, line 9, column 50: minutes: A whole number was expected, `five` was found."),
        (FIVE, "minutes: -1",
         "job.yaml, line 9, column 50: minutes: `-1` is out of range: input should be greater than or equal to 0."),
        (FIVE, "minutes: 5, without: {shims: {minutes: 0}}",
         "job.yaml, line 9, column 80: minutes: `0` is out of range: input should be greater than or equal to 1."),
        (FIVE, "minutes: 5, wait: {for: paint}",
         "job.yaml, line 9, column 59: A wait has either a `time` (a clock that runs) or an `about` (an estimate). "
         "Write one of them."),
        (FIVE, "minutes: 5, wait: {time: 5 min, about: 5 min, for: paint}",
         "job.yaml, line 9, column 59: A wait has either a `time` (a clock that runs) or an `about` (an estimate). "
         "Write one of them."),
        (FIVE, "minutes: 5, wait: {time: max 5 min, for: paint}",
         "job.yaml, line 9, column 66: `max 5 min` is no length of a wait. "
         "Write how many minutes or hours, like `30 min`."),
        (FIVE, "minutes: 5, wait: {about: 0 h, for: paint}",
         "job.yaml, line 9, column 67: `0 h` is no length of a wait. "
         "Write how many minutes or hours, like `30 min`."),
        (FIVE, "minutes: 5, wait: {time: 5 N·m, for: paint}",
         "job.yaml, line 9, column 66: time: `N·m` is a unit of torque, not of time. Write one of: s, min, h, d."),
        (FIVE, "minutes: 5, two_people: maybe",
         "job.yaml, line 9, column 65: two_people: Write yes or no; `maybe` was found."),
        (FIVE, "minutes: 5, gate: lunch",
         "job.yaml, line 9, column 59: gate: `lunch` is not one of: 'crank', 'fire', 'drive' or 'handover'."),
        (FIVE, "minutes: 5, shop: {part: head, when: gone}",
         "job.yaml, line 9, column 78: when: `gone` is not one of: 'sent' or 'back'."),
        ("due_before: crank", "due_before: lunch",
         "job.yaml, line 7, column 17: due_before: `lunch` is not one of: 'crank', 'fire', 'drive' or 'handover'."),
        (FIVE, "minutes: 5, tools: [hammer]",
         "job.yaml, line 9, column 53: `tools` is not a known key here. Known here: acts, after, after_hold, cautions, "
         "due_before, engine_has, gate, joint, makes, minutes, no_timer, on_the_bench, proves, shop, title, two_people, "
         "wait, without."),
        ("      look_in:\n", "      Look-in:\n",
         "job.yaml, line 10, column 7: `Look-in`: a key has small letters, digits and _ only."),
        ("gudgeon: job 1", "gudgeon: job 2", "job.yaml, line 1, column 10: gudgeon: `job 2` is not one of: 'job 1'."),
    ],
)  # fmt: skip
def test_what_is_refused_is_named_with_its_place_and_nothing_else_is(old: str, new: str, said: str) -> None:
    assert refusal(old, new) == said


def test_a_key_twice_is_refused_in_one_phase_and_across_phases() -> None:
    with pytest.raises(DuplicateKey) as caught:
        read_job(changed("      look_in:\n", "      read_code:\n"), file="job.yaml")
    assert str(caught.value) == (
        "job.yaml, line 10, column 7: `read_code` is here a second time; the first is on line 9. Keep one."
    )
    again = (
        "  - phase: Then\n    due_before: fire\n    tasks:\n      look_in: {title: Look again, minutes: 5}\n"
    )
    assert refusal("      prove_all:\n", f"{again}      prove_all:\n") == (
        "job.yaml, line 18, column 7: `look_in` is here a second time; the first is on line 10. Give it another name."
    )


def test_everything_that_is_wrong_is_said_at_once_in_the_order_of_the_file() -> None:
    text = JOB.replace("after: [look_in]", "after: [look_at]").replace("cautions: [hot]", "cautions: [cold]")
    with pytest.raises(FileRefused) as caught:
        read_job(text, file="job.yaml")
    assert [problem.place.line for problem in caught.value.problems] == [14, 17]


def test_a_hold_needs_a_task_on_every_engine_that_has_it() -> None:
    only_shims = changed("title: Prove everything", "title: Prove everything\n        engine_has: [shims]")
    with pytest.raises(FileRefused) as caught:
        read_job(only_shims, file="job.yaml")
    unproved = {problem.message.split("`")[1] for problem in caught.value.problems}
    assert unproved == {key for key, hold in all_holds().items() if "shims" not in hold.needs}


def test_a_clock_runs_to_the_later_end_of_a_range_an_estimate_is_its_middle() -> None:
    for word, minutes in (("time", 20), ("about", 15)):  # HAND: 10 to 20
        read = read_job(
            changed(FIVE, f"minutes: 5, wait: {{{word}: 10–20 min, for: paint}}"), file="job.yaml"
        )
        assert read["tasks"][0]["wait"] == [minutes, "paint", word == "time"]
