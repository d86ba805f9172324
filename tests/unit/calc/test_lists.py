"""Lists in one text, and the calculators of the joint that take them."""

import pytest

from gudgeon.calc.calculator import run
from gudgeon.calc.input_errors import CommaBetween, GivenBoth, InputNeeded, ItemUnreadable, NameUnknown
from gudgeon.calc.lists import items


@pytest.mark.parametrize(
    "written",
    [
        "30 mm x 12 mm; 15 mm thread",
        "30 mm × 12 mm; thread 15 mm",
        "30 x 12; 15 thread",
        "30x12; threaded: 15 mm",
    ],
)
def test_segments_however_they_are_written(written: str) -> None:
    first, second = items(written, kinds=("length", "area"))
    assert [*first.all_of("length"), *first.bare] == [30.0, 12.0]
    assert [*second.all_of("length"), *second.bare] == [15.0]
    assert "thread" in second.words
    assert first.words == ""


def test_figures_by_their_kind() -> None:
    (one,) = items("gray iron 14.5 Mpsi x 1 1/2 in", kinds=("stress", "length"))
    assert one.of("stress") == pytest.approx(99974, abs=1)
    assert one.of("length") == pytest.approx(38.1)
    assert one.words == "gray iron"
    (two,) = items("15 mm x 84.3 mm²", kinds=("length", "area"))
    assert (two.of("length"), two.of("area")) == (15.0, 84.3)


def test_a_figure_of_another_kind_is_refused() -> None:
    with pytest.raises(ItemUnreadable, match="`30 kg` cannot be read: it takes length, area"):
        list(items("30 kg", kinds=("length", "area")))


@pytest.mark.parametrize(
    "written", ["60 mm, 9.5 mm", "60 mm x 9.5 mm, 15 mm thread", "60 mm x 9,5 mm", "60, 9.5"]
)
def test_a_comma_does_not_part_segments(written: str) -> None:
    """A comma typed for x made two shanks of the whole diameter."""
    with pytest.raises(CommaBetween) as refused:
        run("joint.bolt-compliance", {**BOLT, "segments": written})
    assert str(refused.value) == (
        f"`{written}`: `,` does not part segments: write `60 mm x 9.5 mm; 15 mm thread`. "
        "A decimal takes a point, like `9.5 mm`."
    )


@pytest.mark.parametrize("key", ["layers", "tapped"])
def test_a_comma_does_not_part_layers(key: str) -> None:
    with pytest.raises(
        CommaBetween, match="`,` does not part layers: write `207 GPa x 20 mm; cast iron x 25 mm`"
    ):
        run("joint.member-compliance", {**PARTS, key: "steel 20 mm, cast iron 25 mm"})


BOLT = {"thread": "M12", "segments": "30 mm; 15 mm thread", "modulus": "207 GPa", "method": "textbook"}
PARTS = {"layers": "steel 20 mm; cast iron 25 mm", "head_diameter": "18 mm", "hole": "12 mm"}
TORQUE = {"thread": "M10", "torque": "48 N·m"}
FRICTION = {"mu_thread": "0.12", "mu_head": "0.12", "bearing_diameter": "12.8 mm"}


def test_a_bolt_with_a_nut_and_one_in_a_tapped_part() -> None:
    nut = run("joint.bolt-compliance", BOLT)
    tapped = run("joint.bolt-compliance", {**BOLT, "engagement": "25 mm"})
    assert nut["parts"] == "shank 30 mm: 1.281 µm/kN; thread 15 mm: 0.860 µm/kN"
    assert run("joint.bolt-compliance", {**BOLT, "engagement": "tapped"})["parts"] == tapped["parts"]
    assert tapped["parts"] == f"{nut['parts']}; engaged thread: 0.344 µm/kN"


@pytest.mark.parametrize("segments", ["steel", "30 mm x 12 mm x 4 mm", "x"])
def test_a_segment_that_says_too_little_or_too_much(segments: str) -> None:
    with pytest.raises(ItemUnreadable, match="a length, a diameter or an area"):
        run("joint.bolt-compliance", {**BOLT, "segments": segments})


def test_an_engagement_that_is_no_length() -> None:
    with pytest.raises(ItemUnreadable, match="`deep` cannot be read: it takes nut, tapped, or the length"):
        run("joint.bolt-compliance", {**BOLT, "engagement": "deep"})


