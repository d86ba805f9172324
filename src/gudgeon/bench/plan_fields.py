"""What a person says of the plan, of parts and of money, as the book keeps it; and what of it makes no sense.

An order, a promise or an estimate is an instruction for the plan, not something that happened to the engine: what
cannot be kept is refused here, in words.
"""

import re
from collections.abc import Callable, Iterable, Mapping
from datetime import date
from decimal import Decimal
from itertools import count, pairwise
from typing import Any

from gudgeon.bench.context import Bench
from gudgeon.bench.costs.money_errors import NoCurrency, NotMoreThanNothing, RangeInOrder
from gudgeon.bench.costs.shop_hours import with_hours
from gudgeon.bench.errors import Unknown
from gudgeon.bench.job_choice import can_be_chosen, can_be_dropped, keeps_an_order
from gudgeon.bench.network import JOBS, job, job_of, known_task, tasks_of, title_of
from gudgeon.bench.part_figures import check_use
from gudgeon.bench.part_keys import part_key
from gudgeon.bench.plan_errors import (
    AfterNothing,
    AmountsInOrder,
    MinutesInOrder,
    NoChance,
    NoDay,
    NoHours,
    NotMoney,
    PastDay,
    PastPromise,
    PromiseInOrder,
    TaskThere,
)
from gudgeon.bench.promises import can_be_promised, part_called, shop_name
from gudgeon.book.plan_state import PlanState

Fields = Mapping[str, Any]
FindTask = Callable[[Bench, str], str]

_CLOCK = re.compile(r"\s*(\d{1,2}):(\d\d)\s*(?:-|–|to)\s*(\d{1,2}):(\d\d)\s*")
_AMOUNT = re.compile(r"\d{1,12}(?:[.,]\d{1,6})?", re.ASCII)
_LETTERS = re.compile(r"[A-Z]{3}", re.ASCII)
_THOUSANDS = re.compile(r",\d{3}$")
_DAYS = {
    "day": ("day",),
    "on": ("promised",),
    "earliest": ("promised",),
    "latest": ("promised",),
    "expected": (),
}
_CALLED = {"low": "at best", "likely": "as a rule", "high": "at worst"}
_TOLD = {
    "low": "in one case of ten less than",
    "middle": "as often more as less than",
    "high": "in one case of ten more than",
}
"""Amounts as pages and terminal call them."""
_MONEY = ("amount", "price", "cost", "low", "likely", "middle", "high")
_WITH_MONEY = (
    "part-ordered",
    "price-seen",
    "part-life",
    "cost-expected",
    "estimate-told",
    "ceiling-agreed",
    "approval",
)
_OF_A_PART = ("part-ordered", "price-seen", "part-age", "part-life")
KINDS = frozenset(
    (
        "job-chosen", "task-added", "task-dropped", "task-minutes", "task-order", "day-planned", "promised",
        *_WITH_MONEY, *_OF_A_PART,
    )
)  # fmt: skip
"""The kinds that are read here."""


def plan_fields(bench: Bench, kind: str, said: Fields, *, find_task: FindTask) -> dict[str, Any]:
    """The fields of a kind as the book keeps them."""
    fields = {name: value for name, value in said.items() if value not in (None, "")}
    for name in _DAYS:
        if name in fields:
            fields[name] = a_day(str(fields[name]))
    for name in ("after", "before", "needs"):
        if name in fields:
            fields[name] = [one.strip() for one in _several(fields[name]) if one.strip()]
    for name in ("after", "before"):
        if name in fields:
            fields[name] = [find_task(bench, one) for one in fields[name]]
    if kind in ("task-dropped", "task-minutes", "task-order"):
        # What was left out already may be sent again, and then it counts once.
        known = fields["task"] in bench.state.plan.dropped
        fields["task"] = fields["task"] if known else find_task(bench, str(fields["task"]))
    if kind == "task-added":
        fields["task"] = own_key(str(fields["title"]), plan=bench.state.plan)
    if kind == "job-chosen":
        fields["job"] = find_job(str(fields["job"]))
    if kind == "day-planned":
        fields["hours"] = hours_of_day(_several(fields.get("hours", ())))
    if kind in _OF_A_PART:
        fields["part"] = part_key(bench.sheet, str(fields["part"]))
    if kind == "promised":
        named = shop_name if fields.get("of") == "shop" else _delivered
        fields["what"] = named(bench, str(fields["what"]))
    if kind == "cost-expected":
        fields = with_hours(bench.kit, fields)
    if kind in _WITH_MONEY:
        fields = _money(kind, fields)
    if "distance" in fields:
        fields["distance"] = an_amount(str(fields["distance"]), what="How far it has run")
    return fields


