"""Oil and coolant: what goes in, and what it takes to rinse or flush."""

from collections.abc import Iterator

from gudgeon.bench.context import Bench
from gudgeon.bench.features import has
from gudgeon.bench.network import Task
from gudgeon.bench.running.coolant import LeftIn, coolant_mix
from gudgeon.bench.running.gathered import Gathered, stated_in
from gudgeon.bench.supplies.model import PRACTICE, Supply, liters
from gudgeon.sheet.figures import Stated
from gudgeon.sheet.inspections import Fluid
from gudgeon.sources.supplies import supply_figure

FILLS_OIL, FILLS_COOLANT = "fill_oil", "fill_coolant"


def fluids(bench: Bench, tasks: tuple[Task, ...]) -> Iterator[Supply]:
    """Oil and coolant, where the job fills them."""
    keys = {task.key for task in tasks}
    if FILLS_OIL in keys:
        yield from _oil(bench)
    if FILLS_COOLANT in keys and has(bench.sheet, "liquid cooling"):
        yield from _coolant(bench)


def _engine_oil(bench: Bench) -> Fluid | None:
    found = bench.sheet.fluids
    return found.get("engine_oil") or next(
        (one for one in found.values() if one.name.lower() in ("engine oil", "motor oil", "oil")), None
    )


def _oil(bench: Bench) -> Iterator[Supply]:
    oil = _engine_oil(bench)
    if oil is None or oil.capacity is None:
        yield Supply(
            "engine_oil", oil.name if oil else "Engine oil", "", "the first filling", "", "the data sheet",
            "how much oil it holds: write it into the data sheet, with the engine oil",
        )  # fmt: skip
        return
    found = _capacities(oil.capacity)
    most = max(value for value, _ in found)
    source = str(oil.capacity.source or oil.source or "the data sheet")
    name = f"{oil.name}, {oil.specification}" if oil.specification else oil.name
    several = f"; the greater of {' and '.join(text for _, text in found)}" if len(found) > 1 else ""
    note = f" ({oil.capacity.note})" if oil.capacity.note else ""
    yield Supply(
        "engine_oil", name, liters(most), "the first filling", f"as much as it holds{note}{several}", source
    )
    flushes = supply_figure("oil_flushes").value
    yield Supply(
        "oil_flush",
        f"{oil.name} to flush with",
        liters(flushes * most),
        "one run to working heat, then out with it",
        f"{flushes:.0f} filling{'' if flushes == 1 else 's'} of {liters(most)}, and a second filter",
        PRACTICE,
        only_if="coolant was in the oil",
    )


def _capacities(stated: Stated) -> list[tuple[float, str]]:
    """Every capacity that the sheet states [cm³], each with where."""
    first = [(stated.value, str(stated.source or ""))]
    every = first + [(one.value, str(one.source or "")) for one in stated.also]
    found = []
    for value, where in every:
        most = value.high_in("cm³")
        if most is not None and most > 0:
            found.append((most, f"{value.text} ({where})" if where else value.text))
    return found


def _coolant(bench: Bench) -> Iterator[Supply]:
    lacking = Gathered(bench)
    mix = coolant_mix(bench, lacking, left_in=LeftIn())
    fluid = bench.sheet.fluids.get("coolant")
    name = fluid.name if fluid is not None else "Coolant"
    if mix is None or not mix.concentrate:
        missing = "; ".join(one.what for one in lacking.missing)
        yield Supply("coolant", f"{name}, concentrate", "", "the filling", "", "the data sheet", missing)
    else:
        yield Supply(
            "coolant",
            f"{name}, concentrate{f' of {mix.glycol}' if mix.glycol else ''}",
            mix.concentrate,
            "the filling",
            f"{mix.share} of {mix.capacity}, as it stands {mix.guards_to}; none left in the system",
            mix.source,
        )
        yield Supply(
            "coolant_water", "Clean water", mix.water, "the filling", "the rest of the mix", mix.source
        )
    held = stated_in(fluid.capacity, "cm³") if fluid is not None and fluid.capacity is not None else None
    if held is not None and held > 0:
        rinses = supply_figure("water_rinses").value
        yield Supply(
            "rinse_water", "Water to rinse the cooling system", liters(rinses * held), "until it runs clear",
            f"{rinses:.0f} fillings of {liters(held)}", PRACTICE,
        )  # fmt: skip
