"""Writing a figure from a page: twice where it is critical, only onto the sheet that was shown, in one step."""

from pathlib import Path
from typing import Any

import pytest

from gudgeon.bench.sheet_file import SheetChanged, SheetGone
from gudgeon.bench.sheet_settling import settle_finding
from gudgeon.bench.sheet_writing import (
    FigureSaid,
    FigureWritten,
    NothingWritten,
    NotTypedTwice,
    figure_form,
    write_figure,
)
from gudgeon.book.picture_errors import NotAPhoto
from gudgeon.errors import InputError
from gudgeon.sheet.write import NoSuchFigure, NotTheSame
from gudgeon.written.errors import FileRefused
from tests.unit.bench.benches import Job, make_job
from tests.unit.bench.photos import JPEG
from tests.unit.sheet.sheets import SMALL


@pytest.fixture
def job(tmp_path: Path) -> Job:
    return make_job(tmp_path)


def write(job: Job, path: str, *, made_from: str | None = None, **said: Any) -> FigureWritten:
    bench = job.bench()
    given = FigureSaid(**{"source": "manual", "page": "p. 12", **said})
    return write_figure(bench, path, given=given, made_from=made_from or bench.papers.sheet_sha)


def text(tmp_path: Path) -> str:
    return (tmp_path / "sheet.yaml").read_text(encoding="utf-8")


def test_the_form_says_what_stands_there_and_what_is_asked(job: Job) -> None:
    form = figure_form(job.bench(), "cylinder.stroke")
    assert (form.now, form.source, form.page, form.part, form.name) == (
        "66.0 mm", "manual", "p. 2", "Cylinder", "Stroke",
    )  # fmt: skip
    assert not form.critical
    torque = figure_form(job.bench(), "joints.head.program.3.torque")
    assert (torque.now, torque.critical, torque.takes_source) == ("24 N·m (17.7 lbf·ft)", True, False)
    empty = figure_form(job.bench(), "cylinder.rod_length")
    assert (empty.now, empty.name) == ("", "Connecting rod length")


def test_a_figure_is_written_and_the_rest_stays(job: Job, tmp_path: Path) -> None:
    done = write(job, "cylinder.bore", value=" 70.02  mm ", page="13", note="cold")
    assert (done.before, done.source, done.printed) == ("70.00 mm", "manual p. 13", "70.02 mm")
    written = "  bore: {value: 70.02 mm, source: manual p. 13, note: cold}"
    assert text(tmp_path) == SMALL.replace("  bore: 70.00 mm", written)
    assert job.bench().sheet.cylinder is not None


@pytest.mark.parametrize(
    ("again", "error"), [("", NotTypedTwice), ("26 N·m", NotTheSame), ("25 n·m", NotTheSame)]
)
def test_a_critical_figure_is_typed_twice(
    job: Job, tmp_path: Path, again: str, error: type[InputError]
) -> None:
    with pytest.raises(error):
        write(job, "joints.head.program.3.torque", value="25 N·m", again=again)
    assert text(tmp_path) == SMALL
    write(job, "joints.head.program.3.torque", value="25 N·m", again="25  N·m")
    assert "- torque: 25 N·m\n" in text(tmp_path)


@pytest.mark.parametrize(
    ("path", "said", "error"),
    [
        ("cylinder.bore", {"value": ""}, NothingWritten),
        ("cylinder.bore", {"value": "70"}, FileRefused),
        ("cylinder.bore", {"value": "70 N·m"}, FileRefused),
        ("cylinder.bore", {"value": "71 mm", "source": ""}, FileRefused),
        ("cylinder.bore", {"value": "71 mm", "page": ""}, FileRefused),
        ("cylinder.bore", {"value": "71 mm", "source": "other"}, FileRefused),
        ("cylinder.bore", {"value": "71 mm", "photo": b"no photo"}, NotAPhoto),
        ("engine.name", {"value": "71 mm"}, NoSuchFigure),
        ("", {"value": "71 mm"}, NoSuchFigure),
        ("characteristics.other.new_range", {"value": "71 mm"}, FileRefused),
        ("joints.head.program.9.torque", {"value": "7 N·m", "again": "7 N·m"}, NoSuchFigure),
    ],
)
def test_refusals_write_nothing(
    job: Job, tmp_path: Path, path: str, said: dict[str, Any], error: type[InputError]
) -> None:
    with pytest.raises(error):
        write(job, path, **said)
    assert text(tmp_path) == SMALL
    assert not (tmp_path / "photos").exists()


