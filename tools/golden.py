"""Freezes books as they are written today, so that whatever comes later has to read them.

Run: python -m tools.golden FOLDER

The folder gets the book of the invented job, a book with one entry of every kind, and the export of each. What has been
released is never made anew: another format gets another folder.
"""

import os
import platform
import sys
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any
from uuid import UUID

from tools.fixed_hour import HOUR, stop_the_clock

BUILD = "every kind"
SHA = "0" * 64
DOING = {
    "acts": ["turn by hand"],
    "sets": {"crank": "moved"},
    "overruled": {"pins in": "the bar takes it (manual p. 9)"},
}
PULL = {"joint": "head", "stage": 1, "round": 1, "bolt": "1", "outcome": "stopped at", "angle_deg": "40"}
ITEM = {"item": "pin", "name": "Timing pin", "where": "exhaust camshaft", "due_before": "crank"}

SAMPLES: dict[str, dict[str, Any]] = {
    "build-opened": {"name": BUILD, "engine": "invented", "sheet_path": "sheet.yaml", "kit_path": "kit.yaml"},
    "identity-read": {"code": "X1", "read_from": "pad", "matches": False, "why_not": "same block"},
    "reading": {
        "item": "bore", "place": "1 top", "low": "0.050", "high": "0.06", "unit": "mm", "instrument": "feelers",
        "condition": "as left", "shown": {"wear_limit": "0.05 mm"}, "note": "µ, ±, 5 °C",
    },
    "pull": PULL | {"tool": "bar", "setting": "40 N·m", "shown": {"target": "90°"}, "why": "room", "doing": DOING},
    "bolt-loosened": PULL | {"tool": "bar"},
    "joint-marked": {"joint": "head", "how": "paint"},
    "joint-witnessed": {"joint": "head", "by": "Robin", "seen": "10 of 10 in line"},
    "joint-disturbed": {"joint": "head", "why": "gasket slipped"},
    "tightened-again": {"joint": "head", "seen": "no bolt moved"},
    "provisional-made": {
        "item": "pulley", "name": "Pulley bolt", "joint": "pulley", "why": "to turn it", "due_task": "final",
        "due_before": "crank",
    },
    "provisional-cleared": {"item": "pulley", "how": "new bolt, 60 N·m"},
    "left-in": ITEM | {"holds": "timing"},
    "taken-out": {"item": "pin"},
    "plugged": ITEM | {"item": "port"},
    "opened": {"item": "port"},
    "taken-off": {
        "item": "b3", "group": "bolt", "name": "Cover bolts", "place": "B3", "count": 7, "bag": "B3",
        "due_before": "fire",
    },
    "refitted": {"item": "b3", "place": "B3", "count": 6},
    "counted": {"group": "bolt", "when": "off", "count": 7, "note": "with the long one"},
    "explained": {"group": "bolt", "way": "missing", "what": "one M6", "why": "sheared, renewed"},
    "hold-proved": {
        "hold": "timing_proved", "value": "two turns", "photo": SHA, "rests_on": ["joint:head", "state:timing"],
        "shown": {"torque": "40 N·m"}, "doing": DOING,
    },
    "hold-voided": {"hold": "timing_proved", "why": "belt off again"},
    "sealant-laid": {
        "sealant": "cover",
        "timer": "cover",
        "name": "Cover sealant",
        "joint": "cover",
        "minutes_ago": 2,
        "open_minutes": 10,
        "cure_minutes": 1440,
        "task": "fill_oil",
        "due_before": "crank",
        "shown": {"cure": "24 h, manual p. 84"},
        "why": "bead 2 mm",
    },
    "timer-started": {
        "timer": "recall", "name": "Clearances again", "kind": "recall", "distance": "1000", "odometer": "84120",
        "unit": "km", "task": "look_again", "due_before": "recall",
    },
    "timer-ended": {"timer": "recall", "how": "looked at 900 km"},
    "task-started": {"task": "lift_head", "doing": DOING},
    "task-paused": {"task": "lift_head", "why": "no help"},
    "task-done": {"task": "lift_head", "minutes": 25, "note": "stuck at the dowel"},
    "part-disposition": {"part": "head", "decision": "rework", "why": "bent by 0.10 mm"},
    "part-received": {"part": "gasket", "compared": True, "note": "same holes"},
    "shop-out": {"part": "head", "shop": "Mill Lane", "ordered": "clean up", "most_off": "0.10 mm"},
    "shop-back": {"part": "head", "found": "132.44 mm"},
    "accepted": {"what": "bore 1", "by": "owner", "why": "no oil use"},
    "money": {"what": "gasket set", "amount": "84.50", "currency": "EUR", "part": "gasket", "to": "parts counter"},
    "odometer-read": {"value": "84120", "unit": "km"},
    "photo": {
        "sha": SHA, "type": "jpeg", "width": 800, "height": 600, "taken": "2026-06-13T13:00:00", "caption": "marks",
        "about": ["joint:head"], "pins": [{"number": 1, "x": 500, "y": 250, "text": "mark"}],
    },
    "engine-state": {"crank": "half-way", "cams": "out", "belt": "off", "pins": "out", "holder": "off",
                     "followers": "bled down", "seen": "looked in"},
    "turned": {"by": "hand", "seen": "two turns, free", "doing": DOING},
    "override": {"about": "hold:walk_round", "by": "owner", "why": "alone", "shown": "Walk round: not proved yet"},
    "signed-off": {"milestone": "crank", "by": "owner", "words": "as the book says"},
    "paused": {"hand": "wrench at 25 N·m", "next_action": "bolt 4", "screen": "/set/head"},
    "note": {"text": "cold, 5 °C"},
}  # fmt: skip
"""One body of every kind that names no other entry."""


