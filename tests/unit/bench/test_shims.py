"""Which shim goes where: what is read, what is chosen, what is bought, and what is missing."""

import re
from pathlib import Path

import pytest

from gudgeon.bench.shims.model import NotSaid, ShimAnswer
from gudgeon.bench.shims.shims import HYDRAULIC, NOTHING, shims
from gudgeon.errors import GudgeonError, InputError
from tests.unit.bench.benches import Job
from tests.unit.bench.shim_jobs import GOOD, SHEET, SHIM_KIT, STOCK, Found, clearance, shim_job, thickness

TIGHT: Found = GOOD | {"exhaust rear": ("0.19", "0.21", "2.45")}


def ask(folder: Path, found: Found | None = None, *, sheet: str = SHEET, kit: str = SHIM_KIT) -> ShimAnswer:
    return shims(shim_job(folder, found, sheet=sheet, kit=kit).bench())


def gets(answer: ShimAnswer) -> dict[str, tuple[float, str, str]]:
    return {f"{one.side} {one.place}": (one.fitted_mm, one.comes_from, one.verdict) for one in answer.valves}


def test_what_is_good_stays(tmp_path: Path) -> None:
    answer = ask(tmp_path)
    assert {origin for _, origin, _ in gets(answer).values()} == {"stays"}
    assert answer.said == "All 4 valves are inside now. No exchange makes it better: every shim stays."
    assert (answer.settled, answer.work, answer.shopping, answer.missing) == (True, (), (), ())


def test_one_is_bought_where_every_exchange_leaves_another_valve_in_doubt(tmp_path: Path) -> None:
    # HAND: 2.45 + 0.20 − 0.30 = 2.35. The one in the rear intake would do; but of all others 2.30 leaves that valve
    # 0.24 to 0.26 and 2.40 leaves it 0.14 to 0.16, both across a limit. So one of 2.35 is bought.
    answer = ask(tmp_path, TIGHT)
    assert gets(answer)["exhaust rear"] == (2.35, "to buy", "inside")
    assert [(one.size, one.count, one.each, one.together) for one in answer.shopping] == [
        ("2.35 mm (0.0925 in)", 1, "4.80 EUR", "4.80 EUR")
    ]
    assert answer.money == "4.80 EUR"
    assert answer.said == (
        "1 of 4 valves is not proved inside now. With this choice all 4 come inside: 1 place gets another shim, "
        "1 shim is bought."
    )
    assert [step.words for run in answer.work for step in run.steps] == [
        "Take the shim 2.45 mm (0.0965 in) out of exhaust, rear and lay it into stock, its thickness written on it.",
        "Put a bought shim 2.35 mm (0.0925 in) into exhaust, rear.",
    ]
    assert [(one.size, one.now, one.after) for one in answer.stock] == [
        ("2.30 mm (0.0906 in)", 1, 1), ("2.45 mm (0.0965 in)", 0, 1),
    ]  # fmt: skip


def test_stock_is_used_before_anything_is_bought(tmp_path: Path) -> None:
    kit = SHIM_KIT.replace("{2.30 mm: 1}", "{2.36 mm: 1}")
    answer = ask(tmp_path, TIGHT, kit=kit)
    # HAND: 0.20 + 2.45 − 2.36 = 0.29, less and more 0.01.
    line = answer.valves[3]
    assert (line.comes_from, line.result, line.exact) == (
        "from stock", "0.28–0.30 mm (0.0110–0.0118 in)", "2.350 mm (0.0925 in)",
    )  # fmt: skip
    assert (answer.shopping, answer.money) == ((), "")
    assert ("shims bought", "0") in answer.aims


def test_two_places_exchange_by_way_of_a_card(tmp_path: Path) -> None:
    # HAND: 0.10 with 2.40 and 0.30 with 2.30: exchanged both have 0.20.
    found = GOOD | {"intake front": ("0.09", "0.11", "2.40"), "intake rear": ("0.29", "0.31", "2.30")}
    answer = ask(tmp_path, found)
    assert [(run.title, run.ring) for run in answer.work] == [
        ("Two places exchange, beginning at intake, front", True)
    ]
    assert [step.words for step in answer.work[0].steps] == [
        "Take the shim 2.40 mm (0.0945 in) out of intake, front and lay it aside on a card named “intake, front”.",
        "Take the shim 2.30 mm (0.0906 in) out of intake, rear and put it into intake, front.",
        "Put the shim 2.40 mm (0.0945 in) from the card named “intake, front” into intake, rear.",
    ]
    assert [one.result_mm for one in answer.valves[:2]] == [(0.19, 0.21), (0.19, 0.21)]


