"""The calculators of estimates, networks and wear: texts as a person writes them, figures with their units."""

import pytest

from gudgeon.calc.calculator import CalculatorAnswer, run
from gudgeon.errors import InputError
from gudgeon.quantity.format import show_first


def told(answer: CalculatorAnswer) -> dict[str, str]:
    return {one.name: one.shown for one in answer.results}


def refusal(name: str, **inputs: str) -> str:
    with pytest.raises(InputError) as caught:
        run(name, inputs)
    return caught.value.message


def network(written: str, **more: str) -> CalculatorAnswer:
    return run("planning.critical-path", {"network": written, **more})


def test_a_network_of_plain_durations() -> None:
    """PRINTED: the vignette on critical paths of the R package critpath, free floats too."""
    found = network("A 3; B 2; C 5; D 1 after A; E 1 after B; F 3 after C, D, E")
    assert told(found) == {
        "duration": "8",
        "critical": "C, F",
        "times": "A: from 0 to 3, at the latest from 1 to 4, float 1, free 0; "
        "B: from 0 to 2, at the latest from 2 to 4, float 2, free 0; C: from 0 to 5, no float; "
        "D: from 3 to 4, at the latest from 4 to 5, float 1, free 1; "
        "E: from 2 to 3, at the latest from 4 to 5, float 2, free 2; F: from 5 to 8, no float",
    }
    assert found.flags == (
        "Each task has one duration, so nothing scatters: write three estimates, like `3-5-7 h`, for the chances.",
    )


def test_names_of_several_words_units_and_lines() -> None:
    """HAND: 2 h, then 5 days of 24 h, then 90 min; `in and out` is one name, `wash and dry` two."""
    found = network(
        "head off 2 h\nshop: 5 d after head off\nin and out 30 min after wash and dry\nwash 1/2 h\ndry = 1 h after wash\n"
        "run 90 min after shop, in and out"
    )
    assert told(found)["duration"] == "123.5 h"
    assert told(found)["critical"] == "head off, shop, run"
    assert "shop: from 2 to 122 h, no float; " in str(found["times"])
    assert "dry: from 0.5 to 1.5 h, at the latest from 120.5 to 121.5 h, float 120 h, free 0 h; " in str(
        found["times"]
    )
    assert found["duration"] == pytest.approx(123.5)
    assert next(one.unit for one in found.results if one.name == "duration") == "h"
    assert found.inputs["network"] == "6 tasks"


def test_where_no_paths_meet_there_is_no_bias_and_where_they_do_it_is_said() -> None:
    chain = network("A 3-5-9; B 2-3-4 after A")
    assert chain["merge_bias"] == 0
    assert chain.flags == ()
    meeting = network("A 3-5-7 h; B 4-5-6 h; C 1 h after A and B", by="6 h")
    bias = meeting["merge_bias"]
    assert isinstance(bias, float)
    assert bias > 0
    assert meeting.flags == (
        f"Where paths meet the latest counts: on the average it ends {bias:.4g} h later than the classical sum says.",
    )
    normal, drawn = meeting["chance_normal"], meeting["chance"]
    assert isinstance(normal, float) and isinstance(drawn, float)
    assert normal == pytest.approx(0.5)
    # HAND: both are done in 5 h with a half times a half.
    assert drawn == pytest.approx(0.25, abs=0.02)


def test_the_same_network_gives_the_same_answer() -> None:
    assert network("A 3-5-7; B 4-5-6") == network("A 3-5-7; B 4-5-6")


