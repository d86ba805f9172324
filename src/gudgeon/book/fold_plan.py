"""The plan, parts to be had and money agreed, while entries are folded. The latest word on a thing counts."""

from collections.abc import Callable, Mapping
from typing import Any

from gudgeon.book.entries import Entry
from gudgeon.book.kept import as_it_is
from gudgeon.book.plan_state import (
    AddedTask,
    Age,
    AgreedState,
    Approved,
    BuyingState,
    Ceiling,
    Cost,
    Life,
    Order,
    OwnMinutes,
    PlannedDay,
    PlanState,
    Price,
    Promise,
    Told,
)


class Planned:
    """What was said of the plan and of money so far."""

    def __init__(self) -> None:
        self._job, self._why = "", ""
        self._added: dict[str, AddedTask] = {}
        self._dropped: dict[str, str] = {}
        self._minutes: dict[str, OwnMinutes] = {}
        self._after: dict[str, tuple[str, ...]] = {}
        self._promises: dict[tuple[str, str], Promise] = {}
        self._days: dict[tuple[str, str], PlannedDay] = {}
        self._orders: list[Order] = []
        self._prices: dict[tuple[str, str, str], Price] = {}
        self._ages: dict[str, Age] = {}
        self._lives: dict[str, Life] = {}
        self._costs: dict[str, Cost] = {}
        self._told: list[Told] = []
        self._ceilings: list[Ceiling] = []
        self._approvals: list[Approved] = []

    def take(self, entry: Entry) -> None:
        """One entry further."""
        TAKES[entry.kind](self, entry, entry.body)

    def plan(self) -> PlanState:
        """The job as chosen and changed."""
        return PlanState(
            self._job, self._why, as_it_is(self._added), as_it_is(self._dropped), as_it_is(self._minutes),
            as_it_is(self._after), as_it_is(self._promises), as_it_is(self._days),
        )  # fmt: skip

    def buying(self) -> BuyingState:
        """What was ordered and asked for parts."""
        return BuyingState(
            tuple(self._orders), as_it_is(self._prices), as_it_is(self._ages), as_it_is(self._lives)
        )

    def agreed(self) -> AgreedState:
        """What was said and agreed about money."""
        return AgreedState(
            as_it_is(self._costs), tuple(self._told), tuple(self._ceilings), tuple(self._approvals)
        )

    def _job_chosen(self, entry: Entry, body: Mapping[str, Any]) -> None:
        self._job, self._why = body["job"], body["why"]

    def _task_added(self, entry: Entry, body: Mapping[str, Any]) -> None:
        self._dropped.pop(body["task"], None)
        self._added[body["task"]] = AddedTask(
            body["task"], body["title"], tuple(body["after"]), tuple(body["before"]), body["minutes"],
            body["two_people"], tuple(body["needs"]), body["due_before"], body["why"],
        )  # fmt: skip

    def _task_dropped(self, entry: Entry, body: Mapping[str, Any]) -> None:
        self._dropped[body["task"]] = body["why"]

    def _task_minutes(self, entry: Entry, body: Mapping[str, Any]) -> None:
        likely = body["minutes"]
        self._minutes[body["task"]] = OwnMinutes(
            body["low"] or likely, likely, body["high"] or likely, body["why"]
        )

    def _task_order(self, entry: Entry, body: Mapping[str, Any]) -> None:
        self._after[body["task"]] = tuple(body["after"])

    def _day_planned(self, entry: Entry, body: Mapping[str, Any]) -> None:
        day = PlannedDay(body["day"], tuple(body["hours"]), body["whose"], body["why"])
        self._days[(day.whose, day.day)] = day

    def _promised(self, entry: Entry, body: Mapping[str, Any]) -> None:
        on = body["on"]
        self._promises[(body["of"], body["what"])] = Promise(
            body["what"], body["of"], on, body["earliest"] or on, body["latest"] or on, body["by"], entry.device_time,
        )  # fmt: skip

    def _ordered(self, entry: Entry, body: Mapping[str, Any]) -> None:
        self._orders.append(
            Order(
                entry.id, body["part"], body["supplier"], body["quantity"], body["expected"] or "",
                body["amount"] or "", body["currency"] or "", body["note"], entry.device_time,
            )
        )  # fmt: skip

    def _price(self, entry: Entry, body: Mapping[str, Any]) -> None:
        at = (body["part"], body["supplier"], body["currency"])
        self._prices.pop(at, None)  # the newest stands at the end
        self._prices[at] = Price(
            body["part"], body["supplier"], body["price"], body["currency"], body["pack"], body["days"],
            body["article"], entry.device_time,
        )  # fmt: skip

    def _age(self, entry: Entry, body: Mapping[str, Any]) -> None:
        self._ages[body["part"]] = Age(
            body["distance"] or "", body["unit"] or "", body["months"], body["basis"]
        )

    def _life(self, entry: Entry, body: Mapping[str, Any]) -> None:
        self._lives[body["part"]] = Life(
            body["shape"],
            body["life"],
            body["unit"],
            body["until"],
            body["cost"],
            body["currency"],
            body["basis"],
        )

    def _cost(self, entry: Entry, body: Mapping[str, Any]) -> None:
        self._costs[body["what"]] = Cost(
            body["what"], body["of"], body["low"], body["likely"], body["high"], body["currency"], body["chance"],
            body["due"], body["basis"], entry.device_time,
        )  # fmt: skip

    def _told_to(self, entry: Entry, body: Mapping[str, Any]) -> None:
        self._told.append(
            Told(
                body["at"], body["low"], body["middle"], body["high"], body["currency"], body["to"], body["note"],
                entry.device_time,
            )
        )  # fmt: skip

    def _ceiling(self, entry: Entry, body: Mapping[str, Any]) -> None:
        self._ceilings.append(
            Ceiling(
                body["amount"], body["currency"], body["by"], body["until"], body["note"], entry.device_time
            )
        )

    def _approval(self, entry: Entry, body: Mapping[str, Any]) -> None:
        self._approvals.append(
            Approved(
                body["what"], body["answer"], body["by"], body["amount"] or "", body["currency"] or "", body["note"],
                entry.device_time,
            )
        )  # fmt: skip


TAKES: dict[str, Callable[[Planned, Entry, Mapping[str, Any]], None]] = {
    "job-chosen": Planned._job_chosen,
    "task-added": Planned._task_added,
    "task-dropped": Planned._task_dropped,
    "task-minutes": Planned._task_minutes,
    "task-order": Planned._task_order,
    "day-planned": Planned._day_planned,
    "promised": Planned._promised,
    "part-ordered": Planned._ordered,
    "price-seen": Planned._price,
    "part-age": Planned._age,
    "part-life": Planned._life,
    "cost-expected": Planned._cost,
    "estimate-told": Planned._told_to,
    "ceiling-agreed": Planned._ceiling,
    "approval": Planned._approval,
}
"""The kinds of entries that are taken here. They only state something, which a strike takes back."""