def check_plan(bench: Bench, kind: str, fields: Fields) -> None:
    """What cannot be kept against the book as it stands."""
    check_use(kind, fields)
    if kind == "job-chosen":
        can_be_chosen(bench.sheet, bench.state, wanted=str(fields["job"]))
    if kind == "task-dropped":
        can_be_dropped(bench.sheet, bench.state, key=str(fields["task"]))
    if kind == "task-added":
        titles = {one.title.casefold() for one in tasks_of(bench.sheet, bench.state)}
        if str(fields["title"]).casefold() in titles or fields["task"] in job_of(bench.state).tasks:
            raise TaskThere(str(fields["title"]))
    if kind == "task-order" and not fields.get("after"):
        raise AfterNothing(title_of(str(fields["task"]), sheet=bench.sheet, state=bench.state))
    if kind in ("task-added", "task-order"):
        keeps_an_order(bench.sheet, bench.state, fields)
    if kind == "task-minutes":
        likely = int(fields["minutes"])
        low, high = int(fields.get("low", likely)), int(fields.get("high", likely))
        if not low <= likely <= high:
            raise MinutesInOrder(low, likely, high)
    today = bench.now.astimezone().date().isoformat()
    if kind == "day-planned" and str(fields["day"]) < today:
        raise PastDay(str(fields["day"]), today)
    if kind in ("promised", "part-ordered"):
        on = fields.get("on") or fields.get("expected")
        if on is not None and on < today:
            what = str(fields.get("what") or fields["part"])
            raise PastPromise(part_called(bench.sheet, what), on, today)
    if kind == "promised":
        can_be_promised(bench, of=str(fields["of"]), what=str(fields["what"]))
        early, late = fields.get("earliest") or fields["on"], fields.get("latest") or fields["on"]
        if not early <= fields["on"] <= late:
            raise PromiseInOrder(early, str(fields["on"]), late)


def own_key(title: str, *, plan: PlanState) -> str:
    """The key of a task of his own, made from its words; no other task has it."""
    plain = re.sub(r"[^a-z0-9]+", "_", title.lower()).strip("_")[:60] or "task"
    keys = (plain if number == 1 else f"{plain}_{number}" for number in count(1))
    return next(key for key in keys if _is_free(key, title, plan))


def _is_free(key: str, title: str, plan: PlanState) -> bool:
    """Whether a key names no other task; the same words said again are the same task."""
    there = plan.added.get(key)
    return known_task(key) is None if there is None else there.title.casefold() == title.casefold()


def find_job(said: str) -> str:
    """A job by its key or its name."""
    names = {one: job(one).name for one in JOBS}
    for key, name in names.items():
        if said.strip().casefold() in (key, name.casefold(), key.replace("_", " ")):
            return key
    raise Unknown("job", said, names.values())


def a_day(said: str) -> str:
    """A calendar day."""
    try:
        return date.fromisoformat(said.strip()).isoformat()
    except ValueError:
        raise NoDay(said) from None


def hours_of_day(said: Iterable[str]) -> list[str]:
    """Stretches of one day, in order and apart from each other."""
    spans = []
    for one in said:
        for part in re.split(r"[,;]| and ", one):
            found = _CLOCK.fullmatch(part)
            if found is None:
                raise NoHours(part)
            hour, minute, last_hour, last_minute = (int(text) for text in found.groups())
            start, end = hour * 60 + minute, last_hour * 60 + last_minute
            if max(minute, last_minute) > 59 or not start < end <= 24 * 60:
                raise NoHours(part)
            spans.append((start, end))
    spans.sort()
    if any(first[1] > then[0] for first, then in pairwise(spans)):
        raise NoHours(", ".join(said))
    return [f"{one // 60:02d}:{one % 60:02d}-{two // 60:02d}:{two % 60:02d}" for one, two in spans]


def _delivered(bench: Bench, said: str) -> str:
    return part_key(bench.sheet, said)


def an_amount(said: str, *, what: str) -> str:
    """A plain number that is not below nothing."""
    text = said.strip()
    # A comma before three digits is read in two ways, a thousand apart.
    if not _AMOUNT.fullmatch(text) or _THOUSANDS.search(text):
        raise NotMoney(what, said)
    return text.replace(",", ".")


def a_currency(said: str) -> str:
    """A currency by its three letters, large or small."""
    text = said.strip().upper()
    if not _LETTERS.fullmatch(text):
        raise NoCurrency(said)
    return text


def paid_fields(said: Fields) -> dict[str, Any]:
    """What was spent or came back, as the book keeps it: more than nothing, in a currency."""
    amount = an_amount(str(said["amount"]), what="amount")
    if not Decimal(amount):
        raise NotMoreThanNothing("amount", str(said["amount"]))
    return {**said, "amount": amount, "currency": a_currency(str(said["currency"]))}


def _called(kind: str, name: str) -> str:
    return (_TOLD if kind == "estimate-told" else _CALLED).get(name, name)


def _money(kind: str, said: dict[str, Any]) -> dict[str, Any]:
    fields = dict(said)
    for name in _MONEY:
        if name in fields:
            fields[name] = an_amount(str(fields[name]), what=_called(kind, name))
    if kind == "ceiling-agreed" and not Decimal(fields["amount"]):
        raise NotMoreThanNothing("amount", str(said["amount"]))
    if "currency" in fields:
        fields["currency"] = a_currency(str(fields["currency"]))
    middle = fields.get("likely") or fields.get("middle")
    if kind in ("cost-expected", "estimate-told") and middle is not None:
        low, high = str(fields["low"]), str(fields["high"])
        if not Decimal(low) <= Decimal(middle) <= Decimal(high):
            raise (AmountsInOrder if kind == "cost-expected" else RangeInOrder)(low, middle, high)
    if "chance" in fields:
        fields["chance"] = _a_chance(str(fields["chance"]))
    return fields


def _a_chance(said: str) -> str:
    """A chance as a number up to 1; one in percent is turned into it."""
    text, mark, rest = said.strip().replace(",", ".").partition("%")
    text = text.rstrip()
    most = 100 if mark else 1
    if rest or not _AMOUNT.fullmatch(text) or not 0 < Decimal(text) <= most:
        raise NoChance(said)
    return f"{(Decimal(text) / 100).normalize():f}" if mark else text


def _several(said: Any) -> tuple[str, ...]:
    return (said,) if isinstance(said, str) else tuple(said or ())
