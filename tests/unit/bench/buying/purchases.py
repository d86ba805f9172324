"""A job with parts to buy, and suppliers who have them, for tests. All names, figures and prices invented."""

from pathlib import Path

from gudgeon.bench.buying.ask import buy
from gudgeon.bench.buying.model import BuyAnswer, Disposition, Line
from gudgeon.bench.context import open_bench
from tests.unit.bench.benches import KIT, Job, make_job
from tests.unit.sheet.sheets import SMALL

PARTS = """\
parts:
  head_gasket: {name: Head gasket, one_time: yes, source: manual p. 16, compare: every hole}
  exhaust_nuts: {name: Exhaust nuts, one_time: yes, quantity: "4", source: manual p. 20}
  rings: {name: Piston rings, quantity: 2 sets}
  crankshaft: {name: Crankshaft}
  belt: {name: Fan belt, renew_after: {value: 60000 km or 60 months, source: manual p. 21}}
"""
SUPPLIERS = """\
suppliers:
  north:
    name: Nordrand Parts
    shipping: 6.90 EUR
    free_from: 80 EUR
    lead: 2-4 days
    sells: {head_gasket: 41.00 EUR, exhaust_nuts: {price: 5.20 EUR, pack: 10}, belt: 18.00 EUR}
  south:
    name: Südhof Engines
    shipping: 4.50 EUR
    lead: 1 week
    sells: {head_gasket: {price: 36.50 EUR, article: SH-7}, exhaust_nuts: {price: 0.90 EUR}}
"""
SHEET = SMALL + PARTS
SHOP_KIT = KIT + SUPPLIERS


def buying_job(folder: Path, *, sheet: str = SHEET, kit: str = SHOP_KIT) -> Job:
    """A build whose code was read."""
    job = make_job(folder, sheet=sheet, kit=kit)
    job.read_code()
    return job


def asked(job: Job, *, no_delay: bool = False) -> BuyAnswer:
    """What to buy, as the book stands."""
    bench = open_bench(job.book, now=job.now)
    try:
        return buy(bench, no_delay=no_delay)
    finally:
        bench.store.close()


def line(answer: BuyAnswer, name: str) -> Line:
    """One line of the list, by its name."""
    return next(one for one in answer.lines if one.name == name)


def part(answer: BuyAnswer, name: str) -> Disposition:
    """What becomes of one part, by its name."""
    return next(one for one in answer.parts if one.name == name)
