"""The measuring sheets: every place of the job, blank or with what the book has, and no figure before the code was read."""

import re
from collections.abc import Iterator
from importlib import resources
from pathlib import Path

from gudgeon.bench.answer import plain
from gudgeon.bench.good import inspect
from gudgeon.bench.on_paper.measuring_sheets import MeasuringSheet, measuring_sheets
from tests.unit.bench.benches import Job, make_job
from tests.unit.bench.judging.judged import Scanned, bench_with
from tests.unit.bench.judging.test_scan_proof import FACE, FACES, twisted
from tests.unit.bench.stories import DEMO, invented


def sheet(job: Job, item: str) -> MeasuringSheet:
    return next(one for one in measuring_sheets(job.bench()).sheets if one.item == item)


def texts(value: object) -> Iterator[str]:
    """Every text in an answer."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for inner in value.values():
            yield from texts(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from texts(inner)


def test_a_blank_book_gives_every_place_a_blank_line(tmp_path: Path) -> None:
    bore = sheet(invented(tmp_path), "bore")
    assert [one.place for one in bore.lines] == [
        f"cylinder {cylinder}, {height}, {direction}"
        for cylinder in (1, 2, 3, 4)
        for height in ("top", "middle", "bottom")
        for direction in ("across", "along")
    ]
    assert {(one.found, one.left) for one in bore.lines} == {(None, None)}
    assert {one.gauge for one in bore.lines} == {"bore gauge 50–160, set with the caliper, reads to 0.01 mm"}
    assert [(one.stands_for, one.words, one.source) for one in bore.limits] == [
        ("new range", "81.60–81.62 mm (3.2126–3.2134 in)", "manual p. 67"),
        ("wear limit", "max 81.72 mm (3.2173 in)", "manual p. 67"),
    ]


def test_what_is_worked_out_has_room_for_each_of_its_groups(tmp_path: Path) -> None:
    job = invented(tmp_path)
    assert len(sheet(job, "bore_out_of_round").lines) == 4 * 3
    assert [one.place for one in sheet(job, "bore_taper").lines[:3]] == [
        "cylinder 1, across", "cylinder 1, along", "cylinder 2, across",
    ]  # fmt: skip


def test_a_rule_of_several_places_has_a_line_of_its_own(tmp_path: Path) -> None:
    pressure = sheet(invented(tmp_path), "cranking_pressure")
    assert {one.gauge for one in pressure.lines} == {"none in the kit"}
    assert [(one.words, [line.place for line in one.lines]) for one in pressure.rules] == [
        ("every cylinder at least 75 % of the highest", ["all cylinders"])
    ]
    seal = sheet(invented_beside(tmp_path), "valve_stem_seal")
    assert seal.lines == ()
    assert [(one.words, [line.found for line in one.lines]) for one in seal.rules] == [
        ("replace always", [None])
    ]


def invented_beside(folder: Path) -> Job:
    beside = folder / "beside"
    beside.mkdir()
    return invented(beside)


def test_as_found_and_as_left_have_each_its_own_verdict(tmp_path: Path) -> None:
    job = invented(tmp_path)
    place = "lengthwise, intake side"
    job.record(
        "reading", item="head_flatness", place=place, low="0.08 mm", high="0.09 mm", instrument="feelers"
    )
    job.record(
        "reading",
        item="head_flatness",
        place=place,
        high="0.03 mm",
        instrument="feelers",
        condition="as left",
    )
    line = next(one for one in sheet(job, "head_flatness").lines if one.place == place)
    assert line.found is not None
    assert line.left is not None
    # HAND: at most 0.05 mm may be; 0.08 less 0.013 is above it, 0.03 with 0.013 below it.
    assert (line.found.value, line.found.verdict) == ("0.08–0.09 mm (0.0031–0.0035 in)", "outside")
    assert (line.left.value, line.left.verdict) == ("under 0.03 mm (0.0012 in)", "inside")
    row = next(one for one in inspect(job.bench(), only="head_flatness").rows if one.place == place)
    assert (line.left.plus_minus, line.left.verdict) == (row.uncertainty, row.verdict)


def test_an_out_of_round_is_filled_from_its_readings(tmp_path: Path) -> None:
    job = invented(tmp_path)
    for direction, value in (("across", "81.66 mm"), ("along", "81.64 mm")):
        job.record("reading", item="bore", place=f"1 top {direction}", value=value, instrument="bore_gauge")
    first, second, *_ = sheet(job, "bore_out_of_round").lines
    assert first.found is not None
    assert first.found.value.startswith("0.02 mm")
    assert second.found is None


def test_a_person_of_inches_reads_inches_first(tmp_path: Path) -> None:
    kit = (DEMO / "kit.yaml").read_text(encoding="utf-8")
    said = re.sub(r"^units: .*$", "units: inch", kit, flags=re.MULTILINE)
    said = (
        said if "units: inch" in said else kit.replace("gudgeon: kit 1\n", "gudgeon: kit 1\nunits: inch\n", 1)
    )
    job = make_job(
        tmp_path, sheet=(resources.files("gudgeon.demo") / "sheet.yaml").read_text("utf-8"), kit=said
    )
    job.record("identity-read", code="TW18-D4", read_from="pad")
    assert [one.words for one in sheet(job, "bore").limits] == [
        "3.2126–3.2134 in (81.60–81.62 mm)", "max 3.2173 in (81.72 mm)",
    ]  # fmt: skip
    face = sheet(job, "intake_face_flatness")
    assert [one.words for one in face.limits] + [one.words for one in face.rules] == [
        "whole face, at most 0.0039 in (0.10 mm)",
        "over any 5.91 in (150 mm), at most 0.0020 in (0.05 mm)",
        "whole face, at most 0.0039 in (0.10 mm)",
    ]


def test_before_the_code_was_read_there_is_no_figure(tmp_path: Path) -> None:
    job = invented(tmp_path)
    identity = job.bench().state.identity
    assert identity is not None
    open_answer = measuring_sheets(job.bench())
    job.record("strike", entry=identity.entry, why="read off the wrong engine")
    answer = measuring_sheets(job.bench())
    assert answer.locked == (
        "Figures are locked: the engine code has not been read off the engine. The sheet is for TW18-D4. "
        "Read it off the engine: off the pad on the block, exhaust side, below cylinder 4."
    )
    limits = {limit.words for one in open_answer.sheets for limit in one.limits}
    said = set(texts(plain(answer)))
    assert len(limits) > 20
    assert not limits & said
    assert not {one.how for one in open_answer.sheets if one.how} & said
    assert [len(one.lines) for one in answer.sheets if one.item == "bore"] == [24]


def test_one_cylinder_alone_is_judged_by_its_own_limit_only(tmp_path: Path) -> None:
    job = invented(tmp_path)
    job.record("reading", item="cranking_pressure", place="1", value="12.5 bar")
    first, second, *_ = sheet(job, "cranking_pressure").lines
    assert first.found is not None
    # Of a gauge that is not named nothing is known, so what is inside as read stays in doubt.
    assert (first.gauge, first.found.plus_minus, first.found.verdict) == (
        "none in the kit",
        "± not known",
        "in doubt",
    )
    assert second.found is None
    job.record("reading", item="cranking_pressure", place="2", value="8 bar")
    first, second, *_ = sheet(job, "cranking_pressure").lines
    assert second.found is not None
    # HAND: 8 bar is less than 9.5 bar, and 64 % of 12.5 bar.
    assert second.found.verdict == "outside"
    assert [one.place for one in sheet(job, "cranking_pressure").rules[0].lines] == ["all cylinders"]


def test_a_scanned_face_is_filled_in_the_condition_in_which_it_was_scanned() -> None:
    bench = bench_with(FACE.replace("LIMIT", "{shape: whole face, limit: max 0.05 mm}"), {}, faces=FACES,
                       scan=Scanned("flat", twisted(10)))  # fmt: skip
    found = next(one for one in measuring_sheets(bench).sheets if one.item == "flat")
    (rule,) = found.rules
    (line,) = rule.lines
    assert line.found is not None
    # HAND: a twist of 0.08 mm has a zone of 0.08 mm, which no error of a dial brings below 0.05 mm.
    assert line.found.verdict == "outside"
    assert line.left is None
    assert [one.gauge for one in found.lines] == ["file of points"]