def test_the_measured_thickness_counts(tmp_path: Path) -> None:
    # HAND: 2.447 + 0.20 − 0.30 = 2.347; 0.19 + 2.447 − 2.35 = 0.287.
    answer = ask(tmp_path, GOOD | {"exhaust rear": ("0.19", "0.21", "2.447")})
    assert answer.valves[3].exact == "2.347 mm (0.0924 in)"
    assert answer.valves[3].result_mm == (0.287, 0.307)


def test_a_limit_must_be_cleared_by_what_the_gauges_err(tmp_path: Path) -> None:
    # HAND: a blade of ± 0.005 mm has u = 0.005 / √3 = 0.00289 mm, and 1.645 of it is 0.0048 mm: 0.254 is not sure to
    # be 0.25 or more, 0.255 is.
    near = GOOD | {"exhaust rear": ("0.254", "0.28", "2.45")}
    assert ask(tmp_path, near).valves[3].now == "in doubt"


def test_a_limit_that_is_cleared_by_it(tmp_path: Path) -> None:
    assert ask(tmp_path, GOOD | {"exhaust rear": ("0.255", "0.28", "2.45")}).valves[3].now == "inside"


def test_a_gauge_that_is_not_named_proves_nothing(tmp_path: Path) -> None:
    job = shim_job(tmp_path, GOOD | {"exhaust rear": ("", "", "2.45")})
    clearance(job, "exhaust", "rear", "0.29", "0.31", gauge="")
    answer = shims(job.bench())
    line = answer.valves[3]
    assert (line.now, line.verdict) == ("in doubt", "in doubt")
    assert line.why == "nobody states how far the gauge of the clearance may be off"
    assert not answer.settled


def test_what_no_shim_brings_inside_is_named(tmp_path: Path) -> None:
    sheet = SHEET.replace("shim_thickness: 2.00–2.80 mm", "shim_thickness: 2.40–2.80 mm")
    # HAND: 2.45 + 0.10 − 0.30 = 2.25; the thinnest of all, 2.30 in the front exhaust, leaves 0.24 to 0.26.
    answer = ask(tmp_path, GOOD | {"exhaust rear": ("0.09", "0.11", "2.45")}, sheet=sheet)
    assert [(one.valve, one.result) for one in answer.never] == [
        ("exhaust, rear", "0.24–0.26 mm (0.0094–0.0102 in)")
    ]
    assert answer.never[0].nearest.startswith("2.30 mm (0.0906 in), from ")
    assert answer.never[0].words == (
        "no shim in the places, in stock or in the series is sure to bring it inside; the nearest leaves it in doubt"
    )
    assert not answer.settled


WIDE: Found = GOOD | {"intake front": ("0.19", "0.21", "2.55"), "exhaust rear": ("0.35", "0.40", "2.50")}


def test_the_nearest_of_a_valve_in_doubt_is_the_very_shim_that_it_gets(tmp_path: Path) -> None:
    # HAND: 2.50 + 0.375 − 0.30 = 2.575: 2.55 leaves 0.30 to 0.35, on the limit. One lies in the front intake, where
    # it is right, and one in stock: that one is fitted, and is named.
    answer = ask(tmp_path, WIDE, kit=SHIM_KIT.replace("{2.30 mm: 1}", "{2.55 mm: 1}"))
    assert gets(answer)["exhaust rear"] == (2.55, "from stock", "in doubt")
    assert [one.nearest for one in answer.never] == ["2.55 mm (0.1004 in), from stock"]


