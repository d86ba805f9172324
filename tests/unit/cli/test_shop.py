"""`gudgeon cut --order`, `gudgeon cut --back` and `gudgeon print shop-order` as a person types them."""

import json
from pathlib import Path

import pytest

from gudgeon.cli.main import main
from tests.unit.bench.benches import Job, make_job
from tests.unit.bench.shop.heads import KIT, SHEET, blades, head_job, heights


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = head_job(tmp_path)
    blades(made, "along", "0.10", "0.12")
    blades(made, "across", "0", "0.03")
    heights(made, *["100.000"] * 4)
    return made


def said(capsys: pytest.CaptureFixture[str]) -> str:
    return " ".join(capsys.readouterr().out.split())


def test_the_order(job: Job, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["cut", "--order", "--book", str(job.book)]) == 0
    shown = said(capsys)
    assert "! at most 0.39 mm (0.0154 in) in all" in shown
    assert "1. Straighten it before it is cut, until every camshaft turns free in its caps" in shown
    assert "multi-layer steel" in shown
    assert "On paper: gudgeon print shop-order" in shown
    assert 'Once it is given away: gudgeon record shop-out "Cylinder head" --shop …' in shown
    assert job.bench().state.shop == {}


def test_the_check(job: Job, capsys: pytest.CaptureFixture[str]) -> None:
    job.record("shop-out", part="Cylinder head", shop="mill", ordered="little", most_off="0.10 mm")
    job.record("shop-back", part="Cylinder head", found="all well")
    heights(job, *["99.860"] * 4, condition="as left")
    # HAND: 100.00 − 99.86 is 0.14, more than the 0.10 that was ordered: answered with no.
    assert main(["cut", "--back", "--book", str(job.book)]) == 1
    assert main(["cut", "--back", "--json", "--book", str(job.book)]) == 1
    capsys.readouterr()
    assert main(["cut", "--back", "--book", str(job.book)]) == 1
    shown = said(capsys)
    assert "- 0.14 mm (0.0055 in) came off, 0.04 mm (0.0016 in) more than ordered." in shown
    assert (
        "? Flatness of the head as left: not read since it came back: gudgeon record reading flatness"
        in shown
    )


def test_what_is_as_ordered_is_answered_with_yes(job: Job, capsys: pytest.CaptureFixture[str]) -> None:
    job.record("shop-out", part="Cylinder head", shop="mill", ordered="little", most_off="0.20 mm")
    job.record("shop-back", part="Cylinder head", found="all well")
    heights(job, *["99.860"] * 4, condition="as left")
    assert main(["cut", "--back", "--book", str(job.book)]) == 0
    # HAND: 99.50 is below the least of 99.60.
    heights(job, *["99.500"] * 4, condition="as left")
    assert main(["cut", "--back", "--book", str(job.book)]) == 1
    capsys.readouterr()


def test_every_table_of_the_order_says_its_limit(job: Job, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["cut", "--order", "--book", str(job.book)]) == 0
    shown = said(capsys)
    # PRINTED in the sheet.
    assert (
        "Found: Gasket face of the head, flatness (wear limit: max 0.05 mm (0.002 in) (manual p. 8))" in shown
    )
    assert "Found: Height (wear limit: min 99.60 mm (manual p. 8))" in shown


def test_json(job: Job, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["cut", "--order", "block", "--json", "--book", str(job.book)]) == 0
    assert json.loads(capsys.readouterr().out)["kind"] == "block"
    assert main(["cut", "--back", "--json", "--book", str(job.book)]) == 0
    assert json.loads(capsys.readouterr().out)["standing"].startswith("No order for it is in the book")


def test_on_paper(
    job: Job, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    assert main(["print", "shop-order", "--book", str(job.book)]) == 0
    assert main(["print", "shop-order", "--part", "block", "--size", "letter", "--book", str(job.book)]) == 0
    assert main(["print", "shop-back", "--book", str(job.book)]) == 0
    assert sorted(one.name for one in tmp_path.glob("*.pdf")) == [
        "mine-shop-back-head.pdf", "mine-shop-order-block.pdf", "mine-shop-order-head.pdf",
    ]  # fmt: skip
    assert "Written: mine-shop-order-head.pdf" in capsys.readouterr().out


@pytest.mark.parametrize(
    "what",
    [["cut", "--order"], ["cut", "--back"], ["print", "shop-order"], ["print", "shop-back"]],
    ids=" ".join,
)
def test_figures_are_locked_until_the_code_is_read(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], what: list[str]
) -> None:
    job = make_job(tmp_path, sheet=SHEET, kit=KIT)
    assert main([*what, "--book", str(job.book)]) == 2
    assert capsys.readouterr().err == (
        "Figures are locked: the engine code has not been read off the engine. The sheet is for L1-A.\n"
        "Read it (pad beside the filler) and record it: gudgeon record identity CODE --read-from WHERE\n"
    )
