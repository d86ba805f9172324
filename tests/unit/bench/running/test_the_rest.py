"""Leak-down, oil pressure, coolant and what comes due later. Figures by hand, or of the published rows, in comments."""

from pathlib import Path

import pytest

from gudgeon.bench.running.answers import LeakLine, Running
from gudgeon.bench.running.errors import LeftInMissing
from gudgeon.bench.running.question import running
from gudgeon.calc.input_errors import InputRefused
from gudgeon.errors import InputError
from tests.unit.bench.benches import Job
from tests.unit.bench.running.engines import ENGINE, engine, read


def asked(job: Job) -> Running:
    return running(job.bench())


def leaks(job: Job) -> tuple[LeakLine, ...]:
    return asked(job).leak_down.lines


def test_a_leak_has_its_share_its_hole_and_the_other_tester(tmp_path: Path) -> None:
    # Rows L03 and L08 (HAND): 75 of 80 psi is 6.25 %, 0.709 mm, 78.97 psi on 0.060 in; 50 of 80 is 37.5 %, 1.195 mm.
    job = engine(tmp_path)
    read(job, "leak", "75", "50", "72", "78", unit="psi")
    first, second = leaks(job)[:2]
    assert (first.lost, first.hole) == ("6.2 %", "0.71 mm (0.0279 in)")
    assert first.on_other == "544 kPa (79.0 psi), 1.3 % lost"
    assert first.verdict == "good (common practice)"
    assert (second.lost, second.hole, second.verdict) == (
        "37.5 %", "1.20 mm (0.0471 in)", "to be repaired (common practice)",
    )  # fmt: skip


def test_the_words_are_of_the_usual_orifice(tmp_path: Path) -> None:
    # 72.24 of 80 psi on 0.060 in (row L08) is 9.7 %, and 37.5 % on the usual 0.040 in.
    job = engine(tmp_path, sheet=ENGINE.replace("orifice: 0.040 in", "orifice: 0.060 in"))
    read(job, "leak", "72.24", "79", "79", "79", unit="psi")
    first = leaks(job)[0]
    assert (first.lost, first.hole) == ("9.7 %", "1.20 mm (0.0471 in)")
    assert first.on_other == "345 kPa (50.0 psi), 37.5 % lost"
    assert first.verdict == "to be repaired (common practice)"
    assert asked(job).leak_down.notes[-1] == (
        "For this bore the usual orifice is 1.016 mm (0.0400 in) for bores below 127 mm (5.000 in) (AC 43.13-1B:change 1, "
        "paragraph 8-14, orifice of a differential pressure tester); yours differs."
    )


def test_a_large_bore_has_the_larger_orifice(tmp_path: Path) -> None:
    # AC 43.13-1B, paragraph 8-14: 0.060 in from a bore of 5.00 in
    sheet = ENGINE.replace("bore: 86.0 mm", "bore: 127.0 mm").replace(
        "orifice: 0.040 in", "orifice: 0.060 in"
    )
    found = asked(engine(tmp_path, sheet=sheet)).leak_down
    assert not [text for text in found.notes if "yours differs" in text]
    assert found.other_orifice == "1.016 mm (0.0400 in)"


def test_a_tester_that_shows_percent(tmp_path: Path) -> None:
    sheet = ENGINE.replace(
        "    name: Leak-down\n    part: cylinder block\n    quantity: pressure_gauge\n",
        "    name: Leak-down\n    part: cylinder block\n    quantity: ratio\n",
    )
    job = engine(tmp_path, sheet=sheet)
    read(job, "leak", "10.0", "12", "12", "12", unit="%", gauge="")
    # As row L04: 10 % of 80 psi lost is 72 psi in the cylinder, a hole of 0.803 mm (0.03163 in).
    assert (leaks(job)[0].lost, leaks(job)[0].hole) == ("10.0 %", "0.80 mm (0.0316 in)")