def test_a_reading_too_wide_to_decide_is_named_with_the_blades_that_might(tmp_path: Path) -> None:
    # HAND: sizes 0.05 apart leave up to 0.05 of the 0.10 wanted, less the guards of both ends, so under 0.05.
    # 0.18 and 0.20 make 0.38: 0.03 or 0.02 stay open. 0.35 and 0.03 make that too, but a thin blade bends.
    blades = "blades: [0.03 mm, 0.18 mm, 0.20 mm, 0.35 mm, 0.40 mm], error: 0.002 mm}"
    kit = SHIM_KIT.replace("kind: feeler blades, error: 0.005 mm}", f"kind: feeler blades, {blades}")
    hint = ask(tmp_path, WIDE, kit=kit).never[0].hint
    begin, between, end = re.split(r"at most (?=0\.0)|(?<=mm) (?=\(0\.00\d\d in\) apart leave)", hint)
    assert begin == (
        "This choice leaves its 2.50 mm (0.0984 in) in it: the nearest is needed elsewhere. 0.35–0.40 mm "
        "(0.0138–0.0157 in) is too wide a reading for a range of 0.10 mm (0.0039 in) and sizes 0.05 mm (0.0020 in) "
        "apart: blades "
    )
    assert 0.03 <= float(between.removesuffix(" mm")) < 0.05
    assert end.endswith(
        " apart leave a shim that is sure. Blades of 0.18 mm (0.0071 in) and 0.2 mm (0.0079 in) together might "
        "settle it."
    )


def test_a_valve_that_is_inside_says_why_it_is_moved(tmp_path: Path) -> None:
    # HAND: the front intake has 0.20 with 2.40 and would have 0.20 with 2.40 from stock; its 2.40 is of no more use
    # than that. The rear one has 0.22 with 2.36, and 2.38 from stock leaves 0.20: nearer by 0.02.
    found = GOOD | {"intake rear": ("0.215", "0.225", "2.36")}
    answer = ask(tmp_path, found, kit=SHIM_KIT.replace("{2.30 mm: 1}", "{2.38 mm: 1}"))
    moved = {f"{one.side} {one.place}": one.why for one in answer.valves if one.moved}
    assert moved == {
        "intake rear": "it was inside, and comes nearer to the middle by 0.020 mm (0.00079 in)",
    }


def test_a_valve_that_gives_its_shim_says_to_which(tmp_path: Path) -> None:
    # HAND: the rear exhaust wants 2.45 + 0.20 − 0.30 = 2.35, which is in the rear intake (0.20 with 2.35); that takes
    # 2.36 from stock and has 0.19. Of the rear exhaust 2.36 would leave 0.28 to 0.30, too near for its gauges at 0.28.
    sheet = SHEET.replace("required: 0.25–0.35 mm", "required: 0.28–0.32 mm")
    answer = ask(tmp_path, TIGHT, sheet=sheet, kit=SHIM_KIT.replace("{2.30 mm: 1}", "{2.36 mm: 1}"))
    assert gets(answer)["exhaust rear"][:2] == (2.35, "from intake, rear")
    assert answer.valves[1].why == "it was inside, and gives its shim to exhaust, rear"


def test_readings_that_lack_are_named_and_the_rest_is_answered(tmp_path: Path) -> None:
    found: Found = {
        "intake front": ("", "", "2.40"),
        "exhaust front": ("0.29", "0.31", ""),
        "exhaust rear": GOOD["exhaust rear"],
    }
    answer = ask(tmp_path, found)
    assert list(gets(answer)) == ["exhaust rear"]
    rest = "nothing is said of it, and its shim stays where it is"
    assert answer.missing == (
        NotSaid("intake: clearance (all 2)", "nothing is said of them, and their shims stay where they are"),
        NotSaid("exhaust: thickness of the shim in it, by micrometer (front)", rest),
    )
    assert not answer.settled


@pytest.mark.parametrize(
    ("low", "high", "why"),
    [
        ("0.50", "", "clearance to its upper end: a blade that does not enter"),
        (
            "", "0.03",
            "clearance: no blade enters, so the valve may be held open and what lacks is unknown; fit a thinner shim and "
            "measure with that",
        ),
    ],
)  # fmt: skip
def test_a_clearance_with_one_end_settles_nothing(tmp_path: Path, low: str, high: str, why: str) -> None:
    answer = ask(tmp_path, GOOD | {"intake rear": (low, high, "2.35")})
    assert [one.missing for one in answer.missing] == [f"intake: {why} (rear)"]
    assert len(answer.valves) == 3


