"""The parts list: after which use a part is renewed, and how parts like it wear out. All figures invented."""

import pytest

from gudgeon.errors import InputError
from gudgeon.sheet.load import parse_sheet
from gudgeon.sheet.parts import Part, Use
from tests.unit.sheet.sheets import SMALL


def part(more: str) -> Part:
    text = f"{SMALL}parts:\n  belt: {{name: Belt, {more}}}\n"
    return parse_sheet(text, file="s.yaml").sheet.parts["belt"]


def refusal(more: str) -> str:
    with pytest.raises(InputError) as caught:
        part(more)
    return str(caught.value)


def use(text: str) -> Use:
    found = part(f"source: manual p. 8, renew_after: {text}").renew_after
    assert found is not None
    return found.value


def test_distance_and_age_in_either_order() -> None:
    one, other = use("60000 km or 60 months"), use('"5 years or 60000 km, whichever comes first"')
    # HAND: a year has 12 months.
    for found in (one, other):
        assert found.distance is not None
        assert (found.distance.middle_in("km"), found.months) == (60000.0, 60)
    assert str(one) == "60000 km or 60 months"


def test_one_of_the_two_is_enough_and_miles_are_miles() -> None:
    miles = use("60000 mi").distance
    assert miles is not None
    # HAND: a mile is 1.609344 km (international yard and pound agreement, 1959).
    assert miles.middle_in("km") == pytest.approx(96560.64)
    assert (use("60 months").distance, use("60 months").months) == (None, 60)


@pytest.mark.parametrize(
    "text", ["soon", "60000", "0 km", "0 months", "60 months or 5 years", "1 km or 2 km", "4–5 km"]
)
def test_what_is_no_use_is_refused(text: str) -> None:
    assert (
        f"`{text}` is no use of a part. Write one distance, an age in months or years, or both: "
        "`60000 km or 60 months`."
    ) in refusal(f'source: manual p. 8, renew_after: "{text}"')


def test_a_use_needs_a_source() -> None:
    assert "`5 years` has no source. Every figure needs one: `source: manual p. 41`." in refusal(
        "renew_after: 5 years"
    )
    own = part("renew_after: {value: 5 years, source: manual p. 8}").renew_after
    assert own is not None
    assert str(own.source) == "manual p. 8"


def test_a_life_has_shape_and_characteristic_life() -> None:
    wear = part("wear: {shape: 3.5, life: 90000 km, source: manual p. 8}").wear
    assert wear is not None
    assert (wear.shape.value.middle_in("1"), str(wear.life.value)) == (3.5, "90000 km")


@pytest.mark.parametrize("life", ["90000 km or 90 months"])
def test_a_life_counts_in_one_unit(life: str) -> None:
    assert (
        f"A life is one distance or one age; `{life}` is not. Take the one that wears it out."
    ) in refusal(f'wear: {{shape: 3.5, life: "{life}", source: manual p. 8}}')


@pytest.mark.parametrize("shape", ["0", "3–4", "max 3"])
def test_a_shape_is_one_number_above_nothing(shape: str) -> None:
    assert f"`{shape}` is no shape of a life. Write one number above 0, like `3`." in refusal(
        f'wear: {{shape: "{shape}", life: 90000 km, source: manual p. 8}}'
    )
