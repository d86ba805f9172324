"""Purchases against every purchase there is; the proof against a forged one; each refusal word by word.

Expected costs are found by trying every way to share the parts out (HAND: the definition itself), or added up in a
comment.
"""

from collections.abc import Sequence
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gudgeon.calc.planning.purchase import Needed, Offer, Purchase, Supplier, least_cost
from gudgeon.calc.planning.purchase_errors import (
    AmountNegative,
    CountNotPositive,
    CurrenciesMixed,
    LeastOrderNotReached,
    LeastOrdersExclude,
    NamedTwice,
    NobodyInTime,
    NobodySells,
    NoPurchaseFound,
    NothingToBuy,
    SupplierUnknown,
)
from gudgeon.calc.planning.purchase_proof import (
    Closed,
    Market,
    Proof,
    PurchaseNotProved,
    Split,
    Spread,
    Way,
    bound,
    check,
    whole,
)
from gudgeon.errors import InputError

COINS = st.integers(0, 40)


@st.composite
def lists(draw: st.DrawFn) -> tuple[list[Needed], list[Supplier], list[Offer]]:
    needed = [
        Needed(f"p{at}", f"Part {at}", draw(st.integers(1, 7))) for at in range(draw(st.integers(1, 4)))
    ]
    suppliers = [
        Supplier(
            f"s{at}",
            f"Supplier {at}",
            shipping=draw(COINS),
            free_from=draw(st.none() | st.integers(0, 120)),
            least_order=draw(st.sampled_from((0, 0, 20, 60))),
        )
        for at in range(draw(st.integers(1, 3)))
    ]
    offers = [
        Offer(part.key, supplier.key, draw(COINS), pack=draw(st.integers(1, 4)), article=f"{number}")
        for part in needed
        for supplier in suppliers
        for number in range(draw(st.integers(0, 2)))
    ]
    return needed, suppliers, offers


