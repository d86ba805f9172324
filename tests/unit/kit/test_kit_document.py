"""docs/kit.md says of every field what it is, and its examples are kits."""

import re
from typing import Any

import pytest
from pydantic import BaseModel

from gudgeon.kit.load import parse_kit
from gudgeon.kit.model import Gauge, Hours, Kit, Rates, Turning
from gudgeon.kit.torque import Adapter, Scale, SpringScale, Wrench
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


@pytest.mark.parametrize("kind", ["click", "beam", "paint marks", "compression gauge", "counterclockwise"])
def test_words_to_choose_from_are_named(kind: str) -> None:
    assert f"`{kind}`" in PAGE