@pytest.mark.parametrize(
    ("written", "told"),
    [
        (";", "No task is given, so there is nothing to plan. Name at least one, with its duration."),
        ("A three", "`A three` is no task that can be read. Write its name, its duration, and what it comes after, like `C 5 h after A, B`, or three estimates, like `C 3-5-7 h after A, B`; tasks apart with semicolons."),
        ("A 3-5", "`A 3-5` is no task that can be read. Write its name, its duration, and what it comes after, like `C 5 h after A, B`, or three estimates, like `C 3-5-7 h after A, B`; tasks apart with semicolons."),
        ("A 5, B 2", "`A 5, B 2` would be one task called `A 5, B`, and a name takes no comma: commas part what a task comes after, semicolons part the tasks. Write tasks like `A 5; B 2`, and a name without the comma."),
        ("A 3; A 4", "`A` is listed twice. Give each task a name of its own, with all that it waits for."),
        ("A -3", "Duration -3 of `A` cannot be: a task takes 0 or more. Check the figure and its sign."),
        ("A 7-5-3", "A: The estimate 7 – 5 – 3 cannot be: the least, 7, lies above the most likely, 5. Write them in rising order: least, most likely, greatest; they may be equal."),
        ("A -3-5-7", "A: The estimate -3 – 5 – 7 begins below 0, and nothing takes less than no time. Check the signs."),
        ("A 3 hrz", "A: `3 hrz` has the unit `hrz`, which is not taken here. Did you mean `h`? Write one of: min, h, d, week; or plain numbers throughout."),
        ("A 3 km", "A: `3 km` has the unit `km`, which is not taken here. Write one of: min, h, d, week; or plain numbers throughout."),
        ("head off 3; shop 2 after haed off", "`shop` is to come after `haed off`, which is no task here. Did you mean `head off`? There are: `head off`, `shop`."),
        ("A 3 after B; B 2 after A", "No order can keep this: `A` waits for `B` and `B` waits for `A`. Take one of these out."),
    ],
)  # fmt: skip
def test_networks_that_are_refused(written: str, told: str) -> None:
    assert refusal("planning.critical-path", network=written) == told


def test_a_time_below_nothing_is_refused() -> None:
    told = (
        "`-3 h` cannot be a time by which all is done: it counts from the start, 0 or more. Check its sign."
    )
    assert refusal("planning.critical-path", network="A 1-2-3 h", by="-3 h") == told
    three = {"optimistic": "1 h", "likely": "2 h", "pessimistic": "3 h"}
    assert refusal("planning.three-point", **three, by="-3 h") == told
    assert network("A 1-2-3 h", by="0 h")["chance"] == 0


def test_too_many_trials() -> None:
    assert refusal("planning.critical-path", network="A 1-2-3", trials="1e9") == (
        "1,000,000,000 trials of 1 task are too many at once: at most 100,000. 2,000 to 20,000 are usual."
    )


def test_one_estimate() -> None:
    """HAND: (2 + 4 · 3 + 7) / 6 and (7 − 2) / 6; percentiles by scipy.stats.beta(1.8, 4.2), OTHER TOOL."""
    from scipy.stats import beta

    found = run(
        "planning.three-point", {"optimistic": "2 h", "likely": "180 min", "pessimistic": "7", "by": "4 h"}
    )
    assert told(found)["mean"] == "3.5 h"
    assert told(found)["deviation"] == "0.8333 h"
    other = beta(1.8, 4.2, loc=2, scale=5)
    assert [found[key] for key in ("p10", "p50", "p90")] == pytest.approx(other.ppf([0.1, 0.5, 0.9]))
    assert found["chance"] == pytest.approx(other.cdf(4))
    assert found.inputs["likely"] == "3 h"


def test_one_estimate_as_a_triangle() -> None:
    """OTHER TOOL: scipy.stats.triang."""
    from scipy.stats import triang

    given = {"optimistic": "2", "likely": "3", "pessimistic": "7", "form": "triangular"}
    other = triang(0.2, loc=2, scale=5)
    for by in (1, 2.5, 4, 8):
        found = run("planning.three-point", {**given, "by": str(by)})
        assert found["chance"] == pytest.approx(other.cdf(by))
        assert [found[key] for key in ("p10", "p50", "p90")] == pytest.approx(other.ppf([0.1, 0.5, 0.9]))


WEAR = {"age": "90000 km", "further": "60000", "shape": "3", "characteristic_life": "180000 km"}


def test_a_part_that_is_open() -> None:
    """HAND: (150³ − 90³) / 180³ = 0.4537, 1 − e^−0.4537 = 0.3647; (60 / 180)³ = 0.03704, 0.03636. Times 645."""
    found = run("planning.wear-out", {**WEAR, "price": "45", "opening": "600", "currency": "USD"})
    shown = told(found)
    assert (shown["chance_kept"], shown["chance_new"]) == ("36.5 %", "3.6 %")
    assert (shown["failure"], shown["break_even_chance"]) == ("645.00 USD", "10.6 %")
    assert found["kept"] == pytest.approx(0.36472 * 645, abs=0.01)
    assert found["renewed"] == pytest.approx(45 + 0.03636 * 645, abs=0.01)
    assert found["saved"] == pytest.approx((0.36472 - 0.03636) * 645 - 45, abs=0.01)
    assert found.inputs["further"] == "60000 km (37282 mi)"
    assert found.flags == ()


