"""The card of a joint in the terminal, where a gate holds the next pull back."""

from pathlib import Path

import pytest

from gudgeon.book.gates import NOT_LOOKED
from gudgeon.cli.main import main
from tests.unit.bench.benches import make_job
from tests.unit.bench.stories import DEMO


def test_a_joint_that_a_gate_holds_back_says_so_in_place_of_the_next_pull(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The words are those with which `record pull` refuses."""
    made = make_job(
        tmp_path,
        sheet=(DEMO / "sheet.yaml").read_text(encoding="utf-8"),
        kit=(DEMO / "kit.yaml").read_text(encoding="utf-8"),
    )
    made.record("identity-read", code="TW18-D4", read_from="pad")
    made.record("turned", by="hand", seen="two turns, free")
    assert main(["tighten", "camshaft_caps", "--book", str(made.book)]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert f"no next pull, not now: {NOT_LOOKED}" in said
    assert "Turn it until no piston is near the top, then: gudgeon record hold pistons_halfway VALUE." in said
