"""The tables of outside check values that may lie beside the checkout; the tests that read them skip without."""

import csv
from pathlib import Path

import pytest

FOLDER = Path(__file__).resolve().parents[2] / "shared" / "reference"


def reference_file(name: str) -> Path:
    """A file of the reference folder; skips the test, or the whole module, where there is no such folder."""
    if not FOLDER.is_dir():
        pytest.skip("The reference tables are not beside the checkout.", allow_module_level=True)
    return FOLDER / name


def reference_rows(name: str) -> list[dict[str, str]]:
    """The rows of one table, each by its column names."""
    with reference_file(name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))
