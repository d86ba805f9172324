"""The data sheet as an answer, on the small invented engine of the tests: what stands in it is counted by hand."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from gudgeon.bench.proof.run import proofread
from gudgeon.bench.sheet_figures import SheetAnswer, SheetFigure, SheetPart, data_sheet
from gudgeon.sheet.write import is_figure, parse_path
from tests.unit.bench.benches import Job, make_job
from tests.unit.sheet.sheets import SMALL


@pytest.fixture
def job(tmp_path: Path) -> Job:
    return make_job(tmp_path)


def parts(answer: SheetAnswer) -> Iterator[SheetPart]:
    for section in answer.sections:
        for group in section.groups:
            yield from group.parts


def figures(answer: SheetAnswer) -> dict[str, SheetFigure]:
    return {figure.path or figure.name: figure for part in parts(answer) for figure in part.figures}


def test_every_figure_stands_as_printed_with_its_source(job: Job) -> None:
    found = figures(data_sheet(job.bench()))
    assert {path: (one.printed, str(one.cited)) for path, one in found.items()} == {
        "cylinder.bore": ("70.00 mm", "manual p. 3"),
        "cylinder.stroke": ("66.0 mm", "manual p. 2"),
        "characteristics.head_face.wear_limit": ("max 0.05 mm (0.002 in)", "manual p. 4"),
        "characteristics.journal.new_range": ("29.980–29.993 mm", "manual p. 5"),
        "Stage 1: hand-run": ("to contact", "manual p. 9"),
        "joints.head.program.2.torque": ("10 N·m", "manual p. 9"),
        "joints.head.program.3.torque": ("24 N·m (17.7 lbf·ft)", "manual p. 9"),
        "joints.head.program.4.turn": ("90°", "manual p. 9"),
        "joints.head.total_turn": ("90°", "manual p. 9"),
    }
    assert data_sheet(job.bench()).figures == 9
    assert found["joints.head.program.2.torque"].critical
    assert not found["cylinder.bore"].critical


def test_what_the_demo_prints_is_all_there(tmp_path: Path) -> None:
    """Each figure that proof-reading walks over stands on the page too, but for the places of bolts."""
    from datetime import UTC, datetime

    from gudgeon.bench.begin import open_demo
    from gudgeon.bench.context import open_bench
    from gudgeon.bench.proof.figures import figures as walked

    begun = open_demo(tmp_path, now=datetime(2026, 3, 7, 10, 0, tzinfo=UTC))
    bench = open_bench(begun.book)
    bench.store.close()
    shown = set(figures(data_sheet(bench)))
    missing = [one.said for one in walked(bench.sheet) if one.said not in shown and ".bolts." not in one.said]
    assert [path for path in missing if not path.startswith("faces.") and ".at_heights." not in path] == []


def test_faces_and_heights_of_the_demo_stand_in_words(tmp_path: Path) -> None:
    """From x -16 to 380 mm along y 57 mm are 396 mm; the heights are those below the deck."""
    from datetime import UTC, datetime

    from gudgeon.bench.begin import open_demo
    from gudgeon.bench.context import open_bench

    begun = open_demo(tmp_path, now=datetime(2026, 3, 7, 10, 0, tzinfo=UTC))
    bench = open_bench(begun.book)
    bench.store.close()
    found = {part.key: dict(part.facts) for part in parts(data_sheet(bench))}
    head = found["faces.head"]
    assert head["Line lengthwise, intake side"] == (
        "lengthwise, from x -16 mm, y 57 mm to x 380 mm, y 57 mm, 396 mm long"
    )
    assert head["Opening, fire ring 1"] == "82.60 mm across, at x 45.5 mm, y 0 mm"
    assert head["Its bolts"] == "Cylinder head bolts"
    assert found["characteristics.bore"]["Heights"] == "top 10 mm, middle 60 mm, bottom 110 mm"
    assert found["characteristics.head_flatness"]["On the face"] == "Head gasket face of the head"


def test_what_could_be_stated_and_is_not(job: Job) -> None:
    answer = data_sheet(job.bench())
    empty = [one.path for part in parts(answer) for one in part.not_stated]
    assert "cylinder.rod_length" in empty
    assert "head.least_height" in empty  # the sheet has no head at all
    assert "characteristics.journal.wear_limit" in empty
    assert "characteristics.journal.required" not in empty  # what wears has no setting
    assert "joints.head.fastener.grip" in empty
    assert not set(empty) & set(figures(answer))
    assert all(is_figure(parse_path(path)) for path in empty)


def test_a_gap_leads_to_its_form_or_to_its_line(job: Job) -> None:
    gaps = {f"{gap.where}: {gap.missing}": gap for gap in data_sheet(job.bench()).gaps}
    assert gaps["cylinder: no chamber volume"].path == "cylinder.chamber_volume"
    assert gaps["Crank journal: no wear limit for crank journal"].path == "characteristics.journal.wear_limit"
    reuse = gaps["Head nuts: no rule for using the fasteners again"]
    assert (reuse.path, reuse.line) == ("", SMALL.splitlines().index("  head:") + 2)  # where the joint begins
    for gap in gaps.values():
        assert not gap.path or is_figure(parse_path(gap.path))


def test_findings_stand_beside_their_figures_and_settled_ones_apart(tmp_path: Path) -> None:
    slipped = SMALL.replace("max 0.05 mm (0.002 in)", "max 0.05 mm (0.02 in)")  # 0.05 mm is 0.0020 in
    job = make_job(tmp_path, sheet=slipped)
    answer = data_sheet(job.bench())
    [found] = [one for one in answer.findings if one.grade == "error"]
    assert found.path == "characteristics.head_face.wear_limit"
    assert found in figures(answer)[found.path].findings
    assert sum(group.open_findings for section in answer.sections for group in section.groups) == len(
        [one for one in proofread(job.bench().sheet) if one.counts]
    )
    line = f"settled:\n  - {{finding: {found.key}, decision: kept, why: the page prints it so}}\n"
    (tmp_path / "sheet.yaml").write_text(slipped + line, encoding="utf-8")
    after = data_sheet(job.bench())
    assert [one.key for one in after.settled] == [found.key]
    assert found.key not in {one.key for one in after.findings}


def test_photos_and_pages_stand_with_their_source(tmp_path: Path) -> None:
    photo = "photos/0123456789abcdef.jpg"
    sheet = SMALL.replace("edition: 1st}", f"edition: 1st, photos: {{p. 9: {photo}}}}}")
    job = make_job(tmp_path, sheet=sheet)
    answer = data_sheet(job.bench())
    [source] = answer.sources
    assert source.photos == (("p. 9", photo, False),)
    assert dict(source.pages) == {"p. 3": 1, "p. 2": 1, "p. 4": 1, "p. 5": 1, "p. 9": 5}
    cited = figures(answer)["joints.head.total_turn"].cited
    assert cited is not None
    assert cited.photo == photo
    (tmp_path / "photos").mkdir()
    (tmp_path / photo).write_bytes(b"\xff\xd8\xff")
    assert data_sheet(job.bench()).sources[0].photos == (("p. 9", photo, True),)


def test_the_page_says_that_figures_are_locked_until_the_code_is_read(job: Job) -> None:
    assert data_sheet(job.bench()).locked.startswith("Figures are locked")
    job.read_code()
    assert data_sheet(job.bench()).locked == ""


def test_a_sheet_whose_file_is_gone_is_shown_and_not_written(job: Job, tmp_path: Path) -> None:
    (tmp_path / "sheet.yaml").unlink()
    answer = data_sheet(job.bench())
    assert not answer.writable
    assert answer.figures == 9
