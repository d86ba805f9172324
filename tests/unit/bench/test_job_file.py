"""A job written by hand: what is refused, where, and in which words."""

from typing import Any

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
         "due_before, engine_has, gate, in_one_go, joint, makes, minutes, no_timer, on_the_bench, proves, shop, title, "
         "two_people, wait, without."),
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


def test_what_is_done_in_one_go_says_so_and_what_warns_of_late_hours_is_not_for_them() -> None:
    plain = read_job(JOB, file="job.yaml")["tasks"]
    assert [(one["in_one_go"], one["not_late"]) for one in plain] == [(False, False)] * 3
    late = changed("cautions: [hot]", "in_one_go: yes\n        cautions: [hot, late]")
    late = late.replace(
        "cautions:\n", "cautions:\n  late: {text: Not at night., basis: common practice}\n", 1
    )
    read = read_job(late, file="job.yaml")["tasks"]
    assert [(one["in_one_go"], one["not_late"]) for one in read] == [
        (False, False),
        (True, True),
        (False, False),
    ]


def test_a_clock_runs_to_the_later_end_of_a_range_an_estimate_is_its_middle() -> None:
    for word, minutes in (("time", 20), ("about", 15)):  # HAND: 10 to 20
        read = read_job(
            changed(FIVE, f"minutes: 5, wait: {{{word}: 10–20 min, for: paint}}"), file="job.yaml"
        )
        assert read["tasks"][0]["wait"] == [minutes, "paint", word == "time"]


BASE = f"""\
gudgeon: job 1
name: Base
cautions:
  hot: {{text: Let it cool., basis: common practice}}
phases:
  - phase: Look
    due_before: crank
    tasks:
      read_code: {{title: Read the code, minutes: 5, proves: [right_engine]}}
      look_in: {{title: Look in, minutes: 10, after: [read_code], cautions: [hot]}}
      open_it: {{title: Open it, minutes: 10, after: [look_in], proves: [timing_as_found]}}
  - phase: Work
    due_before: fire
    tasks:
      belt_back: {{title: Belt back, minutes: 10, after: [open_it], after_hold: [timing_as_found], makes: {{belt: on}}}}
      prove_all:
        title: Prove everything
        after: [belt_back]
        minutes: 10
        proves: [{", ".join(one for one in all_holds() if one not in ("right_engine", "timing_as_found"))}]
"""

SMALLER = """\
gudgeon: job 1
name: Smaller
based_on: base
leave_out: [look_in]
changes:
  open_it: {minutes: 20}
phases:
  - phase: Then
    behind: Look
    due_before: drive
    tasks:
      sweep_up: {title: Sweep up, minutes: 5, after: [open_it], cautions: [hot]}
  - phase: Look
    due_before: crank
    tasks:
      look_twice: {title: Look twice, minutes: 5, after: [read_code]}
"""


def smaller(text: str = SMALLER, **more: str) -> dict[str, Any]:
    return read_job(text, file="smaller.yaml", bases={"base": BASE, **more})


def refused(old: str, new: str, **more: str) -> str:
    assert SMALLER.count(old) == 1
    with pytest.raises(FileRefused) as caught:
        smaller(SMALLER.replace(old, new), **more)
    return caught.value.message


def test_a_job_takes_over_changes_leaves_out_and_adds() -> None:
    read = smaller()
    assert (read["name"], read["whole"], read["engine_has"]) == ("Smaller", False, [])
    # HAND: `look_in` hands its `after` on; what is new in a phase comes at its end, the new phase behind the one it names.
    assert [(one["key"], one["after"], one["minutes"], one["phase"]) for one in read["tasks"][:5]] == [
        ("read_code", [], 5, "Look"),
        ("open_it", ["read_code"], 20, "Look"),
        ("look_twice", ["read_code"], 5, "Look"),
        ("sweep_up", ["open_it"], 5, "Then"),
        ("belt_back", ["open_it"], 10, "Work"),
    ]
    assert read["tasks"][3]["due_before"] == "drive"
    assert read["tasks"][3]["cautions"] == [["Let it cool.", "common practice"]], (
        "cautions are taken over as well"
    )