def test_a_shim_put_in_after_the_clearance_was_read(tmp_path: Path) -> None:
    job = shim_job(tmp_path, TIGHT)
    thickness(job, "exhaust", "rear", "2.35", condition="as left")
    why = "exhaust: clearance with the shim that is in it now: the one read was measured with another (rear)"
    assert [one.missing for one in shims(job.bench()).missing] == [why]
    clearance(job, "exhaust", "rear", "0.29", "0.31", condition="as left")
    answer = shims(job.bench())
    assert (answer.missing, answer.settled) == ((), True)


def test_work_on_the_head_since_then(tmp_path: Path) -> None:
    job = shim_job(tmp_path)
    job.record("shop-out", part="cylinder head", shop="Kern", ordered="cut the seats")
    went = shims(job.bench()).measure_again
    job.record("shop-back", part="cylinder head", found="seats cut")
    came = shims(job.bench()).measure_again
    rest = "cut seats, ground valves or a straightened head move them. Measure them again before you buy or move a shim."
    assert went == (f"All clearances were read before the cylinder head went to the shop (Kern): {rest}",)
    assert came == (
        f"All clearances were read before the cylinder head came back from the shop (Kern): {rest}",
    )
    for side in ("intake", "exhaust"):
        for place in ("front", "rear"):
            clearance(job, side, place, *GOOD[f"{side} {place}"][:2], condition="as left")
    assert shims(job.bench()).measure_again == ()


def test_other_parts_at_the_shop_do_not_matter(tmp_path: Path) -> None:
    job = shim_job(tmp_path)
    job.record("shop-out", part="head gasket", shop="Kern", ordered="look at it")
    job.record("shop-out", part="crankshaft", shop="Kern", ordered="grind")
    assert shims(job.bench()).measure_again == ()


def test_parts_that_are_renewed_while_readings_stand_as_found(tmp_path: Path) -> None:
    job = shim_job(tmp_path)
    job.record("part-disposition", part="Valves", decision="renew", why="burnt")
    assert shims(job.bench()).measure_again == (
        "Decided to be reworked or renewed: Valves. 4 of 4 clearances were read as found. If that was before the work, "
        "measure them again before you buy or move a shim.",
    )


def test_the_temperature_is_that_of_the_sheet(tmp_path: Path) -> None:
    assert ask(tmp_path).remarks == ("Clearances are set cold: readings taken otherwise do not count here.",)


def test_a_sheet_that_does_not_say_how_warm(tmp_path: Path) -> None:
    answer = ask(tmp_path, sheet=SHEET.replace("  set_at: cold\n", "  rocker_ratio: 1.5\n"))
    assert answer.remarks == (
        "The sheet does not say how warm clearances are set; cold is usual (common practice): readings taken otherwise do "
        "not count here.",
        "A rocker stands between cam and valve (ratio 1.5): a shim under it moves the clearance by that ratio, which is "
        "not counted. Change one valve first, and measure.",
    )


def test_without_a_series_only_what_is_there(tmp_path: Path) -> None:
    answer = ask(tmp_path, TIGHT, sheet=SHEET.replace("  shim_step: 0.05 mm\n", ""))
    assert answer.missing == (
        NotSaid(
            "which sizes are made: `shim_step` of `valve_gear` in the sheet",
            "nothing can be bought by this answer: only shims in the places and in stock are looked at",
        ),
    )
    assert answer.shopping == ()


def test_a_kit_without_prices(tmp_path: Path) -> None:
    answer = ask(tmp_path, TIGHT, kit=SHIM_KIT.replace("shim_price: 4.80 EUR\n", ""))
    assert answer.missing == (
        NotSaid(
            "what a shim costs, of every size: `shim_price` of the kit",
            "what they cost is not told, and does not decide",
        ),
    )
    assert (answer.money, answer.shopping[0].each) == ("", "")