@pytest.mark.parametrize(
    "layers", ["207 GPa 20 mm; 100 GPa 25 mm", "207000 x 20; 100000 x 25", "20 mm steel; 25 mm: cast iron"]
)
def test_layers_by_material_or_modulus(layers: str) -> None:
    wanted = run("joint.member-compliance", PARTS)["stiffness_n_per_mm"]
    assert run("joint.member-compliance", {**PARTS, "layers": layers})["stiffness_n_per_mm"] == wanted


def test_a_material_that_is_not_on_file() -> None:
    with pytest.raises(NameUnknown, match=r"`steal` is no material on file\. Did you mean `steel`"):
        run("joint.member-compliance", {**PARTS, "layers": "steal 20 mm"})
    with pytest.raises(ItemUnreadable, match="a material or a modulus, a thickness"):
        run("joint.member-compliance", {**PARTS, "layers": "steel"})
    with pytest.raises(ItemUnreadable, match="modulus and thickness of one part"):
        run("joint.member-compliance", {**PARTS, "tapped": "steel 5 mm; cast iron 20 mm"})


def test_every_method_of_the_parts() -> None:
    found = {
        method: run("joint.member-compliance", {**PARTS, "layers": "cast iron 40 mm", "method": method})
        for method in ("textbook", "vdi", "fitted")
    }
    values = [one["stiffness_n_per_mm"] for one in found.values()]
    assert len(set(values)) == 3
    assert found["vdi"].flags == ("The width of the parts is not given: they count as wide as the cone.",)
    with pytest.raises(InputNeeded, match="head_diameter"):
        run("joint.member-compliance", {"layers": "steel 20 mm", "hole": "12 mm"})


def test_a_nut_factor_says_less_than_the_frictions() -> None:
    plain = run("joint.preload-from-torque", {**TORQUE, "nut_factor": "0.3"})
    assert (
        run("joint.preload-from-torque", {**TORQUE, "nut_factor": "Black"})["preload_n"] == plain["preload_n"]
    )
    assert plain["preload_n"] == pytest.approx(16000)  # HAND: 48 N·m / (0.3 · 10 mm)
    assert (plain["share_thread"], plain["share_head"]) == (None, None)
    assert plain.flags == ("A nut factor does not say how friction is shared between thread and head.",)
    split = run("joint.preload-from-torque", {**TORQUE, **FRICTION})
    assert split["share_head"] == pytest.approx(0.469, abs=0.0005)


def test_friction_is_given_one_way() -> None:
    with pytest.raises(GivenBoth, match="nut_factor and mu_thread"):
        run("joint.preload-from-torque", {**TORQUE, **FRICTION, "nut_factor": "0.2"})
    with pytest.raises(InputNeeded, match="mu_thread"):
        run("joint.preload-from-torque", TORQUE)
    with pytest.raises(NameUnknown, match="`oily` is no nut factor on file"):
        run("joint.torque-from-preload", {"thread": "M10", "preload": "20 kN", "nut_factor": "oily"})


def test_scatter_is_asked_one_way() -> None:
    with pytest.raises(InputNeeded, match="method, or friction, tool and angle"):
        run("joint.scatter", {})
    with pytest.raises(GivenBoth, match="method and friction, tool, angle"):
        run("joint.scatter", {"method": "torque wrench", "tool": "4 %"})
    with pytest.raises(NameUnknown, match="`hammer` is no way of tightening on file"):
        run("joint.scatter", {"method": "hammer"})


@pytest.mark.parametrize("name", ["turn of nut", "turn-of-nut", "Turn_of_nut"])
def test_a_way_of_tightening_however_its_words_are_joined(name: str) -> None:
    assert run("joint.scatter", {"method": name})["relative_band"] == 0.15


def test_a_fitted_curve_says_that_it_leaves_the_tapped_part_out() -> None:
    found = run("joint.member-compliance", {"layers": "steel 20 mm", "hole": "12 mm", "method": "fitted",
                                            "tapped": "cast iron 40 mm"})  # fmt: skip
    assert found.flags == ("The fitted curve knows no tapped part: it is left out.",)


def test_a_way_of_tightening_with_a_range_gives_both_ends() -> None:
    found = run("joint.scatter", {"method": "hydraulic", "greatest_preload": "40 kN"})
    assert (found["relative_band_low"], found["relative_band"]) == (0.09, 0.23)
    assert str(found["from"]).startswith("hydraulic: ±9 to 23 % (VDI 2230:1986")
    # HAND: αA = 1.23 / 0.77 = 1.5974; 40 kN / 1.5974 = 25041 N
    assert found["least_preload_n"] == pytest.approx(25041, abs=1)
