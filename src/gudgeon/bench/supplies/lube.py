"""Assembly lube: a film on every journal that goes in by this job, and a dab for every follower."""

from collections.abc import Iterator

from gudgeon.bench.context import Bench
from gudgeon.bench.network import Task
from gudgeon.bench.supplies.model import PRACTICE, Supply, drops, lengths
from gudgeon.calc.planning.supplies import journal_film_cm3
from gudgeon.sheet.inspections import Characteristic, place_names
from gudgeon.sheet.model import DataSheet
from gudgeon.sources.supplies import supply_figure

CAMSHAFTS, CRANK, RODS = "camshafts_in", "lay_crank", "pistons_in"
_OF_TASK = {
    CAMSHAFTS: ("cam",),
    CRANK: ("main journal", "main bearing journal", "crankshaft journal", "crank journal"),
    RODS: ("rod journal", "big end journal", "crank pin", "crankpin"),
}
"""Words in the name of a journal that goes in by a task."""


def lube(bench: Bench, tasks: tuple[Task, ...]) -> Iterator[Supply]:
    """One line for all assembly lube of the job."""
    keys = [task.key for task in tasks if task.key in _OF_TASK]
    if not any("assembly lube" in task.needs for task in tasks):
        return
    total, told, missing = 0.0, [], []
    for key in keys:
        found = list(_journals(bench.sheet, _OF_TASK[key]))
        for item, count, diameter in found:
            volume, words = _film(item, count, diameter)
            total += volume
            told.append(words)
        if not found:
            missing.append(_WHAT[key])
    followers = _followers(bench.sheet) if CAMSHAFTS in keys else 0
    if followers:
        each = supply_figure("lube_per_follower").value
        total += followers * each
        told.append(f"{followers} followers with their lobes, {drops(each)} each")
    yield Supply(
        "assembly_lube",
        "Assembly lube",
        drops(total) if total else "",
        "bearings, lobes and followers as they go in",
        "; ".join(told),
        PRACTICE,
        "; ".join(missing),
    )


_WHAT = {
    CAMSHAFTS: "the diameter of the camshaft journals, as a characteristic with its places",
    CRANK: "the diameter of the main journals, as a characteristic with its places",
    RODS: "the diameter of the rod journals, as a characteristic with its places",
}


def _journals(sheet: DataSheet, words: tuple[str, ...]) -> Iterator[tuple[Characteristic, int, float]]:
    """The journals of a kind: how many, and their diameter [mm]."""
    for item in sheet.characteristics.values():
        name = item.name.lower()
        of = any(word in name or (word == "cam" and "cam" in (item.part or "").lower()) for word in words)
        if item.kind != "length" or item.method != "size":
            continue
        if of and "journal" in name and (diameter := _diameter(item)) is not None:
            yield item, len(place_names(item)), diameter


def _diameter(item: Characteristic) -> float | None:
    for stated in (item.new_range, item.required, item.wear_limit):
        if stated is not None:
            size = stated.value.high_in("mm") or stated.value.low_in("mm")
            if size is not None and size > 1:
                return size
    return None


def _film(item: Characteristic, count: int, diameter: float) -> tuple[float, str]:
    film, share = supply_figure("lube_film").value, supply_figure("journal_width_share").value
    width = share * diameter
    volume = count * journal_film_cm3(diameter, width_mm=width, film_mm=film)
    words = (
        f"{count} × {item.name}, {lengths(diameter, decimals=1)} across and taken as {lengths(width)} wide, with a "
        f"film of {lengths(film, decimals=1)}"
    )
    return volume, words


def _followers(sheet: DataSheet) -> int:
    gear = sheet.valve_gear
    return (gear.intake_valves or 0) + (gear.exhaust_valves or 0) if gear is not None else 0
