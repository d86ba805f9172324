"""The drive of the demo sheet, and of sheets that contradict themselves or lack something."""

import re
from importlib.resources import files

import pytest

from gudgeon.bench.timing.drive import DriveModel, Lowered, cam_shift, drive_of
from gudgeon.sheet.load import parse_sheet

TEXT = files("gudgeon.demo").joinpath("sheet.yaml").read_text(encoding="utf-8")
CUT = {"head": Lowered(0.2, 0.01)}
WITHOUT_TENSIONER = (
    "diameter: 60.0 mm, back: yes, x: -69.07 mm, y: 150.00 mm}",
    "diameter: 60.0 mm, back: yes}",
)


def model(*changes: tuple[str, str], drive: str = "") -> DriveModel:
    """The drive of the demo sheet with texts changed, or with another drive."""
    text = TEXT
    if drive:
        text = re.sub(r"timing (gears|chain), ", "", text)
        text = re.sub(
            r"\ndrive:\n.*?\nvalve_gear:", lambda _: f"\n{drive}\n\nvalve_gear:", text, flags=re.DOTALL
        )
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new)
    loaded = parse_sheet(text, file="sheet.yaml")
    found = drive_of(loaded.sheet, written=loaded.written)
    assert found is not None
    return found


def at(start: str, text: str = TEXT) -> str:
    """The place of the line of the sheet that begins so, without its column."""
    lines = text.splitlines()
    number = next(number for number, one in enumerate(lines, start=1) if one.strip().startswith(start))
    return f"sheet.yaml, line {number}"


def said(found: DriveModel, grade: str) -> list[str]:
    """The remarks of a grade, without the column."""
    return [re.sub(r", column \d+", "", str(one)) for one in found.remarks if one.grade == grade]


def test_the_demo_drive_holds_together() -> None:
    """HAND: lcm(142, 20) / 20 = 71; spans and arcs of the demo add up to 142 teeth by a script of their own."""
    found = model()
    assert found.remarks == ()
    assert found.order == ("crank", "tensioner", "intake", "exhaust", "water_pump", "idler")
    assert found.tight == ("exhaust", "water_pump", "idler", "crank")
    assert (found.clockwise, found.clockwise_from) == (True, "drive.turns")
    assert found.loop_teeth == pytest.approx(142, abs=0.01)
    assert [one.by_path for one in found.counts] == pytest.approx([15, 67, 60], abs=0.01)
    assert (found.realign, found.realign_with_cam) == (71, 142)
    assert [key for key, one in found.wheels.items() if one.keyless] == ["intake", "exhaust"]
    assert found.wheels["tensioner"].is_tensioner
    assert not found.cam_in_block


def test_a_cut_turns_both_camshafts_later() -> None:
    """HAND: only the span from the exhaust camshaft to the water pump leaves the head; it leans by
    atan(30.67 / 217.50) − asin((50.93 − 28.01) / 219.65) = 2.04°: 0.2 mm · cos 2.04° / 50.93 mm = 0.2249°.
    On the slack side the span to the tensioner leans by 22.25°: 0.2 · (cos 2.04° + cos 22.25°) = 0.385 mm.
    """
    shift = cam_shift(model(), CUT)
    assert [one.wheel for one in shift.camshafts] == ["intake", "exhaust"]
    for one in shift.camshafts:
        assert one.cam_deg == pytest.approx(0.2249, abs=1e-4)
        assert one.cam_deg_u == pytest.approx(0.2249 / 20, abs=1e-5)
        assert one.crank_deg == pytest.approx(2 * one.cam_deg)
        assert one.teeth == pytest.approx(0.2249 / 9, abs=1e-5)
        assert one.words == "0.22° of the camshaft (0.45° of the crankshaft) later"
    assert shift.slack_mm == pytest.approx(0.385, abs=5e-4)
    assert shift.slack_u_mm == pytest.approx(0.385 / 20, abs=5e-5)
    assert (shift.slack_verdict, shift.missing, shift.notes) == ("inside", (), ())
    raised = cam_shift(model(), {"head": Lowered(-0.2)})
    assert raised.camshafts[0].words == "0.22° of the camshaft (0.45° of the crankshaft) earlier"
    assert raised.slack_mm is not None
    assert raised.slack_mm < 0
    assert cam_shift(model(), {"head": Lowered(0.0)}).camshafts[0].words == "as before"


