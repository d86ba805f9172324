"""What a torque tool cannot be is refused with its line, in words."""

import pytest

from gudgeon.errors import InputError
from gudgeon.kit.load import parse_kit
from gudgeon.kit.model import Kit

USUAL = "name: one, kind: click, range: 40–200 N·m, step: 1 N·m"


def kit(wrench: str = USUAL, more: str = "") -> Kit:
    return parse_kit(f"gudgeon: kit 1\nwrenches:\n  one: {{{wrench}}}\n{more}", file="kit.yaml").kit


@pytest.mark.parametrize(
    ("wrench", "said"),
    [
        (USUAL.replace("40–200", "200"), "`200 N·m` is not the range of a scale. Write `20–100 N·m`."),
        (
            USUAL.replace("step: 1 N", "step: 0 N"),
            "The step of the scale must be above zero, and less than the scale.",
        ),
        (
            USUAL.replace("step: 1 N", "step: 300 N"),
            "The step of the scale must be above zero, and less than the scale.",
        ),
        (
            USUAL.replace("step: 1 N·m", "step: 1 lbf·ft"),
            "`1 lbf·ft` is not in the unit of the scale. Write it in N·m.",
        ),
        (f"{USUAL}, type: I", "A click wrench is set beforehand: it is of type II, not I."),
        (
            f"{USUAL}, type: II".replace("click", "beam"),
            "A beam wrench shows the torque: it is of type I, not II.",
        ),
        (
            f"{USUAL}, class: B".replace("click", "electronic"),
            "Write the type too, I (shows the torque) or II",
        ),
        (f"{USUAL}, class: G".replace("click", "beam"), "Type I has the classes A to E; `G` was found."),
        (f"{USUAL}, length: 380–400 mm", "`380–400 mm` is not one length. Write it like `380 mm`."),
        (f"{USUAL}, clicks_since: -1", "clicks_since"),
        (f"{USUAL}, direction: left", "direction"),
        (
            f"{USUAL}, second_scale: {{range: 30–250 lbf·ft, step: 1 lbf·ft}}",
            "The two scales do not end together: `40–200 N·m` and `30–250 lbf·ft`. Look at the wrench again.",
        ),
    ],
)
def test_wrenches_refused(wrench: str, said: str) -> None:
    with pytest.raises(InputError) as caught:
        kit(wrench)
    assert said in str(caught.value)
    assert "kit.yaml, line 3, column " in str(caught.value)


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ("adapters: {foot: {name: foot, length: 0 mm}}", "The length of an adapter must be above zero."),
        ("adapters: {foot: {name: foot, length: 50 mm, angle: 80–90°}}", "`80–90°` is not one angle."),
        ("spring_scales: {fish: {name: fish, range: 100 N}}", "`100 N` is not the range of a spring scale."),
    ],
)
def test_others_refused(more: str, said: str) -> None:
    with pytest.raises(InputError) as caught:
        kit(more=more)
    assert said in str(caught.value)


def test_type_and_class_as_the_standard_names_them() -> None:
    assert kit(f"{USUAL}, class: A").wrenches["one"].iso_class == "II A"
    assert (
        kit(f"{USUAL}, type: I, class: C".replace("click", "electronic")).wrenches["one"].iso_class == "I C"
    )
    assert kit().wrenches["one"].iso_class == ""
