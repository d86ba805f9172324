"""What is used up by the job: sealant, lube, oil, coolant, cleaner, rags, gloves."""

from gudgeon.bench.context import Bench
from gudgeon.bench.network import tasks_of
from gudgeon.bench.supplies.cleaning import cleaning
from gudgeon.bench.supplies.fluids import fluids
from gudgeon.bench.supplies.lube import lube
from gudgeon.bench.supplies.model import Supply
from gudgeon.bench.supplies.sealing import sealing


def supplies(bench: Bench) -> tuple[Supply, ...]:
    """Everything that is used up, each with how it was worked out; figures of the sheet, so the code is read first."""
    bench.unlock()
    tasks = tasks_of(bench.sheet, bench.state)
    return (
        *sealing(bench),
        *lube(bench, tasks),
        *fluids(bench, tasks),
        *cleaning(bench, tasks),
    )
