"""The page on shims says what the program does: its figures are those of the invented job, its examples work."""

import re
import shlex
from pathlib import Path

import pytest

from gudgeon.bench.context import open_bench
from gudgeon.bench.judging.decision import NORMAL
from gudgeon.bench.shims.model import ShimAnswer
from gudgeon.bench.shims.shims import shims
from gudgeon.calc.calculator import run
from gudgeon.cli.main import main
from gudgeon.kit.load import parse_kit
from tests.house.code import ROOT

PAGE = " ".join((ROOT / "docs" / "how-it-works" / "shims.md").read_text("utf-8").split())


@pytest.fixture(scope="module")
def answer(tmp_path_factory: pytest.TempPathFactory) -> ShimAnswer:
    folder = tmp_path_factory.mktemp("demo") / "job"
    assert main(["demo", "--folder", str(folder)]) == 0
    bench = open_bench(folder / "book.gudgeon")
    bench.store.close()
    return shims(bench)


def _short(text: str) -> str:
    return text.partition(" (")[0]


def test_the_invented_job_is_told_as_it_is(answer: ShimAnswer) -> None:
    told = PAGE[PAGE.index("The invented job: ") : PAGE.index("## What it says besides")]
    bad = [f"{one.side}, {one.place}" for one in answer.valves if one.now != "inside"]
    assert bad == [
        "exhaust, cylinder 2, timing side", "exhaust, cylinder 3, timing side", "exhaust, cylinder 3, flywheel side",
    ]  # fmt: skip
    assert f"{len(bad)} of {len(answer.valves)} valves are not proved inside" in told
    assert {one.verdict for one in answer.valves} == {"inside"}
    assert (
        f"with {dict(answer.aims)['places that get another shim']} places touched and nothing bought" in told
    )
    assert answer.shopping == ()
    moved = {
        one.place: (_short(one.shim), _short(one.fitted), one.comes_from)
        for one in answer.valves
        if one.moved
    }
    assert moved == {
        "cylinder 2, timing side": ("2.45 mm", "2.40 mm", "from exhaust, cylinder 3, flywheel side"),
        "cylinder 3, timing side": ("2.50 mm", "2.40 mm", "from stock"),
        "cylinder 3, flywheel side": ("2.40 mm", "2.35 mm", "from stock"),
    }
    assert "2.45 mm comes out of cylinder 2, the 2.40 mm of cylinder 3, flywheel side goes in" in told
    assert "that place gets 2.35 mm from stock, and its neighbor 2.40 mm from stock for 2.50 mm" in told
    assert len(answer.measure_again) == 1
    assert answer.measure_again[0].startswith("All clearances")


def test_the_factor_is_that_of_the_program() -> None:
    assert f"by {NORMAL:g} standard uncertainties" in PAGE


def test_the_example_works() -> None:
    command = re.search(r"`(gudgeon calc engine\.shim [^`]*)`", PAGE)
    assert command is not None
    _, _, name, *inputs = shlex.split(command[1])
    found = run(name, dict(one.split("=", 1) for one in inputs))
    # HAND: 2.45 + 0.24 − 0.30 = 2.39, nearest 2.40.
    assert found["fitted_mm"] == 2.4


def test_the_kit_on_its_page_has_prices() -> None:
    text = Path(ROOT / "docs" / "kit.md").read_text("utf-8")
    example = next(one for one in re.findall(r"```yaml\n(.*?)```", text, re.DOTALL) if "shim_price:" in one)
    kit = parse_kit(example, file="kit.yaml").kit
    assert (kit.shim_price, kit.shim_prices) == ("4.80 EUR", {"2.60 mm": "6.20 EUR"})