def cost_of(chosen: Sequence[Offer], needed: Sequence[Needed], suppliers: Sequence[Supplier]) -> int | None:
    """What a purchase costs by the definition; None where a least order is not reached."""
    total = 0
    for shop in suppliers:
        goods = [
            offer.price * ((part.quantity + offer.pack - 1) // offer.pack)
            for part, offer in zip(needed, chosen, strict=True)
            if offer.supplier == shop.key
        ]
        if not goods:
            continue
        if sum(goods) < shop.least_order:
            return None
        free = shop.free_from is not None and sum(goods) >= shop.free_from
        total += sum(goods) + (0 if free else shop.shipping)
    return total


def every_cost(
    needed: Sequence[Needed], suppliers: Sequence[Supplier], offers: Sequence[Offer]
) -> list[tuple[int, int]]:
    """Cost and number of orders of every purchase that can be made."""
    found = []
    for chosen in product(*([one for one in offers if one.part == part.key] for part in needed)):
        cost = cost_of(chosen, needed, suppliers)
        if cost is not None:
            found.append((cost, len({one.supplier for one in chosen})))
    return found


@settings(max_examples=70, deadline=None)
@given(lists())
def test_nothing_costs_less(case: tuple[list[Needed], list[Supplier], list[Offer]]) -> None:
    needed, suppliers, offers = case
    every = every_cost(needed, suppliers, offers)
    if not every:
        with pytest.raises((NobodySells, LeastOrderNotReached, LeastOrdersExclude)):
            least_cost(needed, suppliers=suppliers, offers=offers)
        return
    found = least_cost(needed, suppliers=suppliers, offers=offers)
    assert found.proven
    assert found.closed > 0
    assert (found.total, len(found.orders)) == min(every)
    assert found.gap == 0
    _adds_up(found, needed, suppliers)
    alone = [
        min(costs)[0]
        for shop in suppliers
        if (costs := every_cost(needed, [shop], [one for one in offers if one.supplier == shop.key]))
    ]
    assert [order.total for order in found.alone] == sorted(alone)


def _adds_up(found: Purchase, needed: Sequence[Needed], suppliers: Sequence[Supplier]) -> None:
    """Each part once, in packs that are enough; goods, shipping and totals as the supplier asks."""
    shops = {shop.key: shop for shop in suppliers}
    quantities = {part.key: part.quantity for part in needed}
    assert sorted(line.part for order in found.orders for line in order.lines) == sorted(quantities)
    for order in found.orders:
        shop = shops[order.supplier]
        assert order.goods == sum(line.cost for line in order.lines) >= shop.least_order
        free = shop.free_from is not None and order.goods >= shop.free_from
        assert order.shipping == (0 if free else shop.shipping)
        assert all(line.pieces >= quantities[line.part] for line in order.lines)
    assert found.total == sum(order.total for order in found.orders)


@settings(max_examples=25, deadline=None)
@given(lists(), st.randoms(use_true_random=False))
def test_the_order_of_the_lists_changes_no_cost(
    case: tuple[list[Needed], list[Supplier], list[Offer]], chance: "object"
) -> None:
    needed, suppliers, offers = case
    if not every_cost(needed, suppliers, offers):
        return
    first = least_cost(needed, suppliers=suppliers, offers=offers)
    again = least_cost(needed, suppliers=suppliers, offers=offers)
    assert first == again
    for rows in (needed, suppliers, offers):
        chance.shuffle(rows)  # type: ignore[attr-defined]
    other = least_cost(needed, suppliers=suppliers, offers=offers)
    assert (other.total, len(other.orders)) == (first.total, len(first.orders))


PARTS = [Needed("gasket", "Head gasket"), Needed("nuts", "Exhaust nuts", 8), Needed("belt", "Timing belt")]
NORTH = Supplier("north", "North", shipping=690, free_from=10_000, lead_days=4, currency="EUR")
SOUTH = Supplier("south", "South", shipping=490, least_order=2_000, lead_days=2, currency="EUR")
OFFERS = [
    Offer("gasket", "north", 4_800),
    Offer("nuts", "north", 120),
    Offer("belt", "north", 3_900),
    Offer("gasket", "south", 5_300),
    Offer("nuts", "south", 600, pack=10, article="bag of ten"),
    Offer("belt", "south", 3_700, lead_days=9),
]


def test_a_split_is_explained() -> None:
    # HAND: north alone 48.00 + 8 · 1.20 + 39.00 + 6.90 = 103.50; south alone 53.00 + 6.00 + 37.00 + 4.90 = 100.90;
    # gasket from north 48.00 + 6.90, nuts and belt from south 43.00 + 4.90: 102.80. South alone is least.
    found = least_cost(PARTS, suppliers=[NORTH, SOUTH], offers=OFFERS)
    assert (found.total, found.proven, found.lead_days) == (10_090, True, 9)
    (order,) = found.orders
    assert (order.goods, order.shipping, order.total) == (9_600, 490, 10_090)
    nuts = next(line for line in order.lines if line.part == "nuts")
    assert (nuts.packs, nuts.pieces, nuts.cost, nuts.article) == (1, 10, 600, "bag of ten")
    other = found.next_alone
    assert other is not None
    assert (other.supplier, other.total) == ("north", 10_350)


def test_a_dearer_article_that_saves_the_shipping() -> None:
    # HAND: belt 39.00 leaves 96.60 of goods and 6.90 of shipping, 103.50; belt 42.50 makes 100.10 and no shipping.
    dearer = Offer("belt", "north", 4_250, article="with tensioner")
    found = least_cost(PARTS, suppliers=[NORTH], offers=[*OFFERS[:3], dearer])
    assert (found.total, found.orders[0].shipping) == (10_010, 0)
    assert found.next_alone is None


def test_in_time_costs_more() -> None:
    # HAND: the belt of south comes in 9 days and is needed in 5: gasket and belt from north (93.90), nuts too (103.50);
    # or nuts with the gasket from south (63.90) and the belt from north (45.90): 109.80.
    wanted = [*PARTS[:2], Needed("belt", "Timing belt", within_days=5)]
    found = least_cost(wanted, suppliers=[NORTH, SOUTH], offers=OFFERS, in_time=True)
    assert (found.total, found.lead_days) == (10_350, 4)
    assert least_cost(wanted, suppliers=[NORTH, SOUTH], offers=OFFERS).total == 10_090


def test_a_search_that_is_stopped_says_how_far_off_it_may_be() -> None:
    needed = [Needed(f"p{at}", f"Part {at}") for at in range(12)]
    suppliers = [
        Supplier(f"s{at}", f"S {at}", shipping=900 + at, free_from=7_000 + 37 * at) for at in range(4)
    ]
    offers = [
        Offer(part.key, shop.key, 1_000 + (131 * at * (row + 2) + 57 * row) % 499)
        for at, part in enumerate(needed)
        for row, shop in enumerate(suppliers)
    ]
    stopped = least_cost(needed, suppliers=suppliers, offers=offers, most_branches=0)
    whole_way = least_cost(needed, suppliers=suppliers, offers=offers)
    assert not stopped.proven
    assert stopped.gap == stopped.total - stopped.bound > 0
    assert stopped.bound <= whole_way.total <= stopped.total
    assert whole_way.proven


@pytest.mark.parametrize(
    ("refused", "changed", "message"),
    [
        (
            NobodySells,
            {"needed": [Needed("gaskets", "The head gasket")]},
            "No supplier has The head gasket. Under a key like its own, `gaskets`, is sold: `gasket`. Write under a "
            "supplier what it costs there, or take it off the list.",
        ),
        (
            NobodySells,
            {"needed": [Needed("oil", "Oil")]},
            "No supplier has Oil. Write under a supplier what it costs there, or take it off the list.",
        ),
        (
            NobodyInTime,
            {"needed": [Needed("belt", "Timing belt", within_days=1)], "in_time": True},
            "No supplier has Timing belt within 1 day: North is the first, in 4 days. Look for another supplier, or ask "
            "for the least cost whatever the day.",
        ),
        (
            LeastOrderNotReached,
            {"needed": [PARTS[1]], "offers": OFFERS[4:5]},
            "Exhaust nuts cannot be ordered: South asks for 20.00 EUR at least, and all it has of the list comes to 6.00 "
            "EUR. Add to the list what is needed anyway, or find another supplier.",
        ),
        (
            CurrenciesMixed,
            {"suppliers": [NORTH, Supplier("south", "South", currency="USD")]},
            "North asks in EUR, South in USD: which is less cannot be said. Write all prices in one currency, as your "
            "bank would exchange them.",
        ),
        (
            AmountNegative,
            {"offers": [Offer("gasket", "north", -1)]},
            "The price of Head gasket at North is -1, and nothing below 0 can be. Check its sign.",
        ),
        (
            AmountNegative,
            {"suppliers": [NORTH, Supplier("south", "South", lead_days=-2, currency="EUR")]},
            "The lead time of South is -2, and nothing below 0 can be. Check its sign.",
        ),
        (
            CountNotPositive,
            {"needed": [Needed("nuts", "Exhaust nuts", 0)]},
            "The quantity of Exhaust nuts is 0, and it is 1 or more. Count again.",
        ),
        (
            CountNotPositive,
            {"offers": [Offer("nuts", "north", 5, pack=0)]},
            "The pack of Exhaust nuts at North is 0, and it is 1 or more. Count again.",
        ),
        (
            NamedTwice,
            {"needed": [PARTS[0], PARTS[0]]},
            "The part `gasket` is there twice. Write it once.",
        ),
        (
            SupplierUnknown,
            {"offers": [Offer("gasket", "west", 5)]},
            "`west`, which sells Head gasket, is not among the suppliers. List it with them.",
        ),
        (NothingToBuy, {"needed": []}, "Nothing is on the list to buy. Name at least one part."),
    ],
)
def test_what_cannot_be_is_refused(
    refused: type[InputError], changed: dict[str, object], message: str
) -> None:
    asked = {"needed": PARTS, "suppliers": [NORTH, SOUTH], "offers": OFFERS} | changed
    with pytest.raises(refused) as found:
        least_cost(asked.pop("needed"), **asked)  # type: ignore[arg-type]
    assert found.value.message == message


def exclusive() -> tuple[list[Needed], list[Supplier], list[Offer]]:
    """Two parts that only one of two suppliers has each, and one that cannot lift both over their least order."""
    needed = [Needed(key, key) for key in ("a", "b", "c")]
    suppliers = [Supplier("one", "One", least_order=100), Supplier("two", "Two", least_order=100)]
    offers = [Offer("a", "one", 60), Offer("b", "two", 60), Offer("c", "one", 50), Offer("c", "two", 50)]
    return needed, suppliers, offers


def test_least_orders_that_exclude_one_another() -> None:
    needed, suppliers, offers = exclusive()
    with pytest.raises(LeastOrdersExclude) as refused:
        least_cost(needed, suppliers=suppliers, offers=offers)
    assert refused.value.message == (
        "However the parts are shared out, one of the least orders is not reached: `One`, `Two`. Add to the list what "
        "is needed anyway, or find another supplier."
    )
    with pytest.raises(NoPurchaseFound) as stopped:
        least_cost(needed, suppliers=suppliers, offers=offers, most_branches=0)
    assert stopped.value.message == (
        "After 0 branches no purchase is found that reaches the least orders: `One`, `Two`. Take a supplier off, or add "
        "to the list what is needed anyway."
    )


def test_the_day_is_told_as_the_caller_tells_days() -> None:
    with pytest.raises(NobodyInTime, match="North is the first, on day 4"):
        least_cost(
            [Needed("belt", "Timing belt", within_days=1)],
            suppliers=[NORTH],
            offers=OFFERS[:3],
            in_time=True,
            when=lambda days: f"on day {days}",
        )


MARKET = Market(1, ((Way(5, 0),), (Way(9, 0),)), ({0: (30,)}, {0: (28,)}))  # the part costs 35 or 37


def test_a_forged_proof_is_seen() -> None:
    assert check(MARKET, proof=Closed((35,)), cost=35) == 1
    forged: list[tuple[Proof, str]] = [
        (Closed((34,)), "a branch may hold a purchase for 34, below 35"),
        (Closed((-1,)), "a branch may hold a purchase for -1, below 35"),
        (Split(0, [((0,), Closed((35,)))]), "a split leaves a way of a supplier out"),
        (Split(0, [((0,), Closed((35,))), ((-1,), None)]), "a branch was left open"),
        (Spread(0, [(((0, 0),), Closed((35,)))]), "a spread leaves a supplier of a part out"),
    ]
    for proof, why in forged:
        with pytest.raises(PurchaseNotProved) as seen:
            check(MARKET, proof=proof, cost=35)
        assert str(seen.value) == why
    honest = Split(0, [((0,), Closed((35,))), ((-1,), Closed((37,)))])
    assert check(MARKET, proof=honest, cost=35) == 2


@settings(max_examples=50, deadline=None)
@given(lists(), st.data())
def test_no_prices_bound_too_high(
    case: tuple[list[Needed], list[Supplier], list[Offer]], data: st.DataObject
) -> None:
    """Whatever the prices, no purchase costs less than the bound."""
    needed, suppliers, offers = case
    every = every_cost(needed, suppliers, offers)
    if not every:
        return
    costs: list[dict[int, tuple[int, ...]]] = [
        {
            at: tuple(sorted(found))
            for at, part in enumerate(needed)
            if (
                found := [
                    one.price * -(-part.quantity // one.pack)
                    for one in offers
                    if (one.part, one.supplier) == (part.key, shop.key)
                ]
            )
        }
        for shop in suppliers
    ]
    ways = tuple(
        (Way(shop.shipping, shop.least_order),)
        if shop.free_from is None
        else (Way(shop.shipping, shop.least_order), Way(0, max(shop.free_from, shop.least_order)))
        for shop in suppliers
    )
    market = Market(len(needed), ways, tuple(costs))
    prices = data.draw(st.lists(st.integers(0, 200), min_size=len(needed), max_size=len(needed)))
    least = bound(market, branch=whole(market), prices=prices)
    assert least is not None
    assert least <= min(every)[0]


def test_a_branch_that_holds_no_purchase_any_more_is_closed() -> None:
    """Once ways and places that pay nowhere are taken out, no way may be left to buy everything.

    61: OTHER TOOL, the same list as an integer program, solved with HiGHS.
    """
    counts = {"p0": 7, "p1": 1, "p3": 9, "p4": 9, "p5": 8, "p6": 6}
    shops = [(20, 0, 50), (0, 40, 0), (20, None, 0), (20, 41, 5), (10, None, 20), (1, 20, 50)]
    sold = (
        "p0 2 5 5, p0 3 1 10, p0 5 2 5, p1 0 1 2, p1 1 8 1, p1 2 8 1, p1 3 5 1, p1 4 3 1, p3 1 5 10, p3 2 3 5, "
        "p3 3 0 10, p3 5 8 1, p4 1 10 5, p4 2 2 10, p4 3 8 1, p4 4 1 1, p4 5 2 5, p5 2 2 1, p5 3 8 5, p5 5 0 1, "
        "p6 1 0 1, p6 2 1 10, p6 3 2 1, p6 4 0 5, p6 4 2 1, p6 5 3 5"
    )
    found = least_cost(
        [Needed(key, key, count) for key, count in counts.items()],
        suppliers=[
            Supplier(f"s{at}", f"s{at}", shipping=shipping, free_from=free, least_order=least)
            for at, (shipping, free, least) in enumerate(shops)
        ],
        offers=[
            Offer(part, f"s{shop}", int(price), pack=int(pack), article=str(at))
            for at, (part, shop, price, pack) in enumerate(one.split() for one in sold.split(", "))
        ],
    )
    assert (found.total, found.proven) == (61, True)
