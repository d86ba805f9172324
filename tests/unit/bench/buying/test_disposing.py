"""What becomes of a part: what speaks for it, what was decided, and where the two differ. All figures invented."""

from pathlib import Path

import pytest

from gudgeon.bench.buying.model import Ground
from tests.unit.bench.benches import Job
from tests.unit.bench.buying.purchases import SHEET, asked, buying_job, line, part


@pytest.fixture
def job(tmp_path: Path) -> Job:
    return buying_job(tmp_path)


def journal(job: Job, place: str, value: str) -> None:
    job.record(
        "reading",
        item="journal",
        place=place,
        value=f"{value} mm",
        instrument="micrometer",
        condition="as found",
    )


def test_what_is_renewed_every_time_is_on_the_list_without_a_word(job: Job) -> None:
    answer = asked(job)
    gasket = part(answer, "Head gasket")
    assert (gasket.decision, gasket.proposal, gasket.asks) == ("", "renew", "")
    assert gasket.grounds == (Ground("renew", "the manual has it renewed every time", "manual p. 16"),)
    assert {one.name for one in answer.lines} == {"Head gasket", "Exhaust nuts"}


def test_a_decision_counts_and_what_speaks_against_it_is_told(job: Job) -> None:
    job.record("part-disposition", part="Head gasket", decision="reuse", why="looks new")
    answer = asked(job)
    assert [one.name for one in answer.lines] == ["Exhaust nuts"]
    assert part(answer, "Head gasket").differs == (
        "You decided: use it again. What speaks for “renew it”: the manual has it renewed every time (manual p. 16)"
    )


def test_a_part_is_one_whether_its_name_or_its_key_is_said(job: Job) -> None:
    job.record("part-disposition", part="piston rings", decision="reuse", why="good")
    job.record("part-disposition", part="rings", decision="renew", why="worn after all")
    assert part(asked(job), "Piston rings").decision == "renew"


def test_a_struck_decision_decides_nothing(job: Job) -> None:
    done = job.record("part-disposition", part="rings", decision="renew", why="worn")
    job.record("strike", entry=done.entry, why="the wrong part")
    assert part(asked(job), "Piston rings").decision == ""


def test_readings_inside_speak_for_using_it_again_and_outside_for_a_new_one(job: Job) -> None:
    sheet = job.book.parent / "sheet.yaml"
    sheet.write_text(
        SHEET.replace("    new_range: 29.980–29.993 mm\n", "    wear_limit: min 29.950 mm\n"),
        encoding="utf-8",
    )
    journal(job, "A", "29.985")
    journal(job, "B", "29.985")
    crank = part(asked(job), "Crankshaft")
    assert (crank.proposal, crank.grounds[0].words) == ("reuse", "2 readings inside")
    assert crank.asks == "proposed: use it again; decide"
    journal(job, "B", "29.900")
    crank = part(asked(job), "Crankshaft")
    assert crank.proposal == "renew"
    assert crank.grounds[0].words.startswith("Crank journal, B: 29.900 mm (1.1772 in) outside")
    assert crank.grounds[1].words == "1 reading inside"


def test_a_face_that_is_outside_is_for_the_shop_and_a_part_of_the_readings_has_a_line(tmp_path: Path) -> None:
    face = "    face: top\n"
    faces = "faces:\n  top: {name: Top, lines: {along: {along: lengthwise, length: 90 mm}, across: {along: crosswise, length: 70 mm}}, source: manual p. 4}\n"
    sheet = (
        SHEET.replace("    method: straightedge lines\n", f"    method: straightedge lines\n{face}") + faces
    )
    job = buying_job(tmp_path, sheet=sheet)
    job.record(
        "reading", item="head_face", place="along", low="0.10 mm", high="0.11 mm", instrument="feelers",
        condition="as found",
    )  # fmt: skip
    head = part(asked(job), "cylinder head")
    assert head.proposal == "rework"
    assert head.asks == "proposed: rework it; decide"