def test_without_the_orifice_nothing_is_told_of_a_hole(tmp_path: Path) -> None:
    job = engine(tmp_path, sheet=ENGINE.replace("  orifice: 0.040 in\n", ""))
    read(job, "leak", "75", "74", "76", "75", unit="psi")
    answer = asked(job)
    first = answer.leak_down.lines[0]
    assert (first.lost, first.hole, first.on_other) == ("6.2 %", "", "")
    assert first.verdict == "not judged: the orifice is not known"
    assert (
        "the orifice of the leak-down tester: a share lost says nothing by itself, and no hole can be told from it. "
        "Write after_start.orifice (line 52 of the data sheet). Measure it with a drill shank; usual is 1.016 mm "
        "(0.0400 in) for bores below 127 mm (5.000 in) (AC 43.13-1B:change 1, paragraph 8-14, orifice of a differential "
        "pressure tester)."
    ) in [str(one) for one in answer.missing]


def test_more_in_the_cylinder_than_before_the_orifice_is_refused_beside_the_others(tmp_path: Path) -> None:
    job = engine(tmp_path)
    read(job, "leak", "85", "75", "76", "75", unit="psi")
    first, second = leaks(job)[:2]
    assert first.verdict == (
        "Cylinder pressure 586.054 kPa is above the supply of 551.581 kPa: behind the orifice there is never more. "
        "Exchange them, or set the regulator anew with the hose closed."
    )
    assert second.hole == "0.71 mm (0.0279 in)"


@pytest.mark.parametrize(("value", "verdict"), [("1.6", "inside"), ("0.7", "outside"), ("1.0", "in doubt")])
def test_oil_pressure_against_the_sheet(tmp_path: Path, value: str, verdict: str) -> None:
    # Least 1.0 bar; a gauge of ± 0.1 bar decides 0.6 and 0.3 bar away, and not at the limit.
    job = engine(tmp_path)
    read(job, "oil_idle", value, gauge="oil")
    (line,) = asked(job).oil.lines
    assert (line.at, line.least, line.verdict) == ("850 r/min, oil 90 °C", "min 1.0 bar", verdict)


def test_the_stop_rule_is_that_of_the_sheet_where_it_has_one(tmp_path: Path) -> None:
    assert asked(engine(tmp_path)).oil.stop == (
        "Stop at once when no oil pressure shows within 10 seconds of the start (common practice, weak sources, agreeing "
        "with one another); the manual overrules it."
    )
    other = tmp_path / "other"
    other.mkdir()
    own = "cautions:\n  - {text: No oil pressure after five seconds means stop., at: [first start], basis: manual p. 2}\n"
    assert asked(engine(other, sheet=ENGINE + own)).oil.stop == (
        "No oil pressure after five seconds means stop. (manual p. 2)"
    )


def test_the_mix_for_the_cold_of_the_sheet(tmp_path: Path) -> None:
    # ASHRAE by volume (rows F06EG to F08EG): −24.8 at 40 %, −30.54 °C at 45 %: between them −30 is at 44.6 % (the
    # library CoolProp, solved for −30 °C, has 44.56 %). 8.5 L: 3.79 L of concentrate, 4.71 L of water.
    mix = asked(engine(tmp_path)).coolant
    assert mix is not None
    assert (mix.share, mix.drain, mix.concentrate, mix.water) == (
        "45 % concentrate by volume", "", "3.79 L (4.00 US qt)", "4.71 L (4.98 US qt)",
    )  # fmt: skip
    assert mix.half_and_half == "half and half by volume freezes at -37 °C (-35 °F) with ethylene glycol"
    assert mix.bleed == ("heater on hot", "screw open")
    assert mix.cap_test == "cold, at 1.1 bar: no drop in 15 to 30 minutes (common practice)"


def test_what_is_left_in_the_system_is_counted(tmp_path: Path) -> None:
    # 8.5 L at 44.56 % hold 3.788 L of glycol; 2 L at 30 % have 0.6 of it: 3.19 L, and 6.5 − 3.188 = 3.31 L of water.
    mix = running(engine(tmp_path).bench(), left_in="2 L", glycol_in_it="30 %").coolant
    assert mix is not None
    assert mix.left_in == "2 L with 30 % glycol"
    assert (mix.concentrate, mix.water) == ("3.19 L (3.37 US qt)", "3.31 L (3.50 US qt)")


def test_a_full_system_is_drained_first(tmp_path: Path) -> None:
    # (0.4456 − 0.33) / (1 − 0.33) · 8.5 = 1.47 L (HAND, as row F16)
    mix = running(engine(tmp_path).bench(), left_in="8.5 L", glycol_in_it="33 %").coolant
    assert mix is not None
    assert (mix.drain, mix.concentrate, mix.water) == (
        "1.47 L (1.55 US qt)", "1.47 L (1.55 US qt)", "0.00 L (0.00 US qt)",
    )  # fmt: skip