def test_a_size_that_costs_more(tmp_path: Path) -> None:
    # HAND: 2.35 is right for the rear exhaust; 2.34 and 2.36 do as well, and the one of them that costs less is bought.
    kit = SHIM_KIT + "shim_prices: {2.35 mm: 6.50 EUR, 2.36 mm: 4.10 EUR, 2.34 mm: €4.20}\n"
    answer = ask(tmp_path, TIGHT, kit=kit)
    assert [(one.size, one.each) for one in answer.shopping] == [("2.36 mm (0.0929 in)", "4.10 EUR")]


def test_sizes_of_unknown_price_are_bought_last(tmp_path: Path) -> None:
    kit = SHIM_KIT.replace("shim_price: 4.80 EUR", "shim_prices: {2.36 mm: 9.99 EUR}")
    answer = ask(tmp_path, TIGHT, kit=kit)
    assert (answer.shopping[0].size, answer.money) == ("2.36 mm (0.0929 in)", "9.99 EUR")
    assert answer.missing[0].missing == "what a shim costs, of 17 of 18 sizes: `shim_price` of the kit"


def test_one_value_is_required(tmp_path: Path) -> None:
    sheet = SHEET.replace("0.25–0.35 mm", "0.30 mm")
    answer = ask(tmp_path, sheet=sheet)
    # HAND: half a step of 0.05 each way; 0.29 to 0.31 lies inside 0.275 to 0.325.
    assert {one.verdict for one in answer.valves} == {"inside"}
    assert answer.taken[0] == (
        "exhaust clearance: one value is required, so inside is what lies within half a step of the shims of it"
    )


def test_one_end_is_required(tmp_path: Path) -> None:
    answer = ask(tmp_path, sheet=SHEET.replace("0.25–0.35 mm", "min 0.25 mm"))
    assert answer.missing == (
        NotSaid(
            "the required clearance of `exhaust_gap`, with both ends",
            "the exhaust valves are not answered for",
        ),
    )
    assert len(answer.valves) == 2


def test_a_side_without_characteristics(tmp_path: Path) -> None:
    answer = ask(
        tmp_path,
        sheet=SHEET.replace("{clearance: exhaust_gap, shim: exhaust_shim}", "{clearance: exhaust_gap}"),
    )
    assert answer.missing == (
        NotSaid("`valve_gear.exhaust.shim` in the sheet", "the exhaust valves are not answered for"),
    )


def _refused(folder: Path, *, sheet: str = SHEET, kit: str = SHIM_KIT) -> InputError:
    with pytest.raises(InputError) as refused:
        ask(folder, TIGHT, sheet=sheet, kit=kit)
    return refused.value


def _line(text: str, words: str) -> int:
    return next(number for number, line in enumerate(text.splitlines(), start=1) if words in line)


@pytest.mark.parametrize(
    ("written", "message"),
    [
        (
            "shims_in_stock: {2.30: 1}",
            "shims_in_stock: `2.30` is no thickness of a shim: `2.30` has no unit. Write it with one of: mm, in, µm, thou (length). "
            "Write it with its unit, like `2.30 mm`.",
        ),
        (
            "shims_in_stock: {0 mm: 1}",
            "shims_in_stock: `0 mm` is no thickness of a shim: it is above 0. Write it with its unit, like `2.30 mm`.",
        ),
        (
            "shim_price: 4,80 EUR",
            "shim_price: `4,80 EUR` is no price. Write the amount with a point and the currency, like `4.80 EUR`.",
        ),
        (
            "shim_price: cheap",
            "shim_price: `cheap` is no price. Write the amount with a point and the currency, like `4.80 EUR`.",
        ),
        (
            "shim_prices: {2.30 mm: 4.80}",
            "shim_prices: 2.30 mm: `4.80` is no price. Write the amount with a point and the currency, like `4.80 EUR`.",
        ),
        (
            "shim_prices: {2.30 mm: 4.80 EUR, 2.35 mm: 5 USD}",
            "shim_prices: 2.35 mm: a price in USD stands beside one in EUR, and which is less cannot be said. Write all of "
            "them in one currency.",
        ),
        (
            "shim_prices: {2.30 mm: 4.80 EUR, 2.300 mm: 5 EUR}",
            "shim_prices: `2.300 mm` is the same thickness as `2.30 mm`. Write each size once.",
        ),
    ],
)  # fmt: skip
def test_a_kit_that_cannot_be_read_names_field_and_line(tmp_path: Path, written: str, message: str) -> None:
    kit = SHIM_KIT.replace(STOCK, f"\n{written}\n")
    error = _refused(tmp_path, kit=kit)
    assert error.message == message
    assert error.place is not None
    assert (Path(error.place.file).name, error.place.line) == ("kit.yaml", _line(kit, written))


