"""docs/kit.md says of every field what it is, and its examples are kits."""

import re
from typing import Any

import pytest
from pydantic import BaseModel

from gudgeon.kit.gauges import Gauge, kinds_of_gauge
from gudgeon.kit.load import parse_kit
from gudgeon.kit.model import Hours, Kit, Rates, Turning
from gudgeon.kit.suppliers import Sold, Supplier
from gudgeon.kit.torque import Adapter, Scale, SpringScale, Wrench
from gudgeon.sources.materials import material_names
from gudgeon.sources.tables import other_errors, permitted_errors
from tests.house.code import ROOT

PAGE = (ROOT / "docs" / "kit.md").read_text(encoding="utf-8")
SECTIONS: tuple[type[BaseModel], ...] = (
    Kit,
    Wrench,
    Scale,
    Adapter,
    SpringScale,
    Gauge,
    Turning,
    Supplier,
    Sold,
    Hours,
    Rates,
)


def fields(of: type[BaseModel]) -> set[str]:
    return {field.alias or name for name, field in of.model_fields.items()}


@pytest.mark.parametrize("of", SECTIONS, ids=lambda one: one.__name__)
def test_every_field_is_explained_and_no_other(of: type[BaseModel]) -> None:
    part = re.search(rf"^### {of.__name__}\n(.*?)(?=^##)", PAGE, re.MULTILINE | re.DOTALL)
    assert part is not None
    rows = re.findall(r"^\| `(\w+)` \| (.+) \|$", part[1], re.MULTILINE)
    assert {name for name, _ in rows} == fields(of)
    assert all(text.strip() for _, text in rows)


def example() -> Kit:
    (text,) = re.findall(r"```yaml\n(.*?)```", PAGE, re.DOTALL)
    return parse_kit(text, file="kit.yaml").kit


def test_the_example_is_a_kit() -> None:
    kit = example()
    assert kit.wrenches["click_200"].iso_class == "II A"
    assert [scale.unit for scale in kit.wrenches["click_200"].scales] == ["N·m", "lbf·ft"]


def test_the_example_uses_every_field() -> None:
    used: set[tuple[str, str]] = set()

    def walk(one: Any) -> None:
        if isinstance(one, BaseModel):
            for name in one.model_fields_set:
                used.add((type(one).__name__, type(one).model_fields[name].alias or name))
                walk(getattr(one, name))
        elif isinstance(one, dict):
            for inner in one.values():
                walk(inner)

    walk(example())
    every = {(of.__name__, name) for of in SECTIONS for name in fields(of)}
    assert every - used == {("Kit", "invented"), ("Scale", "first_mark")}


def kind_rows() -> dict[str, str]:
    part = PAGE.split("\n## Kinds of gauge\n")[1].split("\n## ")[0]
    return dict(re.findall(r"^\| `([^`]+)` \| [^|]+ \| (.+) \|$", part, re.MULTILINE))


def test_every_kind_of_gauge_has_a_row() -> None:
    assert list(kind_rows()) == list(kinds_of_gauge())


@pytest.mark.parametrize("kind", kinds_of_gauge())
def test_what_a_gauge_may_be_off_is_what_is_on_file(kind: str) -> None:
    """Every figure of the table of instruments stands in the row of its kind, with its source, and no other does."""
    named = "straightedge" if kind == "knife straightedge" else kind
    rows = [one for one in permitted_errors() if one.instrument.partition(", grade")[0] == named]
    others = [one for one in other_errors() if one.instrument == named]
    said = kind_rows()[kind]
    figures = {f"{1000 * one.fixed_mm:g} µm" for one in rows if one.fixed_mm}
    figures |= {f"{1000 * one.per_meter_mm:.3g} µm for each meter" for one in rows if one.per_meter_mm}
    figures |= {f"{100 * one.share:g} % of the reading" for one in others if one.share}
    figures |= {f"{one.fixed:g} {one.unit}" for one in others if one.fixed}
    bare = re.sub(r"\([^)]*\)", "", said)
    found = set(re.findall(r"[\d.]+ (?:µm(?: for each meter)?|% of the reading|K)", bare))
    assert found == figures
    assert (said == "not on file") == (not figures)
    assert all(one.source.title in said for one in rows)


def test_every_material_is_named() -> None:
    part = PAGE.split("\n## Materials\n")[1].split("\n## ")[0]
    known = re.search(r"Known: (.*?)\.\n", part, re.DOTALL)
    assert known is not None
    assert tuple(" ".join(known[1].split()).split(", ")) == material_names()


@pytest.mark.parametrize("kind", ["click", "beam", "paint marks", "compression gauge", "counterclockwise"])
def test_words_to_choose_from_are_named(kind: str) -> None:
    assert f"`{kind}`" in PAGE
