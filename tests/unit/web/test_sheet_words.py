"""On a page a place of the data sheet is named in words, and leads to where it is written."""

from pathlib import Path

import pytest

from gudgeon.bench.sheet_naming import in_words
from gudgeon.web.commands import Piece
from gudgeon.web.sheet_words import sheet_pieces, without_keys
from tests.unit.bench.benches import Job, make_job
from tests.unit.bench.stories import invented


@pytest.fixture(scope="module")
def job(tmp_path_factory: pytest.TempPathFactory) -> Job:
    return invented(tmp_path_factory.mktemp("named"))


@pytest.mark.parametrize(
    ("path", "words", "figure", "part"),
    [
        # HAND: the names are those of the sheet and of its fields; list places count from one.
        ("cylinder.rod_length", "Cylinder: connecting rod length", "cylinder.rod_length", "cylinder"),
        ("cylinder.measured_as.chamber_volume", "Cylinder: measured as, chamber volume", "", "cylinder"),
        ("drive.crank_stops", "Drive of the camshafts: crank stops", "", "drive"),
        ("valve_gear.intake.lobe", "Valve gear: intake, lobe", "", "valve_gear"),
        (
            "after_start.oil_pressure.1.measured_as",
            "Proofs after the start: oil pressure no. 1, measured as",
            "",
            "after_start",
        ),
        (
            "characteristics.head_height.wear_limit",
            "Head height: wear limit",
            "characteristics.head_height.wear_limit",
            "characteristics.head_height",
        ),
    ],
)
def test_a_place_is_called_what_the_sheet_calls_it(
    job: Job, path: str, words: str, figure: str, part: str
) -> None:
    found = in_words(job.bench(), path)
    assert (found.words, found.figure, found.part) == (words, figure, part)


def test_a_section_that_the_sheet_does_not_have_is_named_and_leads_to_the_gaps(tmp_path: Path) -> None:
    job = make_job(tmp_path)
    assert job.bench().sheet.drive is None
    assert sheet_pieces(job.bench(), "drive.belt_teeth: not stated") == (
        Piece("Drive of the camshafts: belt teeth", "/sheet?open=gaps#gaps"),
        Piece(": not stated"),
    )


def test_a_text_of_the_terminal_loses_paths_file_and_keys(job: Job) -> None:
    text = "drive.crank_stops (garage/sheet.yaml, line 727, column 3): not worked out (`crank_stops`); then gudgeon cut"
    assert sheet_pieces(job.bench(), text) == (
        Piece("Drive of the camshafts: crank stops", "/sheet?open=drive#drive"),
        Piece(" (line 727 of the data sheet)"),
        Piece(": not worked out (“crank stops”); then "),
        Piece("What does the cut do?", "/cut"),
    )


def test_a_field_that_is_named_by_its_section_is_a_link_too(job: Job) -> None:
    assert sheet_pieces(job.bench(), "no place for it (cylinder: measured_as: chamber_volume)") == (
        Piece("no place for it ("),
        Piece("Cylinder: measured as, chamber volume", "/sheet?open=cylinder#cylinder"),
        Piece(")"),
    )


@pytest.mark.parametrize(
    "text", ["the head. It is", "manual p. 41", "a cylinder.", "Look at www.cylinder.example now", "0.20 mm"]
)
def test_what_is_no_place_stays_as_it_is(job: Job, text: str) -> None:
    assert "".join(piece.text for piece in sheet_pieces(job.bench(), text)) == text


def test_what_a_person_typed_stays_in_a_refusal(job: Job) -> None:
    text = "coolant still in it: `two_apples` is not a known unit of volume."
    assert sheet_pieces(job.bench(), text, keys=True) == (Piece(text),)


def test_a_key_is_words() -> None:
    assert (
        without_keys("with tool (beam_150), and `friction_class`")
        == "with tool (beam 150), and “friction class”"
    )