def test_a_job_with_nothing_left_out_is_a_whole_one_and_one_with_another_under_it_takes_both() -> None:
    assert smaller(SMALLER.replace("leave_out: [look_in]\n", ""))["whole"] is True
    third = "gudgeon: job 1\nname: Third\nbased_on: smaller\nengine_has: [shims]\n"
    read = read_job(third, file="third.yaml", bases={"base": BASE, "smaller": SMALLER})
    assert len(read["tasks"]) == 6
    assert (read["whole"], read["engine_has"]) == (False, ["shims"])


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("based_on: base", "based_on: bass",
         "smaller.yaml, line 3, column 11: `bass` is not a known job here. Did you mean `base`?"),
        ("based_on: base", "based_on: smaller",
         "smaller.yaml, line 3, column 11: These jobs are based on each other without an end: `smaller` on `smaller`. "
         "Take one `based_on` out."),
        ("leave_out: [look_in]", "leave_out: [look_in, look_on]",
         "smaller.yaml, line 4, column 22: `look_on` is not a known task of the job that this is based on here. "
         "Did you mean `look_in`?"),
        ("  open_it:", "  open_if:",
         "smaller.yaml, line 6, column 3: `open_if` is not a known task of the job that this is based on here. "
         "Did you mean `open_it`?"),
        ("  open_it:", "  look_in:",
         "smaller.yaml, line 6, column 3: `look_in` is left out, so nothing of it can be changed. Take it out of one of "
         "the two."),
        ("{minutes: 20}", "{after: [look_in]}",
         "smaller.yaml, line 6, column 21: `look_in` is not a known task here. Did you mean `look_twice`?"),
        ("{minutes: 20}", "{after: [sweep_up]}",
         "smaller.yaml, line 6, column 20: These tasks wait for each other, so none can begin: "
         "open_it after sweep_up after open_it. Take one `after` out."),
        ("{minutes: 20}", "{minutes: 0}",
         "smaller.yaml, line 6, column 22: Only what the machine shop does takes no minutes of hands. "
         "Write how long it takes."),
        ("{minutes: 20}", "{proves: []}",
         "smaller.yaml, line 3, column 11: “Belt back” asks for the hold `timing_as_found`, and no task of this job "
         "proves it. Take in the task in which it is seen, or change `after_hold`."),
        ("minutes: 5, after: [read_code]}", "minutes: 5, after: [read_cod]}",
         "smaller.yaml, line 16, column 59: `read_cod` is not a known task here. Did you mean `read_code`?"),
        ("behind: Look", "behind: Lock",
         "smaller.yaml, line 9, column 13: `Lock` is not a known phase here. Did you mean `Look`?"),
        ("look_twice:", "open_it:",
         "smaller.yaml, line 16, column 7: `open_it` is a task of the job that this is based on. Say under `changes` "
         "what is otherwise, or give it another name."),
        ("look_twice:", "sweep_up:",
         "smaller.yaml, line 16, column 7: `sweep_up` is here a second time; the first is on line 12. "
         "Give it another name."),
        ("name: Smaller\n", "name: Smaller\nengine_has: [timing bell]\n",
         "smaller.yaml, line 3, column 14: `timing bell` is not a known feature of an engine here. Did you mean `timing belt`?"),
        ("title: Look twice", "title: Open it",
         "smaller.yaml, line 16, column 27: `open_it` has this title already. Say what is different about this one."),
    ],
)  # fmt: skip
def test_what_is_refused_of_a_job_based_on_another_is_named_with_its_place(
    old: str, new: str, said: str
) -> None:
    assert refused(old, new) == said


def test_jobs_in_a_circle_are_told_round_about() -> None:
    round_about = SMALLER.replace("based_on: base", "based_on: smaller").replace(
        "name: Smaller", "name: Other"
    )
    with pytest.raises(FileRefused) as caught:
        read_job(SMALLER.replace("based_on: base", "based_on: other"), file="smaller.yaml",
                 bases={"smaller": SMALLER, "other": round_about})  # fmt: skip
    assert caught.value.message == (
        "other.yaml, line 3, column 11: These jobs are based on each other without an end: `smaller` on `other` on "
        "`smaller`. Take one `based_on` out."
    )


def holds_refused(old: str, new: str) -> dict[str, str]:
    """What is refused for want of a proof: the hold, and what the job does that asks for it."""
    with pytest.raises(FileRefused) as caught:
        smaller(SMALLER.replace(old, new))
    found = {}
    for one in caught.value.problems:
        start, rest = one.message.split(", and no task of it proves the hold `")
        found[rest.split("`")[0]] = start
        assert (one.place.line, one.place.column) == (3, 11)
        assert rest.endswith("`. Take in the task in which it is seen, or leave out what touches it.")
    return found


def test_a_smaller_job_proves_what_it_moves_and_tightens_and_no_more() -> None:
    """HAND: by the holds, what rests on the belt is its pin and the timing; a joint is asked by its own hold."""
    without = "leave_out: [look_in, prove_all]"
    moved = {"tensioner_pin_out": "This job moves the belt", "timing_proved": "This job moves the belt"}
    assert holds_refused("leave_out: [look_in]", without) == moved
    pulls = "leave_out: [look_in, prove_all, belt_back]"
    read = smaller(SMALLER.replace("leave_out: [look_in]", pulls))
    assert [one["key"] for one in read["tasks"]] == ["read_code", "open_it", "look_twice", "sweep_up"]
    both = SMALLER.replace("leave_out: [look_in]", pulls).replace(
        "title: Sweep up,", "title: Sweep up, joint: crank pulley,"
    )
    with pytest.raises(FileRefused) as caught:
        smaller(both)
    assert [one.message for one in caught.value.problems] == [
        "This job tightens the crank pulley, and no task of it proves the hold `crank_pulley_final`. Take in the task in "
        "which it is seen, or leave out what touches it."
    ]


def test_the_code_is_read_in_any_job_and_an_opened_bottom_end_is_proved_in_full() -> None:
    assert holds_refused("  open_it: {minutes: 20}", "  read_code: {proves: []}") == {
        "right_engine": "This job is done on an engine"
    }
    one_of_them = SMALLER.replace(
        "leave_out: [look_in]", "leave_out: [look_in, prove_all, belt_back]"
    ).replace("title: Sweep up,", "title: Sweep up, proves: [ring_gaps],")
    with pytest.raises(FileRefused) as caught:
        smaller(one_of_them)
    asked = {one.message.split("`")[1] for one in caught.value.problems}
    assert asked == {key for key, hold in all_holds().items() if hold.opened == "bottom end"} - {"ring_gaps"}
    assert len(asked) == 16
    whole = JOB.replace(
        ", ".join(all_holds()), ", ".join(key for key, one in all_holds().items() if not one.opened)
    )
    assert read_job(whole, file="job.yaml")["whole"], (
        "a job that leaves the bottom end shut is asked for none of them"
    )