@pytest.mark.parametrize(
    ("lowering", "verdict"),
    [
        (Lowered(1.5, 0.01), "inside"),
        (Lowered(1.55, 0.02), "in doubt"),
        (Lowered(1.7, 0.01), "outside"),
    ],
)
def test_the_tensioner_takes_up_three_millimeters(lowering: Lowered, verdict: str) -> None:
    """HAND: 1.925 mm of belt for each mm of lowering; 3.0 mm by the sheet, twice the uncertainty to either side."""
    assert cam_shift(model(), {"head": lowering}).slack_verdict == verdict


def test_without_what_the_tensioner_takes_up_nothing_is_judged() -> None:
    found = model(
        ("tensioner_takes_up: {value: 3.0 mm, note: of belt to either side of the pointer's mark}", "")
    )
    assert cam_shift(found, CUT).slack_verdict == "not stated"


def test_a_tensioner_without_a_place_leaves_the_camshafts_computed() -> None:
    found = model(WITHOUT_TENSIONER)
    assert found.path is None
    assert said(found, "missing") == [
        f"drive.wheels.tensioner ({at('tensioner: {')}): Tensioner roller cannot be placed: its place (`x` and `y`) is "
        "not stated."
    ]
    shift = cam_shift(found, CUT)
    assert [one.cam_deg for one in shift.camshafts] == pytest.approx([0.2249, 0.2249], abs=1e-4)
    assert shift.slack_mm is None
    assert shift.missing == (
        "What the tensioner must take up is not worked out: Tensioner roller has no place (`x` and `y`).",
    )


def test_an_idler_without_a_place_leaves_nothing_to_turn_by() -> None:
    found = model(("back: yes, x: 58.00 mm, y: 72.00 mm}", "back: yes, x: 58.00 mm}"))
    shift = cam_shift(found, CUT)
    assert shift.camshafts == ()
    assert shift.missing[0] == "How far Intake camshaft sprocket turns is not worked out: Idler has no `y`."


def test_a_roller_needs_the_rise_of_the_pitch_line() -> None:
    found = model(
        ("rise: {value: 1.5 mm, note: pitch line of the belt above a smooth roller on its back}", "")
    )
    assert [one.split("): ")[1] for one in said(found, "missing")] == [
        f"{name} cannot be placed: its pitch radius (`rise` of the drive: from the back of the belt to its pitch line) "
        "is not stated."
        for name in ("Tensioner roller", "Idler")
    ]


def test_a_drive_that_turns_against_its_path() -> None:
    """Neither is believed: the length is told, which side is tight is not."""
    found = model(
        ("turns: clockwise\n", "turns: counterclockwise\n"),
        (
            "rotation: clockwise, seen from the timing end",
            "rotation: counterclockwise, seen from the timing end",
        ),
    )
    assert said(found, "error") == [
        f"drive.turns ({at('turns: clockwise')}): It says counterclockwise, but a belt that runs over the wheels in the "
        "order of `path` runs clockwise. One of them is wrong: exchange it. Which side is pulled tight, and so the cam "
        "timing after a cut, is left open."
    ]
    assert found.loop_teeth == pytest.approx(142, abs=0.01)
    assert found.tight == ()
    shift = cam_shift(found, CUT)
    assert shift.camshafts == ()
    assert shift.slack_mm == pytest.approx(0.385, abs=5e-4)
    assert shift.missing[0] == (
        "How far Intake camshaft sprocket turns is not worked out: the path of the drive and its running direction are "
        "not both known."
    )


def test_engine_and_drive_that_turn_against_each_other() -> None:
    found = model(("turns: clockwise\n", "turns: counterclockwise\n"))
    assert said(found, "error") == [
        f"drive.turns ({at('turns: clockwise')}): The drive turns counterclockwise, but `engine.rotation` says "
        "“clockwise, seen from the timing end”, seen from the same side. Mend the wrong one: the tight side depends on it."
    ]
    assert found.clockwise is True  # the order of the path decides, with its source
    assert found.clockwise_from == "drive.path"


@pytest.mark.parametrize(
    ("rotation", "source"),
    [
        ("clockwise, seen from the timing end", "engine.rotation"),
        ("counterclockwise, seen from the flywheel end", "drive.path"),
        ("clockwise", "drive.path"),
    ],
)
def test_the_engine_says_how_the_drive_turns_where_it_names_the_same_side(rotation: str, source: str) -> None:
    found = model(
        ("  turns: clockwise\n", ""),
        ("rotation: clockwise, seen from the timing end", f"rotation: {rotation}"),
    )
    assert (found.clockwise, found.clockwise_from) == (True, source)