def test_nothing_speaks_where_no_rule_no_limit_and_no_age_does(job: Job) -> None:
    assert part(asked(job), "Piston rings").asks == (
        "no rule of the sheet, no limit and no age speaks for it: look at it, and decide"
    )
    assert [one for one in asked(job).may_come if one.startswith("Piston rings")] == [
        "Piston rings: no rule of the sheet, no limit and no age speaks for it: look at it, and decide"
    ]


def test_an_age_that_is_not_known_is_asked_for(job: Job) -> None:
    assert part(asked(job), "Fan belt").asks == (
        'renewed after 60000 km or 60 months: its distance and its age not in the book: gudgeon record age "Fan belt" '
        "--basis …"
    )


@pytest.mark.parametrize(
    ("age", "proposal", "words"),
    [
        ({"distance": "60000", "unit": "km", "months": 12}, "renew",
         "due: 60000 km (37300 mi) old, renewed after 60000 km (37300 mi)"),
        ({"distance": "10000", "unit": "km", "months": 61}, "renew", "due: 61 months old, renewed after 60 months"),
        ({"distance": "59999", "unit": "km", "months": 59}, "reuse",
         "not due yet: 59999 km (37300 mi) of 60000 km (37300 mi); 59 months of 60 months"),
        ({"distance": "37300", "unit": "mi", "months": 1}, "renew", "due: 60029 km (37300 mi) old, renewed after 60000 km (37300 mi)"),
    ],
)  # fmt: skip
def test_the_first_limit_that_is_reached_counts(
    job: Job, age: dict[str, object], proposal: str, words: str
) -> None:
    # HAND: 37300 mi · 1.609344 = 60028.5 km; 60000 km / 1.609344 = 37282 mi, to three figures 37300.
    job.record("part-age", part="belt", basis="service book", **age)
    found = part(asked(job), "Fan belt")
    assert (found.proposal, found.grounds[0].words, found.grounds[0].source) == (
        proposal,
        words,
        "manual p. 21",
    )


def test_an_age_in_one_unit_that_is_over_is_enough(job: Job) -> None:
    job.record("part-age", part="belt", months=70, basis="date on it")
    assert part(asked(job), "Fan belt").proposal == "renew"


def test_bolts_of_a_joint_that_are_always_new_are_bought_though_no_list_has_them(tmp_path: Path) -> None:
    joint = "    thread_state: engine oil on the threads\n"
    job = buying_job(tmp_path, sheet=SHEET.replace(joint, f"{joint}    reuse: {{rule: always new}}\n"))
    nuts = line(asked(job), "Head nuts")
    assert (nuts.quantity, nuts.one_time, nuts.source, nuts.to_order) == (4, True, "manual p. 9", 4)
    assert nuts.before.startswith("Bolts new or proved")


def test_fasteners_for_the_eye_are_counted(tmp_path: Path) -> None:
    joint = "    thread_state: engine oil on the threads\n"
    job = buying_job(tmp_path, sheet=SHEET.replace(joint, f"{joint}    reuse: {{rule: as found good}}\n"))
    assert asked(job).may_come[-1] == (
        "Fasteners that only the eye judges: Head nuts (4): look at thread, neck and bearing face"
    )


def test_a_new_bolt_in_hand_is_no_part_of_its_own(job: Job) -> None:
    job.record("part-disposition", joint="head", bolt="3", why="from the bag")
    assert "Head nuts, nut 3" not in {one.name for one in asked(job).parts}


def test_a_part_that_only_the_book_names_has_a_line(job: Job) -> None:
    job.record("part-disposition", part="Spark plug", decision="renew", why="worn")
    plug = line(asked(job), "Spark plug")
    assert (plug.quantity, plug.before.startswith("Measure compression for the record")) == (1, True)


def test_what_a_limit_has_renewed_every_time_is_on_the_list(tmp_path: Path) -> None:
    seal = "  seal:\n    name: Crank seal\n    part: Crank seal\n    limits: [{shape: replace always}]\n    source: manual p. 6\n"
    job = buying_job(tmp_path, sheet=SHEET.replace("joints:\n", f"{seal}joints:\n", 1))
    found = line(asked(job), "Crank seal")
    assert (found.one_time, found.state, found.source) == (True, "to order", "manual p. 6")
