"""The invented job as its files say it."""

from importlib import resources
from typing import Any

import pytest

from gudgeon.kit.load import parse_kit
from gudgeon.kit.model import Kit
from gudgeon.sheet.load import parse_sheet
from gudgeon.sheet.model import DataSheet
from gudgeon.written.located import read_yaml


def demo_text(name: str) -> str:
    return resources.files("gudgeon.demo").joinpath(name).read_text(encoding="utf-8")


@pytest.fixture(scope="session")
def sheet_text() -> str:
    return demo_text("sheet.yaml")


@pytest.fixture(scope="session")
def sheet(sheet_text: str) -> DataSheet:
    return parse_sheet(sheet_text, file="sheet.yaml").sheet


@pytest.fixture(scope="session")
def kit() -> Kit:
    return parse_kit(demo_text("kit.yaml"), file="kit.yaml").kit


@pytest.fixture(scope="session")
def entries() -> list[dict[str, Any]]:
    found = read_yaml(demo_text("entries.yaml"), file="entries.yaml").data["entries"]
    assert isinstance(found, list)
    return found