def test_path_and_turning_both_the_wrong_way_round_put_the_tensioner_on_the_tight_side() -> None:
    found = model(
        (
            "[crank, tensioner, intake, exhaust, water_pump, idler]",
            "[crank, idler, water_pump, exhaust, intake, tensioner]",
        ),
        ("turns: clockwise\n", "turns: counterclockwise\n"),
        (
            "rotation: clockwise, seen from the timing end",
            "rotation: counterclockwise, seen from the timing end",
        ),
    )
    assert said(found, "error")[0] == (
        f"drive.path ({at('path:')}): Tensioner roller lies between Intake camshaft sprocket and Crankshaft sprocket as "
        "the belt runs: on the side that the crankshaft pulls, where no tensioner can be. The order of `path`, or the "
        "running direction, is the wrong way round."
    )
    shift = cam_shift(found, CUT)
    assert shift.camshafts == ()
    assert shift.missing[0] == (
        "How far Intake camshaft sprocket turns is not worked out: Tensioner roller lies between it and the crankshaft, "
        "and gives as it likes."
    )


@pytest.mark.parametrize(
    ("old", "new", "path", "text"),
    [
        ("pitch: 8.00 mm (0.315 in)", "pitch: 0 mm", "drive.pitch", "0 mm cannot be: a pitch is above 0."),
        (
            "belt_teeth: 142",
            "belt_teeth: -142",
            "drive.belt_teeth",
            "-142 cannot be: a belt has teeth, a chain links.",
        ),
        (
            "rise: {value: 1.5 mm",
            "rise: {value: -1.5 mm",
            "drive.rise",
            "-1.5 mm cannot be: the pitch line lies above the roller, so it is 0 or more.",
        ),
        (
            "name: Idler, diameter: 60.0 mm",
            "name: Idler, diameter: 0 mm",
            "drive.wheels.idler.diameter",
            "0 mm cannot be: a diameter is above 0.",
        ),
    ],
)
def test_a_figure_that_cannot_be_counts_as_not_stated(old: str, new: str, path: str, text: str) -> None:
    found = model((old, new))
    first = next(one for one in found.remarks if one.grade == "error")
    assert (first.path, first.text) == (path, f"{text} Look at the figure and its sign.")
    assert first.place.startswith(at(path.split(".")[2] + ": {" if "wheels" in path else old.split(":")[0]))
    assert (found.path is None) == (path != "drive.belt_teeth")
    assert cam_shift(found, CUT).missing != () or path == "drive.belt_teeth"


def test_a_belt_of_another_length() -> None:
    found = model(("belt_teeth: 142", "belt_teeth: 141"))
    assert said(found, "error") == [
        f"drive.belt_teeth ({at('belt_teeth')}): 141 teeth are printed, but the path is 142.00 long: 1.00 too many. "
        "Check centers, diameters and teeth of the wheels; a tensioner stands where it works, not where it is let go.",
        f"drive.teeth_between_marks ({at('- {from: intake')}): 15 + 67 + 60 = 142 teeth lead once around, but the belt "
        "has 141. One of the counts, or the number printed for the belt, is wrong.",
    ]


def test_a_count_that_is_off_by_one_is_told_with_its_line() -> None:
    found = model(("teeth: 67,", "teeth: 68,"))
    (doubt,) = said(found, "doubt")
    assert doubt == (
        f"drive.teeth_between_marks.2 ({at('- {from: exhaust')}): 68 teeth are printed from the mark of Exhaust camshaft "
        "sprocket to that of Crankshaft sprocket; along the path they are 67.0. With the marked tooth counted at both "
        "ends it would be one more: count from mark to mark."
    )
    every = model(("teeth: 15,", "teeth: 16,"), ("teeth: 67,", "teeth: 68,"), ("teeth: 60,", "teeth: 61,"))
    assert said(every, "error")[0].endswith(
        "Each count seems to hold both of its marked teeth: count from mark to mark."
    )


def test_a_count_told_the_other_way_around() -> None:
    found = model(("from: exhaust, to: crank", "from: crank, to: exhaust"))
    assert said(found, "doubt")[0].endswith(
        "As the belt runs, the printed count leads from the second mark to the first: exchange `from` and `to`."
    )


def test_a_mark_where_no_belt_lies() -> None:
    found = model(
        ('on the arrow of the rear cover", mark_at: 180°', 'on the arrow of the rear cover", mark_at: 0°')
    )
    assert said(found, "doubt")[0].startswith(
        f"drive.wheels.crank.mark_at ({at('crank: {name')}): The mark of Crankshaft sprocket at 0° stands where no belt "
        "lies: the belt lies on it from"
    )
    assert [one.by_path is None for one in found.counts] == [False, True, True]


