"""Keys under which suppliers sell, against the parts of the sheet."""

from pathlib import Path

from gudgeon.bench.kit_parts import unknown_parts
from gudgeon.demo import __file__ as demo
from gudgeon.kit.load import load_kit, parse_kit
from gudgeon.sheet.load import load_sheet

FOLDER = Path(demo).parent
SHEET = load_sheet(FOLDER / "sheet.yaml").sheet
SELLS = (
    "gudgeon: kit 1\nsuppliers:\n  n:\n    name: North\n    shipping: 5 EUR\n"
    "    sells: {head_gaskets: 40 EUR, timing_belt: 30 EUR, wiper: 9 EUR}\n"
)


def test_a_key_that_is_no_part_is_named_with_the_nearest() -> None:
    (told,) = unknown_parts(parse_kit(SELLS, file="kit.yaml").kit, SHEET)
    assert (
        told == "North sells what the sheet lists as no part: `head_gaskets` (`head_gasket` is one), `wiper`."
    )


def test_the_demo_sells_only_parts() -> None:
    assert list(unknown_parts(load_kit(FOLDER / "kit.yaml").kit, SHEET)) == []
