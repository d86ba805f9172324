"""What set-ups see of lobes, against a part turned in them point by point, and what they are blind to."""

import math

import pytest

from gudgeon.calc.errors import NotFinite
from gudgeon.calc.metrology.lobes import SetUp, blind_to, blind_words, three_point, two_point, v_block
from gudgeon.calc.metrology.round_errors import LobesUnusual, VeeAngleOutOfRange


def turned_in_a_v(lobes: int, *, angle_deg: float) -> float:
    """The swing of an indicator over a part of support function 1 + a cos nφ, turned in a V.

    HAND: a tangent of direction φ lies at h(φ) from the part's middle. The faces have normals at ±(90° + θ/2) from the
    top; the middle moves until both tangents lie on them, which lifts it by (h1 + h2) / (2 sin θ/2).
    """
    small = 1e-6

    def height(turn: float) -> float:
        def support(direction: float) -> float:
            return 1 + small * math.cos(lobes * (direction - turn))

        half = math.radians(angle_deg) / 2
        left, right = math.pi / 2 + half, -math.pi / 2 - half
        return support(0.0) + (support(left) + support(right)) / (2 * math.sin(half))

    found = [height(2 * math.pi * step / 720) for step in range(720)]
    return (max(found) - min(found)) / (2 * small)


@pytest.mark.parametrize("angle", [60, 72, 90, 108, 120, 180])
@pytest.mark.parametrize("lobes", range(2, 10))
def test_a_part_turned_in_a_v(lobes: int, angle: float) -> None:
    assert v_block(lobes, angle_deg=angle) == pytest.approx(turned_in_a_v(lobes, angle_deg=angle), abs=1e-3)


@pytest.mark.parametrize("lobes", range(2, 10))
def test_two_and_three_contacts_in_a_bore(lobes: int) -> None:
    """HAND: contacts of a gauge that centers itself move out to their mean radius."""
    turns = [2 * math.pi * step / 720 for step in range(720)]
    across = [math.cos(lobes * t) + math.cos(lobes * (t + math.pi)) for t in turns]
    thirds = [2 / 3 * sum(math.cos(lobes * (t + k * 2 * math.pi / 3)) for k in range(3)) for t in turns]
    assert two_point(lobes) == pytest.approx((max(across) - min(across)) / 2, abs=1e-9)
    assert three_point(lobes) == pytest.approx((max(thirds) - min(thirds)) / 2, abs=1e-9)


@pytest.mark.parametrize(
    ("set_up", "angle", "blind"),
    [
        ("two-point", 90.0, (3, 5, 7, 9)),
        ("three-point inside", 90.0, (2, 4, 5, 7, 8)),
        ("V-block", 90.0, (4, 7, 9)),
        ("V-block", 60.0, (2, 4, 5, 7, 8)),
        ("V-block", 180.0, (3, 5, 7, 9)),
    ],
)
def test_what_a_set_up_is_blind_to(set_up: SetUp, angle: float, blind: tuple[int, ...]) -> None:
    # HAND, for 90°: 135° n ends at 180° for n = 4 and 9·135 = 1215 = 135° → 1 − 1 = 0; f(4) = 0.414, f(7) = f(9) = 0
    assert blind_to(set_up, angle_deg=angle, most_lobes=9) == blind


def test_in_words() -> None:
    assert blind_words("two-point") == (
        "A two-point gauge (micrometer, bore gauge) does not see an odd number of lobes: 3, 5, 7."
    )
    assert blind_words("three-point inside") == (
        "A three-point inside gauge does not see ovality, nor any lobes but 3, 6, 9."
    )
    assert blind_words("V-block", angle_deg=90) == (
        "An indicator over a V-block of 90° hardly sees these numbers of lobes: 4, 7."
    )
    # HAND: with 1 / sin 22.5° = 2.613 the least of n = 2 to 7 is |1 − 2.613 · 0.707| = 0.85, at n = 2
    assert blind_words("V-block", angle_deg=45) == "An indicator over a V-block of 45° sees 2 to 7 lobes."


@pytest.mark.parametrize("lobes", [1, 0, -3, 2.5, math.nan, math.inf, 1001])
def test_no_number_of_lobes(lobes: float) -> None:
    with pytest.raises(LobesUnusual) as refusal:
        two_point(lobes)
    assert str(refusal.value) == (
        f"{lobes:g} lobes cannot be: it is a whole number from 2 to 1000. A single one is a part that runs out, "
        "more are roughness (ISO 12181-1). Count the high places in one turn."
    )


def test_no_v() -> None:
    for angle in (0.0, -90.0, 181.0):
        with pytest.raises(VeeAngleOutOfRange) as refusal:
            v_block(3, angle_deg=angle)
        assert str(refusal.value) == (
            f"An angle of {angle:g}° between the faces cannot be: it is above 0° and at most 180°. "
            "90° and 120° are usual."
        )
    with pytest.raises(NotFinite):
        v_block(3, angle_deg=math.nan)
