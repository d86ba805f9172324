"""A blank kit is empty as it stands, and becomes a kit when its `#` are taken away."""

from gudgeon.kit.gauges import kinds_of_gauge
from gudgeon.kit.load import parse_kit
from gudgeon.kit.schema import blank_kit


def test_a_blank_kit_holds_nothing_and_is_no_error() -> None:
    kit = parse_kit(blank_kit(), file="kit.yaml").kit
    assert not kit.wrenches
    assert not kit.gauges
    assert not kit.turning


def test_every_example_of_the_blank_kit_loads() -> None:
    text = "\n".join(" " + line[1:] if line.startswith("#  ") else line for line in blank_kit().splitlines())
    kit = parse_kit(text, file="kit.yaml").kit
    assert kit.wrenches["half_inch"].range.text == "40–200 N·m"
    assert kit.gauges["compression"].reads == "pressure_gauge"
    assert kit.gauges["bore_gauge"].zeroed_in == "micrometer_100"
    kinds = {gauge.kind for gauge in kit.gauges.values()}
    assert all(
        kind in kinds or f"{kind}," in blank_kit() or f"{kind}\n" in blank_kit() for kind in kinds_of_gauge()
    )
    assert set(kit.turning) == {"angle_gauge", "bar"}
    assert kit.hours is not None