def test_sprockets_that_are_not_two_to_one() -> None:
    found = model(
        ("name: Exhaust camshaft sprocket, teeth: 40", "name: Exhaust camshaft sprocket, teeth: 38")
    )
    assert said(found, "error")[-1] == (
        f"drive.wheels.exhaust.teeth ({at('exhaust: {name')}): Exhaust camshaft sprocket has 38 teeth, Crankshaft sprocket "
        "20: a camshaft turns half as fast as the crankshaft, so 40 were expected. One of the two numbers is wrong."
    )


def test_wheels_that_overlap_are_told_by_their_names() -> None:
    found = model(("x: 60.00 mm, y: 345.50 mm", "x: 30.00 mm, y: 345.50 mm"))
    assert said(found, "error")[0] == (
        f"drive.path ({at('path:')}): Intake camshaft sprocket and Exhaust camshaft sprocket stand 90.00 mm apart and "
        "would overlap: their pitch radii add up to 101.86 mm. Check centers, teeth and pitch."
    )


def test_a_head_without_a_direction_or_a_lowering() -> None:
    found = model(("  heads: {head: 0°}\n", ""))
    assert cam_shift(found, CUT).missing == (
        "In which direction head lies from the crankshaft is not stated (`heads` of the drive).",
    )
    assert cam_shift(model(), {}).missing == ("How far head has come nearer to the crankshaft is not known.",)


def test_a_camshaft_that_names_no_head() -> None:
    found = model((" on: head,", ""), ("  heads: {head: 0°}\n", ""))
    assert said(found, "missing") == [
        f"drive.wheels.{key} ({at(key + ': {name')}): {name} names no head that carries it (`on`): what a cut does to "
        "its timing is left open."
        for key, name in (("intake", "Intake camshaft sprocket"), ("exhaust", "Exhaust camshaft sprocket"))
    ]
    shift = cam_shift(found, CUT)
    assert shift.camshafts == ()
    assert shift.slack_mm is None
    assert shift.missing[0] == (
        "How far Intake camshaft sprocket turns is not worked out: it names no head that carries it (`on`)."
    )


def test_a_camshaft_in_the_block_is_not_turned() -> None:
    found = model(
        (" on: head,", ""), ("  heads: {head: 0°}\n", ""), ("camshaft: in the head", "camshaft: in the block")
    )
    shift = cam_shift(found, CUT)
    assert [one.words for one in shift.camshafts] == ["as before", "as before"]
    assert shift.notes == ("The camshaft sits in the block: cutting a head does not turn it.",)
    assert (shift.slack_mm, shift.missing) == (0.0, ())


GEARS = """drive:
  kind: timing gears
  source: manual p. 78
  wheels:
    crank: {name: Crankshaft gear, teeth: 24, turns: crankshaft}
    camshaft: {name: Camshaft gear, teeth: 47, turns: camshaft}
"""


def test_gears_are_not_worked_out_and_say_so() -> None:
    found = model(drive=GEARS)
    assert [one.split("): ", 1)[1] for one in said(found, "note")] == [
        "Gears mesh: how a changed center distance turns a camshaft, and what it does to their backlash, is not worked "
        "out. Measure the backlash after a cut."
    ]
    assert said(found, "doubt")[0].endswith(
        "Camshaft gear has 47 teeth, Crankshaft gear 24: a camshaft turns half as fast as the crankshaft, so 48 were "
        "expected, unless a wheel between them changes the ratio."
    )
    assert cam_shift(found, CUT).missing == (
        "Gears: how a changed center distance turns a camshaft is not worked out; measure the backlash.",
    )


CHAIN = """drive:
  kind: timing chain
  source: manual p. 78
  viewed_from: timing end
  turns: clockwise
  pitch: 9.525 mm
  belt_teeth: 114
  wheels:
    crank: {name: Crankshaft sprocket, teeth: 20, turns: crankshaft, x: 0 mm, y: 0 mm}
    cam: {name: Camshaft sprocket, teeth: 40, turns: camshaft, on: head, x: 0 mm, y: 398.9 mm}
  heads: {head: 0°}
  tensioner: "hydraulic, behind its rail"
"""


def test_a_chain_of_two_sprockets_needs_no_path() -> None:
    """HAND: the circle through the pins is π / (z · sin(π / z)) = 1.00103 times p · z / 2π at 40 teeth, so a cut of
    0.5 mm turns the camshaft by 0.5 · cos β / (9.525 · 40 / 2π) rad = 0.4711°, sin β = (60.70 − 30.44) / 398.9.
    """
    found = model(drive=CHAIN)
    assert found.order == ("crank", "cam")
    assert [one.split("): ", 1)[1] for one in said(found, "missing")] == [
        "`hydraulic, behind its rail` is no wheel of `path`: how much longer it makes the way is not known, so the "
        "length is not compared."
    ]
    shift = cam_shift(found, {"head": Lowered(0.5)})
    assert shift.camshafts[0].cam_deg == pytest.approx(0.4711, abs=1e-4)
    assert "A worn chain is longer, and turns the camshafts later" in shift.notes[0]
    assert found.units == "links"