def test_miles_first_for_who_reads_inches() -> None:
    show_first("inch")
    try:
        found = run("planning.wear-out", WEAR)
    finally:
        show_first("metric")
    assert found.inputs["further"] == "37282 mi (60000 km)"


def test_without_prices_only_the_chances() -> None:
    found = run("planning.wear-out", {**WEAR, "shape": "1"})
    assert "saved" not in told(found)
    assert found.flags == (
        "With a shape of 1 or less the part does not wear out: a new one fails as soon as the old one, or sooner, and "
        "renewing it for its age gains nothing.",
        "Without `price` and `opening` only the chances are told.",
    )


def test_a_life_by_two_shares() -> None:
    """HAND: at the two ages the chances of a new part are the two shares."""
    for further, chance in (("90000 km", 0.1), ("150000", 0.5)):
        found = run(
            "planning.wear-out",
            {"age": "0", "further": further, "fails_by": "10 % by 90000 km; 50% by 150000 km"},
        )
        assert found["chance_kept"] == pytest.approx(chance)


@pytest.mark.parametrize(
    ("inputs", "told"),
    [
        ({"age": "5 years", "further": "5 h", "shape": "2", "characteristic_life": "9 years"}, "`9 years` is time by the calendar and `5 h` is time in use: one cannot be set against the other. Write all of them in units of one kind."),
        ({"age": "5", "further": "5"}, "The life of the part needs shape and characteristic_life, or fails_by, which is not given. Add it, like fails_by='10 % by 90000 km; 50 % by 150000 km'."),
        ({"age": "5", "further": "5", "fails_by": "half by 3"}, "`half by 3` does not say how many fail by when. Write two ages with their shares, like `10 % by 90000 km; 50 % by 150000 km`."),
        ({"age": "5", "further": "5", "fails_by": "1 % by 3 parsec; 2 % by 4"}, "fails_by: `3 parsec` has the unit `parsec`, which is not taken here. Write one of: km, mi, min, h, d, week, month, year; or plain numbers throughout."),
        ({"age": "5", "further": "5", "shape": "2", "characteristic_life": "9", "fails_by": "1 % by 3; 2 % by 4"}, "characteristic_life and fails_by are both given, and each decides alone. Give one of them."),
        ({"age": "-5", "further": "5", "shape": "2", "characteristic_life": "9"}, "Age -5 cannot be: it is 0 or more. Check the figure and its sign."),
        ({"age": "x", "further": "5", "shape": "2", "characteristic_life": "9"}, "age: `x` cannot be read as a figure (number). Write a number and its unit, like `0.05 mm`, `85–95°` or `40 N·m (29.5 lbf·ft)`."),
    ],
)  # fmt: skip
def test_lives_that_are_refused(inputs: dict[str, str], told: str) -> None:
    assert refusal("planning.wear-out", **inputs) == told


def test_the_age_of_replacement_in_its_unit_and_another_age() -> None:
    """OTHER TOOL: an independent root find, 493.0470 h. HAND: at 20 days of 24 h, 480 h, the rate is hardly more."""
    given = {
        "planned": "1",
        "failed": "5",
        "shape": "2.5",
        "characteristic_life": "1000 h",
        "currency": "USD",
    }
    found = run("planning.replacement-age", {**given, "at": "480 h"})
    shown = told(found)
    assert shown["age"] == "493 h"
    assert shown["rate"] == "0.003462 USD for each h"
    assert shown["why"] == "the one age at which waiting longer costs more than it saves"
    rate, other = found["rate"], found["rate_at"]
    assert isinstance(rate, float) and isinstance(other, float)
    assert rate < other < 1.001 * rate


def test_where_there_is_no_age_it_is_said_why() -> None:
    given = {"planned": "100", "failed": "600", "characteristic_life": "10 years"}
    shown = told(run("planning.replacement-age", {**given, "shape": "1"}))
    assert shown["age"] == "none"
    assert shown["why"] == ("none: the part does not wear out, and replacing a good one by age gains nothing")
    cheap = told(run("planning.replacement-age", {**given, "shape": "3", "planned": "600"}))
    assert cheap["why"] == "none: a failure costs no more than replacing the part in time"
