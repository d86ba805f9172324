"""`gudgeon judge WHAT --picture FILE.svg` as a person types it."""

import json
from pathlib import Path
from xml.etree import ElementTree

import pytest

from gudgeon.cli.main import main
from tests.unit.bench.benches import make_job
from tests.unit.bench.test_pictures import FACED


@pytest.fixture
def book(tmp_path: Path) -> str:
    job = make_job(tmp_path, sheet=FACED)
    job.read_code()
    job.record(
        "reading", item="head_face", place="along", low="0.08 mm", high="0.09 mm", instrument="feelers"
    )
    return str(job.book)


def test_the_picture_is_written_and_its_place_said(
    book: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "head.svg"
    assert main(["judge", "head_face", "--book", book, "--picture", str(file)]) == 1, "one line is outside"
    assert capsys.readouterr().out.startswith(f"Picture: {file}\n")
    assert ElementTree.parse(file).getroot().tag == "{http://www.w3.org/2000/svg}svg"


def test_json_stays_json(book: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "head.svg"
    main(["judge", "head_face", "--book", book, "--picture", str(file), "--json"])
    said = capsys.readouterr()
    assert json.loads(said.out)["rows"]
    assert said.err == f"Picture: {file}\n"


@pytest.mark.parametrize(
    ("asked", "file", "refusal"),
    [
        (
            [], "a.svg",
            "--picture shows one characteristic, and none was named. Name it, like `gudgeon judge bore --picture "
            "bore.svg`; `gudgeon judge` lists them.",
        ),
        (["head_face"], "a.png", "{file} does not end in .svg, and the picture is an SVG drawing. Name the file so."),
        (
            ["head_face"], "no/a.svg",
            "The folder {folder} is not there, so no picture is written. Make it, or name another.",
        ),
        (
            ["head_face"], "kept.svg",
            "{file} exists already and is left as it is. Name another file, or take it away first.",
        ),
    ],
)  # fmt: skip
def test_what_cannot_be_written_is_refused(
    book: str, tmp_path: Path, capsys: pytest.CaptureFixture[str], asked: list[str], file: str, refusal: str
) -> None:
    (tmp_path / "kept.svg").write_text("mine", encoding="utf-8")
    path = tmp_path / file
    assert main(["judge", *asked, "--book", book, "--picture", str(path)]) == 2
    assert refusal.format(file=path, folder=path.parent) in capsys.readouterr().err
    assert (tmp_path / "kept.svg").read_text("utf-8") == "mine"
