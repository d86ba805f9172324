"""`gudgeon print measuring|lists|holds|set`: a book in which nothing is recorded prints them all, without a figure."""

from pathlib import Path

import pytest

from gudgeon.cli.main import main
from tests.unit.bench.benches import KIT
from tests.unit.paper.reading import words
from tests.unit.sheet.sheets import SMALL


def test_a_new_book_prints_the_whole_set(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "sheet.yaml").write_text(SMALL, encoding="utf-8")
    (tmp_path / "kit.yaml").write_text(f"{KIT}paper: letter\n", encoding="utf-8")
    monkeypatch.setenv("GUDGEON_BOOK", str(tmp_path / "book.gudgeon"))
    monkeypatch.chdir(tmp_path)
    assert main(["begin", "mine", "--sheet", "sheet.yaml", "--kit", "kit.yaml"]) == 0
    for what in ("measuring", "lists", "holds", "set"):
        assert main(["print", what]) == 0
    found = sorted(path.name for path in tmp_path.glob("*.pdf"))
    assert found == [
        "mine-bench-set.pdf",
        "mine-hold-points.pdf",
        "mine-lists.pdf",
        "mine-measuring-sheets.pdf",
    ]
    locked = words((tmp_path / "mine-bench-set.pdf").read_bytes())
    assert "Figuresareleftout" in locked
    assert "24N·m" not in locked
    assert main(["record", "identity", "L1-A", "--read-from", "pad"]) == 0
    assert main(["print", "set", "--over"]) == 0
    said = words((tmp_path / "mine-bench-set.pdf").read_bytes())
    assert "Figuresareleftout" not in said
    assert "24N·m" in said
    assert "wearlimitmax0.05mm(0.002in)" in said
    assert "Notmeasuredinthisjob:Crankjournal." in said
    assert "Written: mine-bench-set.pdf" in capsys.readouterr().out