def test_a_series_that_contradicts_itself_names_field_and_line(tmp_path: Path) -> None:
    sheet = SHEET.replace("shim_step: 0.05 mm", "shim_step: 0.03 mm")
    error = _refused(tmp_path, sheet=sheet)
    assert str(error) == (
        f"{tmp_path / 'sheet.yaml'}, line {_line(sheet, 'shim_step')}, column 14: valve_gear: shim_thickness, shim_step: "
        "Sizes 2 to 2.8 mm do not lie a whole number of steps of 0.03 mm apart. Read first, last and step again, or list "
        "the sizes with semicolons between them."
    )


def test_shims_read_elsewhere_than_clearances(tmp_path: Path) -> None:
    head, tail = SHEET.split("  exhaust_shim:\n")
    sheet = f"{head}  exhaust_shim:\n{tail.replace('[front, rear]', '[left, right]', 1)}"
    with pytest.raises(InputError) as refused:
        ask(tmp_path, {}, sheet=sheet)
    assert refused.value.message == (
        "The places of `exhaust_shim` are not those of `exhaust_gap`: it has no front, no rear. Give both characteristics "
        "the same places, or a clearance finds no shim."
    )
    assert refused.value.place is not None
    assert refused.value.place.line == _line(sheet, "exhaust: {clearance")


def test_a_required_clearance_below_zero(tmp_path: Path) -> None:
    sheet = SHEET.replace("0.25–0.35 mm", "-0.05 to 0.35 mm")
    assert _refused(tmp_path, sheet=sheet).message == (
        "exhaust clearance: the required clearance `-0.05 to 0.35 mm` cannot be: it is 0 or more. Check the figure and its "
        "sign."
    )


def test_screws_are_told_by_how_much_they_are_set(tmp_path: Path) -> None:
    sheet = SHEET.replace("adjustment: shims", "adjustment: screw adjusters")
    answer = ask(
        tmp_path, {"intake front": ("0.19", "0.21", ""), "exhaust rear": ("0.19", "0.21", "")}, sheet=sheet
    )
    # HAND: 0.20 is the middle of 0.15 to 0.25; 0.30 less 0.20 is 0.10 more.
    assert [(one.side, one.place, one.now, one.change) for one in answer.screws] == [
        ("intake", "front", "inside", "leave it"),
        ("exhaust", "rear", "outside", "more by 0.100 mm (0.0039 in)"),
    ]
    assert answer.screws[1].change_mm == pytest.approx(0.10)
    assert answer.said == (
        "This engine is set by screws: no shim is chosen. 1 of 2 valves is not proved inside and must be set."
    )
    assert [one.missing for one in answer.missing] == [
        "intake: clearance (rear)",
        "exhaust: clearance (front)",
    ]
    assert not answer.settled


@pytest.mark.parametrize(("adjustment", "said"), [("hydraulic lifters", HYDRAULIC), ("none", NOTHING)])
def test_nothing_to_choose(tmp_path: Path, adjustment: str, said: str) -> None:
    answer = ask(tmp_path, {}, sheet=SHEET.replace("adjustment: shims", f"adjustment: {adjustment}"))
    assert (answer.said, answer.valves, answer.sources) == (said, (), ("manual p. 30",))


def test_a_sheet_without_valve_gear(tmp_path: Path) -> None:
    answer = ask(tmp_path, {}, sheet=SHEET[: SHEET.index("\nvalve_gear:")])
    assert answer.said == "The sheet does not say how the valves are set."
    assert answer.missing[0].missing == "`valve_gear` in the sheet: how the valves are set"


def test_figures_are_locked_until_the_code_is_read(tmp_path: Path) -> None:
    from tests.unit.bench.benches import make_job

    job: Job = make_job(tmp_path, sheet=SHEET, kit=SHIM_KIT)
    with pytest.raises(GudgeonError, match=r"^Figures are locked"):
        shims(job.bench())