@pytest.mark.parametrize(
    ("left_in", "glycol", "words"),
    [
        ("2 apples", "", "coolant still in it: `apples` is not a known unit of volume. Known: "),
        ("2 L", "half", "glycol in it: `half` "),
        ("9 L", "", "What is in it, 9 L is more than the 8.5 L that the system holds."),
        ("2 L", "130 %", "Share now 130 % cannot be: it is 0 to 100 %."),
    ],
)
def test_what_cannot_be_in_the_system_is_refused(
    tmp_path: Path, left_in: str, glycol: str, words: str
) -> None:
    bench = engine(tmp_path).bench()
    with pytest.raises(InputError) as caught:
        running(bench, left_in=left_in, glycol_in_it=glycol)
    assert str(caught.value).startswith(words)
    assert isinstance(caught.value, InputRefused) == words.startswith(("coolant", "glycol"))


def test_a_mild_cold_still_takes_what_guards_against_corrosion(tmp_path: Path) -> None:
    # −10 °C asks for some 22 % (ASHRAE: −8.98 at 20 %, −12.12 at 25 %); TM 5-3805-254-14&P-2: 33 % at least.
    mix = asked(engine(tmp_path, sheet=ENGINE.replace("-30 °C", "-10 °C"))).coolant
    assert mix is not None
    assert mix.share == "33 % concentrate by volume"
    assert mix.notes[0] == (
        "The cold asks for 22 %; less than 33 % does not protect against corrosion (TM 5-3805-254-14&P-2, least share of "
        "glycol that protects against corrosion)."
    )


def test_a_cold_beyond_the_table_is_said_and_the_rest_answered(tmp_path: Path) -> None:
    mix = asked(engine(tmp_path, sheet=ENGINE.replace("-30 °C", "-60 °C"))).coolant
    assert mix is not None
    assert (mix.share, mix.concentrate) == ("", "")
    assert mix.notes[0] == (
        "-60 °C is colder than -52.02 °C, the end of ASHRAE at 60 % glycol. Ask for a temperature within it."
    )
    assert mix.bleed == ("heater on hot", "screw open")


def test_an_air_cooled_engine_has_no_coolant(tmp_path: Path) -> None:
    sheet = ENGINE.replace(
        "  firing_order: [1, 3, 4, 2]\n", "  firing_order: [1, 3, 4, 2]\n  does_not_have: [liquid cooling]\n"
    )
    answer = asked(engine(tmp_path, sheet=sheet))
    assert answer.coolant is None
    assert not [one for one in answer.missing if "coolant" in one.path]


def test_a_sheet_that_says_nothing_of_it_is_told_what_it_lacks(tmp_path: Path) -> None:
    answer = asked(engine(tmp_path, sheet=ENGINE.split("after_start:")[0]))
    assert [one.path for one in answer.missing] == [
        "after_start.cranking_pressure",
        "after_start.orifice",
        "after_start.leak_down",
        "after_start.oil_pressure",
        "after_start.coolant.glycol",
        "after_start.coolant.guards_to",
        "fluids.coolant.capacity",
        "after_start.coolant.cap",
        "after_start.look_again",
    ]
    assert answer.compression.expected is not None


def test_second_looks_and_recalls_stand_together(tmp_path: Path) -> None:
    job = engine(tmp_path)
    assert [(one.what, one.when, one.state) for one in asked(job).later] == [
        ("valve clearances", "after 1000 km", "by the sheet")
    ]
    job.record(
        "timer-started", timer="first_look", name="First look", task="look_again", wait="recall",
        minutes=60,
    )  # fmt: skip
    first = asked(job).later[0]
    assert (first.what, first.state, first.basis) == ("First look", "running", "the book")
    assert first.do == "gudgeon record timer-ended first_look --how …"


HOT = """\
joints:
  head:
    name: Head nuts
    role: cylinder head
    fastener: {thread: M8x1.25, strength_class: "8.8"}
    bolts: 2
    order: [1, 2]
    thread_state: oiled
    program: [{torque: 20 N·m}]
    again_after: {after: the first heat, due_before: drive}
    source: manual p. 9
"""


