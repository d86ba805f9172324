"""The finish to ask for: the sheet's own figure first, the trade beside it, and where its sources clash."""

from pathlib import Path

from gudgeon.bench.shop.finish import finish_of, metal_of
from gudgeon.sources.finish import asked_finishes, straighten_above
from tests.unit.bench.shop.heads import SHEET, head_job


def test_figures_of_the_trade_as_printed() -> None:
    # PRINTED, microinches: 20–30 or less, 27–47, 50 or finer (multi-layer steel); 50–60 aluminum, 60–100 iron;
    # 30–110, preferred 60–100 (iron on iron); not smoother than 30 (graphite). 1 µin = 0.0254 µm.
    found = [
        (
            one.gasket,
            one.metal,
            *(None if end is None else round(end / 0.0254, 6) for end in (one.least_um, one.most_um)),
        )
        for one in asked_finishes()
    ]
    assert found == [
        ("multi-layer steel", "", None, 30), ("multi-layer steel", "", 27, 47), ("multi-layer steel", "", None, 50),
        ("not named", "aluminum", 50, 60), ("not named", "iron", 60, 100), ("not named", "iron", 30, 110),
        ("soft or composite", "", 30, None),
    ]  # fmt: skip
    assert {one.source.provenance for one in asked_finishes()} == {"PRINTED"}
    assert (straighten_above().value, straighten_above().unit) == (0.076, "mm")


def test_the_sheet_goes_first_and_is_held_against_each_source(tmp_path: Path) -> None:
    # HAND: at most 0.8 µm = 31.5 µin lies above 30, below 50; a face of 0.8 µm may be smoother than 50 µin.
    found = finish_of(head_job(tmp_path).bench())
    assert (found.asked, found.source) == ("max 0.8 µm", "manual p. 8")
    assert [(one.gasket, one.asked, one.against) for one in found.rows] == [
        ("multi-layer steel", "at most 0.76 µm (30 µin) Ra, usually 20 to 30, or less", "the sheet lets the face be rougher"),
        ("multi-layer steel", "0.69–1.19 µm (27–47 µin) Ra", "the sheet lets the face be smoother"),
        ("multi-layer steel", "at most 1.27 µm (50 µin) Ra", "agrees with the sheet"),
        ("not named", "1.27–1.52 µm (50–60 µin) Ra", "the sheet asks for a smoother face"),
        (
            "soft or composite", "not under 0.76 µm (30 µin) Ra, rough enough to hold the gasket from the side",
            "the sheet lets the face be smoother",
        ),
    ]  # fmt: skip


def test_where_the_sources_clash(tmp_path: Path) -> None:
    assert finish_of(head_job(tmp_path).bench()).disagree == (
        "Multi-layer steel gasket: the roughest that passes is 0.76 µm (30 µin) Ra by one source, 1.27 µm (50 µin) Ra by "
        "another",
        "no face satisfies both what one source asks for a multi-layer steel gasket (at most 0.76 µm (30 µin) Ra, usually "
        "20 to 30, or less) and what one source asks for any gasket on aluminum (1.27–1.52 µm (50–60 µin) Ra)",
    )


def test_iron_and_an_unknown_metal(tmp_path: Path) -> None:
    iron = head_job(tmp_path, sheet=SHEET.replace("material: aluminum", "material: cast iron"))
    assert {one.metal for one in finish_of(iron.bench()).rows} == {"", "iron"}
    other = tmp_path / "other"
    other.mkdir()
    bare = head_job(
        other, sheet=SHEET.replace("  material: aluminum\n", "").replace("  finish: max 0.8 µm\n", "")
    )
    found = finish_of(bare.bench())
    assert (found.asked, found.source) == ("", "")
    assert {one.metal for one in found.rows} == {""}
    assert found.metal == (
        "The metal of the head is not named in the sheet: what the trade asks for aluminum alone, or for iron alone, is "
        "left out"
    )
    assert finish_of(iron.bench()).metal == ""
    assert {one.against for one in found.rows} == {""}


def test_metals_in_words() -> None:
    words = ("aluminum", "Aluminium alloy 356", "gray cast iron", "iron, aluminum plugs", "", "bronze")
    assert [metal_of(one) for one in words] == ["aluminum", "aluminum", "iron", "", "", ""]