def test_a_sheet_that_changed_in_the_meantime_is_not_written(job: Job, tmp_path: Path) -> None:
    shown = job.bench().papers.sheet_sha
    (tmp_path / "sheet.yaml").write_text(SMALL.replace("70.00 mm", "70.50 mm"), encoding="utf-8")
    with pytest.raises(SheetChanged, match="Nothing was written"):
        write(job, "cylinder.stroke", value="66.1 mm", made_from=shown)
    assert "stroke: {value: 66.0 mm" in text(tmp_path)
    assert "70.50 mm" in text(tmp_path)


def test_two_at_once_lose_nothing(job: Job, tmp_path: Path) -> None:
    """Of two forms made from one text the first is written, the second told."""
    shown = job.bench().papers.sheet_sha
    write(job, "cylinder.bore", value="70.01 mm", made_from=shown)
    with pytest.raises(SheetChanged):
        write(job, "cylinder.stroke", value="66.1 mm", made_from=shown)
    assert "70.01 mm" in text(tmp_path)


def test_line_endings_of_another_system_stay(job: Job, tmp_path: Path) -> None:
    file = tmp_path / "sheet.yaml"
    file.write_bytes(SMALL.replace("\n", "\r\n").encode())
    write(job, "cylinder.bore", value="70.02 mm", page="p. 3")
    assert file.read_bytes() == SMALL.replace("70.00 mm", "70.02 mm").replace("\n", "\r\n").encode()


def test_the_file_gone_is_said(job: Job, tmp_path: Path) -> None:
    (tmp_path / "sheet.yaml").unlink()
    with pytest.raises(SheetGone):
        write(job, "cylinder.bore", value="70.02 mm")
    assert not (tmp_path / "sheet.yaml").exists()


def test_what_the_book_holds_against_the_old_figure_is_counted(job: Job) -> None:
    job.read_code()
    for place in ("along", "across"):
        job.record("reading", item="head_face", place=place, value="0.02", unit="mm", instrument="feelers")
    job.pull(1, "1")
    for bolt in ("1", "3"):
        job.pull(2, bolt, "clicked while turning")
    [judged] = figure_form(job.bench(), "characteristics.head_face.wear_limit").judged
    assert judged.startswith("2 readings of Head face, flatness in the book")
    stage, others = figure_form(job.bench(), "joints.head.program.2.torque").judged
    assert stage.startswith("2 pulls of stage 2 of Head nuts in the book, made to the old figure")
    assert others == "1 pull of other stages of Head nuts in the book."
    assert figure_form(job.bench(), "cylinder.bore").judged == ()
    done = write(job, "characteristics.head_face.wear_limit", value="max 0.06 mm", again="max 0.06 mm")
    assert done.judged == (judged,)


def test_a_photo_comes_with_the_figure_in_one_step(job: Job, tmp_path: Path) -> None:
    done = write(job, "cylinder.bore", value="70.02 mm", photo=JPEG, photo_name="IMG_1.JPG")
    assert done.photo is not None
    assert done.photo.page == "p. 12"
    form = figure_form(job.bench(), "cylinder.bore")
    assert form.cited is not None
    assert form.cited.photo == done.photo.photo
    stage = write(
        job, "joints.head.program.3.torque", value="24 N·m", again="24 N·m", photo=JPEG, photo_name="x"
    )
    assert stage.photo is not None
    assert (stage.photo.source, stage.photo.page) == ("manual", "p. 9")  # a stage is cited as its joint is
    assert len(list((tmp_path / "photos").iterdir())) == 1


def test_a_finding_is_settled_on_the_sheet_that_was_shown(tmp_path: Path) -> None:
    job = make_job(tmp_path, sheet=SMALL.replace("max 0.05 mm (0.002 in)", "max 0.05 mm (0.02 in)"))
    bench = job.bench()
    [key] = [one.key for one in figure_form(bench, "characteristics.head_face.wear_limit").findings]
    with pytest.raises(SheetChanged):
        settle_finding(bench, key, decision="kept", why="it is so", made_from="another")
    with pytest.raises(InputError, match="reason is empty"):
        settle_finding(bench, key, decision="kept", why=" ", made_from=bench.papers.sheet_sha)
    settle_finding(
        bench, key, decision="asked", why="the dealer, by telephone", made_from=bench.papers.sheet_sha
    )
    [settled] = job.bench().sheet.settled
    assert (settled.finding, settled.decision, settled.why) == (key, "asked", "the dealer, by telephone")
    assert settled.on == bench.now.date()
