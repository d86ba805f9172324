"""Killed at any moment: what was acknowledged is there, nothing is there by half, the book opens and verifies.

A killed process shows that no entry is kept in the memory of the program. That it is on the disk before it is
acknowledged is shown in test_durability.py.
"""

import random
import subprocess
import sys
import threading
from collections import Counter
from itertools import pairwise
from pathlib import Path

import pytest

from tests.contract.stores import Shelf, draft

ROOT = Path(__file__).resolve().parents[2]


def start(shelf: Shelf, *, name: str, count: int = 0) -> "subprocess.Popen[str]":
    return subprocess.Popen(
        [sys.executable, "-m", "tests.contract.writer", shelf.kind, shelf.address, name, str(count)],
        stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, encoding="utf-8", cwd=ROOT,
    )  # fmt: skip


def acknowledged(process: "subprocess.Popen[str]", *, kill_after: float) -> list[str]:
    """Let a writer run for a while after its first entry, kill it, and return every id that it had said."""
    assert process.stdin is not None
    assert process.stdout is not None
    process.stdin.close()
    first = process.stdout.readline()
    timer = threading.Timer(kill_after, process.kill)
    timer.start()
    lines = [first, *process.stdout]
    process.wait()
    timer.join()
    process.stdout.close()
    # The last line may have been cut by the kill; what it says in part was not acknowledged.
    return [entry for line in lines if line.endswith("\n") for entry in line.split()]


def survive(shelf: Shelf, *, seed: int, rounds: int = 50) -> None:
    moments = random.Random(seed)
    with shelf.open() as store:
        store.append(draft("build-opened"))
    told = 1
    ids: list[str] = []
    for number in range(rounds):
        ids += acknowledged(start(shelf, name=f"round {number}"), kill_after=moments.uniform(0, 0.08))
        with shelf.open() as store:
            entries = store.entries("van")
            assert store.verify() == ()
        stored = Counter(entry.id for entry in entries)
        assert set(stored.values()) == {1}
        assert set(ids) <= set(stored)
        # What was not said may be there (killed between the disk and the word): one act of each round.
        assert len(entries) - told <= 2 * (number + 1) + len(ids)
        halves = Counter(entry.body["text"].rpartition(" ")[0] for entry in entries if entry.kind == "note")
        assert set(halves.values()) <= {2}
    assert len(ids) > rounds


def test_killed_at_random_moments_nothing_acknowledged_is_lost(shelf: Shelf) -> None:
    survive(shelf, seed=0)


@pytest.mark.long
@pytest.mark.parametrize("seed", range(1, 10))
def test_killed_at_many_random_moments_nothing_acknowledged_is_lost(shelf: Shelf, seed: int) -> None:
    survive(shelf, seed=seed)


def test_two_writers_at_once_lose_nothing_and_double_nothing(shelf: Shelf) -> None:
    with shelf.open() as store:
        store.append(draft("build-opened"))
    writers = [start(shelf, name=name, count=90) for name in ("Ada", "Bo")]
    for writer in writers:
        assert writer.stdout is not None
        assert writer.stdout.readline() == "ready\n"
    for writer in writers:
        assert writer.stdin is not None
        writer.stdin.write("go\n")
        writer.stdin.flush()
    said = [entry for writer in writers for entry in writer.communicate(timeout=120)[0].split()]
    assert [writer.returncode for writer in writers] == [0, 0]
    with shelf.open() as store:
        assert store.verify() == ()
        entries = store.entries("van")
    # 90 acts each, every third a pair: 60 + 2 × 30 = 120 entries each, and the opening.
    assert len(said) == 240
    assert sorted(entry.id for entry in entries[1:]) == sorted(said)
    assert [entry.number for entry in entries] == list(range(1, 242))
    names = [str(entry.body.get("text") or entry.body.get("bolt")).split()[0] for entry in entries[1:]]
    turns = sum(before != after for before, after in pairwise(names))
    assert turns > 10, "they did not write at the same time"