VEE = """drive:
  kind: timing belt
  source: manual p. 78
  viewed_from: timing end
  turns: clockwise
  pitch: 9.525 mm
  belt_teeth: 140
  wheels:
    crank: {name: Crankshaft sprocket, teeth: 20, turns: crankshaft, x: 0 mm, y: 0 mm}
    left: {name: Left camshaft sprocket, teeth: 40, turns: camshaft, on: left, x: -175 mm, y: 303.109 mm}
    right: {name: Right camshaft sprocket, teeth: 40, turns: camshaft, on: right, x: 175 mm, y: 303.109 mm}
  heads: {left: -30°, right: 30°}
  path: [crank, left, right]
"""


def test_on_a_vee_the_far_bank_turns_by_both_cuts() -> None:
    """HAND (script of its own): 60° vee, 350 mm; right bank next to the crankshaft on the tight side."""
    found = model(drive=VEE)
    both = cam_shift(found, {"left": Lowered(0.5, 0.03), "right": Lowered(0.5, 0.04)})
    left, right = both.camshafts
    assert (left.cam_deg, right.cam_deg) == pytest.approx((0.943103, 0.470662), abs=5e-6)
    only = cam_shift(found, {"left": Lowered(0.0), "right": Lowered(0.5)}).camshafts
    assert only[0].cam_deg == pytest.approx(0.706630, abs=5e-6)
    # each head is uncertain by itself: slopes 0.235967 / 0.5 and 0.706630 / 0.5 degrees for each mm
    assert left.cam_deg_u == pytest.approx(((0.4719 * 0.03) ** 2 + (1.4133 * 0.04) ** 2) ** 0.5, rel=1e-3)
    assert right.cam_deg_u == pytest.approx(0.9413 * 0.04, rel=1e-3)


def test_on_a_vee_one_head_that_is_not_known_leaves_the_near_bank_computed() -> None:
    shift = cam_shift(model(drive=VEE), {"right": Lowered(0.5)})
    assert [one.wheel for one in shift.camshafts] == ["right"]
    assert shift.missing == ("How far left has come nearer to the crankshaft is not known.",)
    assert shift.slack_mm is None


def test_a_path_that_names_what_is_no_wheel() -> None:
    found = model(("[crank, tensioner,", "[crank, big roller,"))
    assert said(found, "missing")[0] == (
        f"drive.path.2 ({at('path:')}): `big roller` is no wheel of the drive, so the path cannot be followed. Add it "
        "under `wheels`, with `x` and `y`."
    )
    assert found.order == ()
    assert len(cam_shift(found, CUT).missing) == 3


def test_a_path_may_begin_anywhere_and_use_names() -> None:
    found = model(
        (
            "[crank, tensioner, intake, exhaust, water_pump, idler]",
            "[exhaust, Water pump wheel, idler, crank, tensioner, intake]",
        )
    )
    assert found.order[0] == "crank"
    assert found.remarks == ()


def test_two_crankshafts_are_one_too_many() -> None:
    found = model(("teeth: 22, turns: pump", "teeth: 22, turns: crankshaft"))
    assert said(found, "error")[0] == (
        f"drive.path ({at('path:')}): 2 wheels of the path turn with the crankshaft, not one. Write `turns: crankshaft` "
        "at that wheel alone."
    )


def test_where_the_camshaft_is_and_nobody_says_is_not_made_up() -> None:
    """A chain of which the sheet says no more than that it is one: only an engine without overhead cam has it in the block."""
    bare = "drive:\n  kind: timing chain\n  source: manual p. 78"
    found = model(drive=bare)
    assert not found.cam_in_block
    shift = cam_shift(found, CUT)
    assert (shift.camshafts, shift.slack_mm) == ((), None)
    assert "No wheel of the drive says that it turns a camshaft (`turns: camshaft`)." in shift.missing
    unsaid = ("  camshaft: in the head\n", "")
    assert not model(unsaid, drive=bare).cam_in_block
    pushrods = model(
        unsaid, ("does_not_have: [", "does_not_have: [overhead cam, camshaft caps, "), drive=bare
    )
    assert pushrods.cam_in_block
