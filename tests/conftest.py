"""What holds for every test: nobody's own book is touched, hours are those of UTC, and a failure can be repeated."""

import os
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import settings

from gudgeon.quantity.format import show_first
from tools.cluster import Cluster, NoPostgres, running

# The same examples every time, so that a failure seen once is seen by all; `--long` looks further.
settings.register_profile("every run", derandomize=True, deadline=None)
settings.register_profile("long", derandomize=True, deadline=None, max_examples=500)


def pytest_configure(config: pytest.Config) -> None:
    """Choose how far the property tests look, and the clock that expected hours are read from, whatever the machine's."""
    os.environ["TZ"] = "UTC"
    if hasattr(time, "tzset"):
        time.tzset()
    settings.load_profile("every run" if config.option.markexpr == "not long" else "long")


@pytest.fixture(scope="session", autouse=True)
def _own_data_folder(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """Put the user's data folder where the tests may write; programs started by a test see it too."""
    folder = tmp_path_factory.mktemp("user")
    kept = dict(os.environ)
    os.environ.pop("GUDGEON_BOOK", None)
    for name in ("HOME", "USERPROFILE", "XDG_DATA_HOME", "LOCALAPPDATA"):
        os.environ[name] = str(folder)
    yield folder
    os.environ.clear()
    os.environ.update(kept)


@pytest.fixture(autouse=True)
def _metric_first() -> None:
    """Begin with the system that comes first unless a kit says otherwise: one test's kit is not the next one's."""
    show_first("metric")


@pytest.fixture(scope="session")
def cluster() -> Iterator[Cluster]:
    """A PostgreSQL server of the tests' own; without its programs they skip, except where it is required."""
    try:
        with running() as started:
            yield started
    except NoPostgres as missing:
        if os.environ.get("GUDGEON_REQUIRE_POSTGRES"):
            pytest.fail(str(missing))
        pytest.skip(str(missing))


@pytest.fixture
def database(cluster: Cluster) -> str:
    """The address of a database without a book; one of the tests' databases, as making a new one takes longer."""
    if not cluster.run("SELECT 1 FROM pg_database WHERE datname = 'bench'"):
        cluster.run("CREATE DATABASE bench")
    others = "FROM pg_stat_activity WHERE datname = 'bench' AND pid <> pg_backend_pid()"
    cluster.run(f"SELECT pg_terminate_backend(pid, 10000) {others}", database="bench")
    cluster.run("DROP SCHEMA IF EXISTS gudgeon CASCADE", database="bench")
    return cluster.address("bench")
