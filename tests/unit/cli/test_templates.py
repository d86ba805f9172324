"""`gudgeon trace` and `gudgeon print template`: from a photo to a card, and nothing is written over unasked."""

import json
import re
from pathlib import Path

import pytest
from PIL import Image

from gudgeon.cli.main import main
from tests.pinhole import SHEET, Camera
from tests.unit.book.photos import saved
from tests.unit.paper import cards

CAMERA = Camera()
HOLES = {"1": (40.0, 240.0), "2": (170.0, 240.0), "3": (150.0, 60.0), "4": (50.0, 50.0)}


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("GUDGEON_BOOK", str(cards.job(tmp_path).book))
    monkeypatch.chdir(tmp_path)
    (tmp_path / "face.png").write_bytes(saved(Image.new("L", CAMERA.size, 150), "PNG"))
    return tmp_path


def said() -> list[str]:
    corners = ["{:.1f},{:.1f}={:g},{:g}".format(*CAMERA.sees(one), *one) for one in SHEET]
    places = ["{}={:.1f},{:.1f}".format(name, *CAMERA.sees(one)) for name, one in HOLES.items()]
    pairs = [("--corner", one) for one in corners] + [("--place", one) for one in places]
    return [
        "trace",
        "face.png",
        "--joint",
        "many",
        "--pointed",
        "1.5",
        *(word for pair in pairs for word in pair),
    ]


def test_from_a_photo_to_a_card(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main([*said(), "--out", "positions.yaml"]) == 0
    told = capsys.readouterr().out
    assert "Test bolts, traced from face.png" in told
    assert "170.0 mm       240.0 mm   ± 0." in told
    assert "Print it: gudgeon print template many --positions positions.yaml" in told
    assert main(["print", "template", "many", "--positions", "positions.yaml", "--size", "letter"]) == 0
    assert main(["print", "template", "many", "--positions", "positions.yaml", "--mirrored"]) == 0
    made = [folder / f"mine-template-many{way}.pdf" for way in ("", "-mirrored")]
    assert all(b"/PrintScaling/None" in one.read_bytes() for one in made)


def test_without_a_file_the_lines_are_shown(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(said()) == 0
    assert "bolts:\n  1: {x: 40.0 mm, y: 240.0 mm}  # ± 0." in capsys.readouterr().out
    assert main([*said(), "--json"]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert [one["name"] for one in answer["answer"]["places"]] == ["1", "2", "3", "4"]
    assert answer["written"] == ""


def test_refusals(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["print", "template", "many"]) == 2
    assert "so no template can be made of it. Write `x:`" in capsys.readouterr().err
    (folder / "positions.yaml").write_text("mine", encoding="utf-8")
    assert main([*said(), "--out", "positions.yaml"]) == 2
    assert capsys.readouterr().err.startswith("positions.yaml exists already and is left as it is.")
    assert main(["print", "template", "many", "--positions", "none.yaml"]) == 2
    assert "none.yaml" in capsys.readouterr().err
    assert list(folder.glob("*.pdf")) == []


def test_a_photo_pointed_at_exactly_and_a_file_too_coarse_are_refused(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    for pixels in ("0", "-3"):
        asked = said()
        asked[asked.index("--pointed") + 1] = pixels
        assert main(asked) == 2
        assert capsys.readouterr().err.startswith(
            f"Uncertainty of a picked point {pixels} px cannot be: it is above 0."
        )
    assert main([*said(), "--out", "positions.yaml"]) == 0
    file = folder / "positions.yaml"
    file.write_text(
        re.sub(r"off_by: .*", "off_by: 30 mm", file.read_text(encoding="utf-8")), encoding="utf-8"
    )
    capsys.readouterr()
    assert main(["print", "template", "many", "--positions", "positions.yaml"]) == 2
    assert capsys.readouterr().err.startswith(
        "These positions may be off by up to 30 mm; above 3 mm no template"
    )
    assert list(folder.glob("*.pdf")) == []