SINCE: dict[str, tuple[int, dict[str, Any]]] = {
    "reading": (2, {
        "item": "bore", "place": "1 top", "value": "81.65200", "repeats": ["81.651", "81.653"], "unit": "mm",
        "instrument": "bore_gauge", "condition": "as found", "part_temperature": "5", "gauge_as_part": True,
        "temperature_unit": "°C", "shown": {"wear_limit": "81.72 mm"}, "note": "µ, ±, 5 °C",
    }),
    "face-scanned": (2, {
        "item": "deck", "unit": "mm", "points": [["0", "0", "0.01"], ["100", "0", "0.02"], ["0", "80", "-0.01"]],
        "instrument": "dial", "condition": "as found", "file": "deck.csv", "sha": SHA, "note": "six rows",
    }),
    "job-chosen": (3, {"job": "timing_belt", "why": "it is due"}),
    "task-added": (3, {
        "task": "paint_it", "title": "Paint the covers", "after": ["rollers_off"], "before": ["rollers_on"],
        "minutes": 60, "two_people": True, "needs": ["paint"], "due_before": "fire", "why": "rust",
    }),
    "task-dropped": (3, {"task": "save_fault_codes", "why": "no socket"}),
    "task-minutes": (3, {"task": "belt_on", "low": 15, "minutes": 20, "high": 40, "why": "tight room"}),
    "task-order": (3, {"task": "charge_battery", "after": ["rollers_off"], "why": "one lamp"}),
    "day-planned": (3, {
        "day": "2026-06-20", "hours": ["09:00-12:00", "13:00-24:00"], "whose": "second person", "why": "Saturday",
    }),
    "promised": (3, {
        "what": "head", "of": "shop", "on": "2026-06-20", "earliest": "2026-06-19", "latest": "2026-06-26",
        "by": "Miller",
    }),
    "part-ordered": (3, {
        "part": "belt", "supplier": "Mill Lane", "quantity": 2, "expected": "2026-06-18", "amount": "84.50",
        "currency": "EUR", "note": "with tensioner",
    }),
    "price-seen": (3, {
        "part": "belt", "supplier": "Mill Lane", "price": "42.25", "currency": "EUR", "pack": 2, "days": 0,
        "article": "B-12",
    }),
    "part-age": (3, {"part": "belt", "distance": "84120", "unit": "km", "months": 60, "basis": "service book"}),
    "part-life": (3, {
        "part": "belt", "shape": "3.5", "life": "160000", "unit": "km", "until": "90000", "cost": "2400",
        "currency": "EUR", "basis": "a guess",
    }),
    "cost-expected": (3, {
        "what": "bore", "of": "shop", "low": "80", "likely": "100.5", "high": "120", "currency": "EUR", "chance": "0.3",
        "due": "measuring", "basis": "by telephone",
    }),
    "estimate-told": (3, {
        "at": "strip", "low": "400", "middle": "600", "high": "900", "currency": "EUR", "to": "owner",
        "note": "by mail",
    }),
    "ceiling-agreed": (3, {
        "amount": "1000", "currency": "EUR", "by": "owner", "until": "measuring", "note": "by mail",
    }),
    "approval": (3, {
        "what": "bore", "answer": "no", "by": "owner", "amount": "120", "currency": "EUR", "note": "later",
    }),
}  # fmt: skip
"""Bodies that came, or changed, with a format later than the first."""

NEWEST = 3


def bodies(form: int = NEWEST) -> Iterator[tuple[str, dict[str, Any]]]:
    """One body of every kind; what names an entry names the first pull, and the strike takes back the note."""
    since = {kind: body for kind, (first, body) in SINCE.items() if first <= form}
    samples = SAMPLES | since
    ids = {kind: entry_id(place) for place, kind in enumerate(samples)}
    yield from samples.items()
    yield "looked", {"entry": ids["pull"], "seen": "no stroke on bolt 1", "as_recorded": False}
    yield "inspected", {"entry": ids["turned"], "gate": "pins in", "found": "pin straight", "by": "Robin"}
    yield "strike", {"entry": ids["note"], "why": "it was 6 °C"}


def entry_id(place: int) -> str:
    """The id of the entry at a place of the second book."""
    return UUID(int=place + 1, version=4).hex


def make(folder: Path) -> None:
    """Both books and their exports."""
    stop_the_clock()
    os.environ["GUDGEON_WHO"] = "owner"
    platform.node = lambda: "bench"
    from gudgeon.bench.begin import open_demo
    from gudgeon.bench.copies import export
    from gudgeon.book.sqlite import open_book

    folder.mkdir(parents=True)
    with TemporaryDirectory() as place:
        demo = Path(place) / "demo"
        open_demo(demo, now=HOUR)
        (folder / "invented-job.gudgeon").write_bytes((demo / "book.gudgeon").read_bytes())
        every = Path(place) / "every.gudgeon"
        with open_book(every, clock=lambda: HOUR, create=True) as store:
            store.append_many(drafts())
        (folder / "every-kind.gudgeon").write_bytes(every.read_bytes())
        export(demo / "book.gudgeon", folder / "invented-job.zip")
        export(every, folder / "every-kind.zip")


def drafts() -> Iterator[Any]:
    """The entries of the second book as their sender drafts them."""
    from gudgeon.book.entries import Draft

    at = HOUR.isoformat()
    for place, (kind, body) in enumerate(bodies()):
        yield Draft(entry_id(place), kind, body, BUILD, "owner", "bench", at)


if __name__ == "__main__":
    make(Path(sys.argv[1]))
