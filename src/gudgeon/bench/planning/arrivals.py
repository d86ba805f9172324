"""What is away or on its way, when it is promised or expected, and what of it is late."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta

from gudgeon.bench.buying.counts import counted
from gudgeon.bench.buying.lines import lacking
from gudgeon.bench.buying.market import Market, market_of, shop_key
from gudgeon.bench.buying.of_job import of_other_jobs
from gudgeon.bench.buying.part_tasks import task_for
from gudgeon.bench.buying.said import SaidOfPart, said_of_parts
from gudgeon.bench.context import Bench
from gudgeon.bench.evidence import is_shop_part
from gudgeon.bench.network import Task, tasks_left_out
from gudgeon.bench.part_keys import key_of
from gudgeon.bench.planning.answer import Late
from gudgeon.bench.planning.figures import figures, wait_kind
from gudgeon.bench.planning.words import day_words
from gudgeon.bench.promises import same_words
from gudgeon.bench.standing import Network
from gudgeon.book.plan_state import Order, Promise


@dataclass(frozen=True, slots=True)
class Arrival:
    """Something that comes: when it is planned for, at the earliest and at the latest; `said` by whom, or empty.

    `since` is when it left or was ordered; a part without it that the shop is to give back has not left yet, and is
    away from when it leaves. `late` says that its day is over. `holds` are the tasks that cannot begin before it is
    there. What nobody `ordered` is none of what is on its way, and comes as long after today as it takes.
    """

    what: str
    kind: str
    since: datetime | None
    planned: datetime
    earliest: datetime
    latest: datetime
    promised: date | None
    late: bool
    by: str
    holds: tuple[str, ...]
    words: str
    ordered: bool = True

    @property
    def still_here(self) -> bool:
        """Whether it has yet to leave for the shop."""
        return self.kind == "shop" and self.since is None


@dataclass(frozen=True, slots=True)
class _Days:
    """The day on which something is due, the span around it, when that was said and by whom."""

    on: date
    earliest: date
    latest: date
    said: datetime
    by: str


def arrivals(network: Network, *, goal: str) -> tuple[Arrival, ...]:
    """Everything that is away or ordered and not here, the first one first."""
    found = _looked_at(network, [*_from_shop(network, goal), *_deliveries(network, goal)])
    return tuple(sorted(found, key=lambda one: one.planned))


def late_ones(coming: tuple[Arrival, ...], *, now: datetime) -> tuple[Late, ...]:
    """What is late, in words."""
    found = []
    for one in coming:
        if one.late and one.promised is not None:
            days = (now.astimezone().date() - one.promised).days
            since = "since yesterday" if days == 1 else f"for {days} days"
            by = f" by {one.by}" if one.by else ""
            planned = day_words(one.planned.astimezone().date(), now=now)
            words = (
                f"{one.what}: was promised{by} for {day_words(one.promised, now=now)} and is late {since}. "
                f"Planned as if it came on {planned}: ask, and write down what they say."
            )
            if one.still_here:
                words = (
                    f"{one.what}: was promised{by} for {day_words(one.promised, now=now)}, which is over, and by the "
                    "book it has not left. Record that it left if it did, or ask for a new day."
                )
            found.append(Late(one.what, day_words(one.promised, now=now), days, words))
    return tuple(found)


def here_at(day: date) -> datetime:
    """The hour of a day at which what is promised for it is there."""
    return datetime.combine(day, time.fromisoformat(figures().here_at)).astimezone()


def shop_promise(bench: Bench, what: str) -> Promise | None:
    """The promise of the shop about a part, however each entry names it."""
    wanted = key_of(bench.sheet, what)
    found = [
        promise
        for (kind, name), promise in bench.state.plan.promises.items()
        if kind == "shop" and (key_of(bench.sheet, name) == wanted or same_words(name, other=what))
    ]
    return max(found, key=lambda one: datetime.fromisoformat(one.said), default=None)


def is_away(network: Network, task: Task) -> bool:
    """Whether the part that a task gets back is at the machine shop."""
    return task.shop_when == "back" and network.own[task.key].status == "away"


def _from_shop(network: Network, goal: str) -> Iterator[Arrival]:
    """Parts at the shop; and parts that are promised for a day before they have left."""
    bench = network.bench
    away = {name: one for name, one in bench.state.shop.items() if not one.back}
    for name, one in away.items():
        back = _back_tasks(network, name)
        promise = _said_after(shop_promise(bench, name), one.back_before)
        out = datetime.fromisoformat(one.out)
        minutes = sum(task.wait.minutes for task in back if task.wait is not None)
        holds = (back[-1].key,) if back else (network.at_shop.get(name, goal),)
        yield _arrival(bench, name, "shop", out, _by_promise(promise, one.shop), minutes or 3 * 1440, holds)
    names = [name for of, name in bench.state.plan.promises if of == "shop"]
    for name in names:
        promise = shop_promise(bench, name)
        known = any(same_words(name, other=one) for one in bench.state.shop)
        if promise is None or promise.what != name or known:
            continue  # it was there, or a later word names the same part otherwise
        back = _back_tasks(network, name)
        if back:
            after = tuple(key for key in network.after_that[back[-1].key] if not network.finished(key)) or (
                goal,
            )
            yield _arrival(bench, name, "shop", None, _by_promise(promise, promise.by), 0, after)


def _back_tasks(network: Network, name: str) -> list[Task]:
    """The tasks in which the shop has a part, as far as they are not over, in their order."""
    return [
        network.tasks[key]
        for key in network.order
        if (task := network.tasks[key]).shop_when == "back"
        and is_shop_part(task, name)
        and not network.finished(key)
    ]


def _deliveries(network: Network, goal: str) -> Iterator[Arrival]:
    """Parts that were ordered, or promised, and were not received."""
    bench = network.bench
    said = said_of_parts(bench)
    market = market_of(bench, said)
    for key, one in said.items():
        for order in one.under_way:
            yield _delivery(network, key, order, one.promises.get(order.entry), goal, market)
    for (of, what), promise in bench.state.plan.promises.items():
        one = said.get(key_of(bench.sheet, what), SaidOfPart())
        if of == "delivery" and not one.orders and not one.state.received:
            yield _delivery(network, key_of(bench.sheet, what), None, promise, goal, market)
    if kept_here(bench) and not to_be_ordered(network):
        yield from (_unordered(network, one, goal) for one in rests_to_order(bench))


def _said_after(promise: Promise | None, moment: str) -> Promise | None:
    """A promise, unless it was said before: it was about another order, or about the time before."""
    if promise is None or not moment:
        return promise
    return promise if datetime.fromisoformat(promise.said) >= datetime.fromisoformat(moment) else None


def kept_here(bench: Bench) -> bool:
    """Whether the book is told of parts at all: of one that says nothing of any, nobody knows what is still lacking."""
    return bool(bench.state.buying.orders) or any(
        one.received or one.decided for one in bench.state.parts.values()
    )


def to_be_ordered(network: Network) -> bool:
    """Whether a task in which parts are ordered and waited for is not over."""
    return any(
        wait_kind(task) == "delivery" and not network.finished(key) for key, task in network.tasks.items()
    )


def _unordered(network: Network, rest: "Rest", goal: str) -> Arrival:
    """A part that has to be ordered, and of which no task says so any more."""
    holds = _needs(network, rest.part, goal)
    found = _arrival(network.bench, rest.part, "delivery", None, None, rest.days * 1440, holds)
    day = day_words(found.planned.astimezone().date(), now=network.bench.now)
    return replace(
        found, words=f"{rest.part}: not ordered yet, here about {day}: {rest.takes}", ordered=False
    )


def _delivery(
    network: Network, key: str, order: Order | None, promise: Promise | None, goal: str, market: Market
) -> Arrival:
    sheet = network.bench.sheet
    name = sheet.parts[key].name if key in sheet.parts else f"{key[:1].upper()}{key[1:]}"
    since = datetime.fromisoformat(order.time) if order is not None else None
    holds = _needs(network, name, goal)
    days, minutes, told = _expected(order, promise), USUAL, ""
    lead = lead_days(market, key, supplier=order.supplier if order else "") if days is None else None
    if lead is not None:
        minutes, told = lead[0] * 1440, lead[1]
    found = _arrival(network.bench, name, "delivery", since, days, minutes, holds)
    return (
        replace(found, words=found.words.replace("after the usual time", f"after {told}")) if told else found
    )


def lead_days(market: Market, key: str, *, supplier: str) -> tuple[int, str] | None:
    """How many days a part takes to come by what kit and book say of its supplier, and whose figure that is."""
    shop = market.shops.get(shop_key(market.shops, supplier))
    if shop is None:
        return None
    offers = [
        days for one in market.of([key]) if one.shop == shop.key and (days := market.days(one)) is not None
    ]
    days = max(offers) if offers else shop.days
    if days is None:
        return None
    return days, f"the {days} day{'' if days == 1 else 's'} of {shop.name}, as kit and book have it"


@dataclass(frozen=True, slots=True)
class Rest:
    """A part that is still to be ordered, and in how many days it comes from where it comes soonest."""

    part: str
    days: int
    shop: str

    @property
    def takes(self) -> str:
        """How long it takes, and who says so."""
        return f"it takes {self.days} day{'' if self.days == 1 else 's'} from {self.shop}, as kit and book have it"

    @property
    def words(self) -> str:
        """What it means that it comes last, in a sentence."""
        return (
            f"Parts that are not ordered yet take {self.days} day{'' if self.days == 1 else 's'} once they are: "
            f"{self.part} does not come sooner, from {self.shop}, as kit and book have it."
        )


def rest_to_order(bench: Bench) -> Rest | None:
    """What comes last of the parts that are still to be ordered; None where nobody says how long any takes."""
    return max(rests_to_order(bench), key=lambda one: one.days, default=None)


def rests_to_order(bench: Bench) -> tuple[Rest, ...]:
    """The parts that are to be renewed and of which too few are ordered, as far as somebody says how long they take."""
    said = said_of_parts(bench)
    market, elsewhere = market_of(bench, said), of_other_jobs(bench)
    found: list[Rest] = []
    for key, part in bench.sheet.parts.items():
        book = said.get(key, SaidOfPart())
        renewed = book.state.decision == "renew" if book.state.decided else part.one_time
        if not renewed or not lacking(book, counted(part.quantity).number):
            continue
        if elsewhere(part.name) and not (book.state.decision or book.orders):
            continue
        times = [
            (days, market.shops[one.shop].name)
            for one in market.of([key, part.name.lower()])
            if (days := market.days(one)) is not None
        ]
        if times:
            found.append(Rest(part.name, *min(times)))
    return tuple(found)


def _expected(order: Order | None, promise: Promise | None) -> _Days | None:
    """The latest word on a delivery: the promise, else what was expected when it was ordered."""
    if promise is None and order is not None and order.expected:
        on = date.fromisoformat(order.expected)
        return _Days(on, on, on, datetime.fromisoformat(order.time), order.supplier)
    return _by_promise(promise, order.supplier if order is not None else "")


def _by_promise(promise: Promise | None, by: str) -> _Days | None:
    if promise is None:
        return None
    on, earliest, latest = (date.fromisoformat(day) for day in (promise.on, promise.earliest, promise.latest))
    return _Days(on, earliest, latest, datetime.fromisoformat(promise.said), promise.by or by)


def _arrival(
    bench: Bench, what: str, kind: str, since: datetime | None, days: _Days | None, minutes: int,
    holds: tuple[str, ...],
) -> Arrival:  # fmt: skip
    """When something comes: as promised, else after the usual time; never today where its day is over."""
    now = bench.now
    if days is None:
        low, _, high = figures().shop if kind == "shop" else figures().delivery
        begun = since or now
        at, first, last = (begun + timedelta(minutes=minutes * factor) for factor in (1.0, low, high))
        over = at.astimezone().date() < now.astimezone().date()
        promised, by, slip = None, "", last - at
    else:
        at, first, last = here_at(days.on), here_at(days.earliest), here_at(days.latest)
        over = days.on < now.astimezone().date()
        promised, by, slip = days.on, days.by, _slip(days, kind)
        last = max(last, at + slip) if days.latest == days.on else last
    if over or at <= now:
        at = first = here_at(now.astimezone().date() + timedelta(days=1))
        last = max(last, at + slip)
    words = _words(what, kind, at, promised=promised, over=over, now=now)
    if kind == "shop" and since is None:
        words += "; it has not left yet, and is away from when it leaves for the usual time at least"
    late = over and promised is not None
    return Arrival(what, kind, since, at, min(first, at), max(last, at), promised, late, by, holds, words)


def _slip(days: _Days, kind: str) -> timedelta:
    """How far a promise slips: the span that was said, else a share of the time until then."""
    if days.latest > days.on:
        return timedelta(days=(days.latest - days.on).days)
    known = figures()
    least = known.slip_days_shop if kind == "shop" else known.slip_days_delivery
    ahead = (days.on - days.said.astimezone().date()).days
    return timedelta(days=max(least, known.slip_share * ahead))


def _words(what: str, kind: str, at: datetime, *, promised: date | None, over: bool, now: datetime) -> str:
    where = "back from the shop" if kind == "shop" else "delivered"
    day = day_words(at.astimezone().date(), now=now)
    if promised is None:
        return f"{what}: {where} about {day}, after the usual time; nobody promised a day"
    if over:
        return f"{what}: {where} on {day} at the earliest, because {day_words(promised, now=now)} is over"
    return f"{what}: {where} on {day}, as promised"


def _needs(network: Network, name: str, goal: str) -> tuple[str, ...]:
    """The task that needs a part, by the words of its name; what the job aims at where that is over or left out."""
    out = tasks_left_out(network.bench.sheet, network.bench.state)
    task = task_for(name, tasks={**network.tasks, **out})
    known = task is not None and task.key in network.tasks and not network.finished(task.key)
    return (task.key,) if task is not None and known else (goal,)


def _looked_at(network: Network, found: list[Arrival]) -> list[Arrival]:
    """What came is looked at once the first of it is there."""
    first = min((one for one in found if one.kind == "delivery"), key=lambda one: one.planned, default=None)
    if first is None or LOOK_AT_PARTS not in network.tasks or network.finished(LOOK_AT_PARTS):
        return found
    both = replace(first, holds=tuple(dict.fromkeys((LOOK_AT_PARTS, *first.holds))))
    return [both if one is first else one for one in found]


USUAL = 2 * 1440
"""Minutes that a delivery takes where nobody says anything."""
LOOK_AT_PARTS = "compare_parts"
"""The task in which new parts are laid beside the old ones."""
