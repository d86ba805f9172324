"""The server of a book is killed while somebody writes: what was acknowledged is there when it runs again.

Every process of the server gets SIGKILL at once, at a random moment; then it is started again and recovers from its
log. A writer whose commit was not answered asks the server what it kept, and goes on; any other is told.
"""

import os
import random
import signal
import subprocess
import sys
import threading
import time
from collections import Counter
from contextlib import suppress
from pathlib import Path

import pytest

from tests.contract.stores import Shelf, draft
from tools.cluster import Cluster

ROOT = Path(__file__).resolve().parents[2]
TOLD = (
    "The connection to the book ",  # it was lost, before or while something was kept
    "The server of the book ",  # it is not there, or still starting
)


class Writer:
    """A program that writes until it is killed or the server is gone, and what it said that it had written."""

    def __init__(self, shelf: Shelf, name: str) -> None:
        self._process = subprocess.Popen(
            [sys.executable, "-m", "tests.contract.writer", shelf.kind, shelf.address, name, "0"],
            stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.PIPE,
            text=True, encoding="utf-8", cwd=ROOT,
        )  # fmt: skip
        self._lines: list[str] = []
        self._begun = threading.Event()
        self._listener = threading.Thread(target=self._listen)
        self._listener.start()

    def _listen(self) -> None:
        assert self._process.stdout is not None
        for line in self._process.stdout:
            self._lines.append(line)
            self._begun.set()
        self._begun.set()

    def wait_for_the_first_line(self) -> None:
        assert self._begun.wait(60)

    def end(self, *, after: float) -> tuple[list[str], int, str]:
        """The ids it had said, its exit code, and what it was told; it is killed when it still runs by then."""
        try:
            self._process.wait(after)
        except subprocess.TimeoutExpired:
            self._process.kill()
        code = self._process.wait()
        self._listener.join()
        assert self._process.stdout is not None
        assert self._process.stderr is not None
        told = self._process.stderr.read()
        self._process.stdout.close()
        self._process.stderr.close()
        # The last line may have been cut by the kill; what it says in part was not acknowledged.
        return [entry for line in self._lines if line.endswith("\n") for entry in line.split()], code, told


def running() -> dict[int, int]:
    """Every process that has not ended, with the one that started it."""
    said = subprocess.run(["ps", "-A", "-o", "pid=,ppid=,stat="], capture_output=True, text=True, check=True)
    rows = [line.split() for line in said.stdout.splitlines()]
    return {int(process): int(parent) for process, parent, state in rows if not state.startswith("Z")}


def kill(server: "subprocess.Popen[bytes]") -> None:
    """End a server and all that it has started with SIGKILL: none of them can finish what it was at."""
    server.send_signal(signal.SIGSTOP)  # so that it starts no other while they are counted
    children = [process for process, parent in running().items() if parent == server.pid]
    for process in (*children, server.pid):
        with suppress(ProcessLookupError):
            os.kill(process, signal.SIGKILL)
    server.wait()
    end = time.monotonic() + 60
    while not running().keys().isdisjoint(children):
        assert time.monotonic() < end, "a killed process of the server is still there"
        time.sleep(0.01)


def survive(cluster: Cluster, shelf: Shelf, *, seed: int, rounds: int) -> None:
    moments = random.Random(seed)
    with shelf.open() as store:
        store.append(draft("build-opened"))
    ids: list[str] = []
    for number in range(rounds):
        writer = Writer(shelf, f"round {number}")
        try:
            writer.wait_for_the_first_line()
            time.sleep(moments.uniform(0, 0.25))
            kill(cluster.process)
        finally:
            cluster.start()
        said, code, told = writer.end(after=0.5)
        ids += said
        # It was told, or it asked what had been kept and wrote on until it was killed.
        assert code == -9 or (code == 2 and told.startswith(TOLD)), told
        with shelf.open() as store:
            entries = store.entries("van")
            assert store.verify() == ()
        stored = Counter(entry.id for entry in entries)
        assert set(stored.values()) == {1}
        assert set(ids) <= set(stored)
        # What was not said may be there (killed between the disk and the word): one act of each round.
        assert len(entries) - 1 <= 2 * (number + 1) + len(ids)
        halves = Counter(entry.body["text"].rpartition(" ")[0] for entry in entries if entry.kind == "note")
        assert set(halves.values()) <= {2}
    assert len(ids) > rounds


@pytest.fixture
def in_database(database: str) -> Shelf:
    """An empty book on PostgreSQL."""
    shelf = Shelf("PostgreSQL", database)
    shelf.open(create=True).close()
    return shelf


def test_a_killed_server_loses_nothing_acknowledged(cluster: Cluster, in_database: Shelf) -> None:
    survive(cluster, in_database, seed=0, rounds=8)


@pytest.mark.long
def test_a_server_killed_many_times_loses_nothing_acknowledged(cluster: Cluster, in_database: Shelf) -> None:
    survive(cluster, in_database, seed=1, rounds=40)
