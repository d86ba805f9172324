"""Valve events: opening, closing and duration that do not add up, a full lift that is not halfway, odd durations."""

from collections.abc import Iterator

from gudgeon.bench.proof.findings import Finding, Grade, finding
from gudgeon.bench.timing.drive_model import Remarks
from gudgeon.bench.timing.events import stated_events
from gudgeon.calc.engine.events import Valve
from gudgeon.sheet.drive import Valves
from gudgeon.sheet.model import DataSheet

_VALVES: tuple[Valve, ...] = ("intake", "exhaust")


def check_valve_events(sheet: DataSheet) -> Iterator[Finding]:
    """What contradicts itself in the events of either valve; what they lack is told where they are asked for."""
    gear = sheet.valve_gear
    for valve in _VALVES if gear is not None else ():
        assert gear is not None
        stated = gear.intake if valve == "intake" else gear.exhaust
        if stated is None:
            continue
        source = str(stated.source or gear.source or "")
        remarks = Remarks(None)
        found = stated_events(valve, stated, remarks)
        for one in remarks.all():
            if one.grade != "missing":
                grade: Grade = "error" if one.grade == "error" else "doubt"
                yield _finding(grade, valve, stated, one.path, one.text, source)
        for flag in found.flags if found is not None else ():
            field = "centerline" if "centerline" in flag else "duration"
            path = f"valve_gear.{valve}.{field}"
            yield _finding("doubt", valve, stated, path, flag, source)


def _finding(grade: Grade, valve: Valve, stated: Valves, path: str, why: str, source: str) -> Finding:
    figure = getattr(stated, path.rpartition(".")[2], None)
    return finding(
        "valve events",
        grade=grade,
        path=path,
        name=f"Events of the {valve} valves",
        printed=figure.value.text if figure is not None else "",
        why=why,
        source=source,
    )