def test_a_joint_to_be_tightened_again_after_the_first_heat(tmp_path: Path) -> None:
    (line,) = asked(engine(tmp_path, sheet=ENGINE.replace("after_start:", HOT + "after_start:"))).again
    assert (line.what, line.when, line.state) == (
        "Head nuts", "after the first heat, before you drive it", "not done yet; the joint itself is not finished",
    )  # fmt: skip
    assert line.do == "gudgeon record tightened-again head SEEN"


def test_cautions_stand_with_it_whatever_is_missing(tmp_path: Path) -> None:
    cautions = " ".join(asked(engine(tmp_path)).cautions)
    for word in (
        "fuel and ignition disabled",
        "hold the crankshaft",
        "outdoors",
        "Belt, fan",
        "Hot coolant",
        "pets",
    ):
        assert word in cautions


@pytest.mark.parametrize(
    ("stated", "instead", "said"),
    [
        # HAND: half of 86 mm is 43 mm: a rod of 40 mm does not let the crank turn over
        (
            "rod_length: 143.0 mm", "rod_length: 40.0 mm",
            "rod length: what the gauge should show cannot be worked out. Rod length 40 mm cannot be: it is more than "
            "half the stroke plus the pin offset (43 mm), or the crank does not turn over. Measure from center to "
            "center. Look at cylinder.rod_length (line LINE of the data sheet).",
        ),
        (
            "closes: 60°", "closes: 190°",
            "intake closing: what the gauge should show cannot be worked out. Intake closing 190° after bottom dead "
            "center cannot be: it is from 0 to less than 180, on the way up. Give the angle after bottom dead center as "
            "the manual prints it. Look at valve_gear.intake.closes (line LINE of the data sheet).",
        ),
        (
            "orifice: 0.040 in", "orifice: 0 in",
            "the orifice of the leak-down tester: no leak is judged. Orifice 0 mm cannot be: it is above 0. Check the "
            "figure and its sign. Look at after_start.orifice (line LINE of the data sheet).",
        ),
        (
            "capacity: 8.5 L", "capacity: 0 L",
            "how much coolant the system holds: no volumes can be given. Capacity 0 L cannot be: it is above 0. Check "
            "the figure and its sign. Look at fluids.coolant.capacity (line LINE of the data sheet).",
        ),
    ],
)  # fmt: skip
def test_a_figure_that_cannot_be_is_named_with_its_line_and_takes_nothing_with_it(
    tmp_path: Path, stated: str, instead: str, said: str
) -> None:
    sheet = ENGINE.replace(stated, instead)
    number = 1 + next(index for index, words in enumerate(sheet.splitlines()) if instead in words)
    job = engine(tmp_path, sheet=sheet)
    read(job, "oil_idle", "1.6", gauge="oil")
    answer = asked(job)
    assert said.replace("LINE", str(number)) in [str(one) for one in answer.missing]
    assert answer.oil.lines[0].verdict == "inside"
    assert answer.coolant is not None
    assert answer.coolant.share == "45 % concentrate by volume"
    assert answer.leak_down.heard


def test_an_altitude_where_no_garage_stands_is_named_and_the_sea_is_taken(tmp_path: Path) -> None:
    # U.S. Standard Atmosphere 1976: the lowest layer ends at 11 000 m
    answer = asked(engine(tmp_path, altitude="900000 m"))
    assert str(answer.missing[0]).startswith(
        "your altitude: pressures are for the level of the sea, and 12 % too high at 1000 m. Altitude 900000 m is outside "
    )
    assert str(answer.missing[0]).endswith(" Correct `altitude` in the kit.")
    assert answer.air.words.startswith(
        "standard air at the level of the sea, as the altitude of the kit cannot be"
    )
    assert answer.compression.expected is not None


def test_glycol_without_what_it_is_in_is_refused(tmp_path: Path) -> None:
    bench = engine(tmp_path).bench()
    with pytest.raises(LeftInMissing) as caught:
        running(bench, glycol_in_it="30 percent")
    assert str(caught.value) == (
        "Glycol `30 percent` is that of the coolant still in the system, and how much that is was not said. Say it too, "
        "like --left-in '2 L', or leave both out for an empty system."
    )
