"""What is built of the project to be installed elsewhere holds everything that runs: templates, styles, data."""

import shutil
import subprocess
import sys
from pathlib import Path
from zipfile import ZipFile

import pytest

from tests.house.code import ROOT, SRC

BUILD = "import setuptools.build_meta as back_end; back_end.build_wheel('dist')"


@pytest.fixture(scope="module")
def packaged(tmp_path_factory: pytest.TempPathFactory) -> set[str]:
    """The files in the wheel, built from a copy so that nothing is left in the checkout."""
    copy = tmp_path_factory.mktemp("wheel")
    for name in ("pyproject.toml", "LICENSE"):
        shutil.copy(ROOT / name, copy / name)
    shutil.copytree(SRC, copy / "src", ignore=shutil.ignore_patterns("__pycache__", "*.egg-info"))
    (copy / "dist").mkdir()
    done = subprocess.run([sys.executable, "-c", BUILD], cwd=copy, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    (wheel,) = (copy / "dist").glob("*.whl")
    with ZipFile(wheel) as opened:
        return set(opened.namelist())


def test_every_file_beside_the_code_is_packaged(packaged: set[str]) -> None:
    beside = {
        path.relative_to(SRC).as_posix()
        for path in (SRC / "gudgeon").rglob("*")
        if path.is_file() and "__pycache__" not in path.parts
    }
    assert beside - packaged == set(), "name its ending under package-data in pyproject.toml"
    assert {Path(name).suffix for name in beside} > {".py", ".toml", ".yaml", ".html", ".css", ".js"}


def test_nothing_else_is_packaged(packaged: set[str]) -> None:
    strange = {name for name in packaged if not name.startswith("gudgeon/") and ".dist-info/" not in name}
    assert strange == set()
