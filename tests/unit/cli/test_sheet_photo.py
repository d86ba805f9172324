"""`gudgeon sheet photo`: a photo of a page kept from the terminal, by the same function as from a page."""

from pathlib import Path

import pytest

from gudgeon.cli.main import main
from gudgeon.sheet.load import load_sheet
from tests.unit.bench.photos import JPEG, NO_PHOTOS, kept
from tests.unit.sheet.sheets import SMALL


def test_a_photo_is_kept_and_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    sheet, photo = tmp_path / "s.yaml", tmp_path / "IMG_1.jpg"
    sheet.write_text(SMALL, encoding="utf-8")
    photo.write_bytes(JPEG)
    assert main(["sheet", "photo", str(sheet), "manual", "49", str(photo)]) == 0
    named = load_sheet(sheet).sheet.sources["manual"].photos["p. 49"]
    assert (tmp_path / named).read_bytes() == kept(JPEG)
    said = capsys.readouterr().out
    assert said.startswith(f"Kept: {named}, the photo of manual p. 49\n")
    assert "a place perhaps, is left behind" in said


@pytest.mark.parametrize(
    ("source", "name", "content", "said"),
    [
        ("other", "a.jpg", JPEG, "`other` is no source of this sheet. It has: manual."),
        ("manual", "a.jpg", NO_PHOTOS["page.pdf"], "`a.jpg` is not taken"),
        ("manual", "missing.jpg", b"", "missing.jpg: No such file or directory."),
    ],
)
def test_refusals_write_nothing(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], source: str, name: str, content: bytes, said: str
) -> None:
    sheet, photo = tmp_path / "s.yaml", tmp_path / name
    sheet.write_text(SMALL, encoding="utf-8")
    if content:
        photo.write_bytes(content)
    assert main(["sheet", "photo", str(sheet), source, "p. 4", str(photo)]) == 2
    assert said in capsys.readouterr().err
    assert sheet.read_text(encoding="utf-8") == SMALL
    assert not (tmp_path / "photos").exists()
