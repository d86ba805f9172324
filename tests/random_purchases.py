"""Random lists of parts and suppliers, and the least cost of one by a general solver: scipy's HiGHS (OTHER TOOL)."""

import random

import numpy as np

from gudgeon.calc.planning.purchase import Needed, Offer, Supplier

Shopping = tuple[list[Needed], list[Supplier], list[Offer]]


def by_highs(case: Shopping) -> int:
    """The least cost: x = a part from a supplier, y = a supplier used, f = its shipping saved."""
    from scipy.optimize import Bounds, LinearConstraint, milp

    needed, suppliers, offers = case
    count, shops = len(offers), len(suppliers)
    quantity = {part.key: part.quantity for part in needed}
    goods = np.array([offer.price * -(-quantity[offer.part] // offer.pack) for offer in offers], dtype=float)
    costs = np.concatenate(
        [goods, [shop.shipping for shop in suppliers], [-shop.shipping for shop in suppliers]]
    )
    rows, low, high = [], [], []

    def row(values: dict[int, float], least: float, most: float) -> None:
        line = np.zeros(count + 2 * shops)
        line[list(values)] = list(values.values())
        rows.append(line)
        low.append(least)
        high.append(most)

    for part in needed:
        row({at: 1.0 for at, offer in enumerate(offers) if offer.part == part.key}, 1, 1)
    for number, shop in enumerate(suppliers):
        here = [at for at, offer in enumerate(offers) if offer.supplier == shop.key]
        for at in here:
            row({at: 1.0, count + number: -1.0}, -np.inf, 0)
        row({count + shops + number: 1.0, count + number: -1.0}, -np.inf, 0)
        row({**{at: goods[at] for at in here}, count + number: -float(shop.least_order)}, 0, np.inf)
        free = float(shop.free_from) if shop.free_from is not None else 1e7
        row({**{at: goods[at] for at in here}, count + shops + number: -free}, 0, np.inf)
    found = milp(
        costs,
        constraints=LinearConstraint(np.array(rows), low, high),
        integrality=np.ones(len(costs), dtype=int),
        bounds=Bounds(0, 1),
        options={"mip_rel_gap": 0},
    )
    assert found.success
    return round(found.fun)


def shopping(seed: int, *, parts: int = 40, shops: int = 6) -> Shopping:
    """A random list: prices around a common one, not everything everywhere, fees and limits as shops have them."""
    chance = random.Random(seed)
    needed = [Needed(f"p{at}", f"Part {at}", chance.choice((1, 1, 1, 4, 8))) for at in range(parts)]
    suppliers = [
        Supplier(
            f"s{at}",
            f"Supplier {at}",
            shipping=chance.choice((390, 490, 690, 990)),
            free_from=chance.choice((None, 5_000, 10_000, 15_000, 25_000)),
            least_order=chance.choice((0, 2_000, 5_000, 10_000)),
        )
        for at in range(shops)
    ]
    offers = []
    for part in needed:
        usual = chance.randint(100, 9_000)
        having = [shop for shop in suppliers if chance.random() < 0.7] or suppliers[:1]
        for shop in having:
            pack = chance.choice((1, 1, 1, 2, 10)) if part.quantity > 1 else 1
            price = round(usual * chance.uniform(0.8, 1.3) * pack / part.quantity)
            offers.append(Offer(part.key, shop.key, price, pack))
    return needed, suppliers, offers


def locations(seed: int, *, customers: int = 50, places: int = 16) -> Shopping:
    """Facility location without limits: customers and places on a square, cost by distance and demand."""
    chance = random.Random(seed)
    spots = [(chance.randint(0, 1000), chance.randint(0, 1000)) for _ in range(places)]
    needed = [Needed(f"c{at}", f"Customer {at}") for at in range(customers)]
    suppliers = [
        Supplier(f"w{at}", f"Place {at}", shipping=chance.randint(2_000, 20_000)) for at in range(places)
    ]
    offers = []
    for customer in needed:
        x, y, demand = chance.randint(0, 1000), chance.randint(0, 1000), chance.randint(1, 30)
        for at, (over, up) in enumerate(spots):
            offers.append(Offer(customer.key, f"w{at}", demand * (abs(x - over) + abs(y - up))))
    return needed, suppliers, offers
