"""Bodies: the job and what he changed in it, his days, promises, orders, prices, and what was agreed about money."""

from datetime import date
from decimal import Decimal
from typing import Annotated, Literal

from pydantic import AfterValidator, Field, StringConstraints, model_validator

from gudgeon.book.body import Body, Due, Name, Number, Reason, Remark, Said


def _day(text: str) -> str:
    """A calendar day, ISO 8601; the years are those of every other time in a book."""
    try:
        day = date.fromisoformat(text)
    except ValueError:
        raise ValueError("a day was expected, like 2026-03-07") from None
    if not 1970 <= day.year < 3000:
        raise ValueError("the year is not between 1970 and 2999")
    return day.isoformat()


def _positive(text: str) -> str:
    if Decimal(text) <= 0:
        raise ValueError("it is not more than nothing")
    return text


def _not_negative(text: str) -> str:
    if Decimal(text) < 0:
        raise ValueError("it is less than nothing")
    return text


Day = Annotated[str, AfterValidator(_day)]
Currency = Annotated[str, StringConstraints(pattern="^[A-Z]{3}$")]
Amount = Annotated[Number, AfterValidator(_not_negative)]
More = Annotated[Number, AfterValidator(_positive)]
Minutes = Annotated[int, Field(ge=1, le=100_000)]


class JobChosen(Body):
    """How far the job goes: one of the jobs that are shipped."""

    job: Name
    why: Remark = ""


class TaskAdded(Body):
    """A task of his own: what comes before it, and what waits for it."""

    task: Name
    title: Name
    after: list[Name] = Field(default_factory=list)
    before: list[Name] = Field(default_factory=list)
    minutes: Minutes
    two_people: bool = False
    needs: list[Name] = Field(default_factory=list)
    due_before: Due = "crank"
    why: Remark = ""


class TaskDropped(Body):
    """A task that this job does not have."""

    task: Name
    why: Reason


class TaskMinutes(Body):
    """How long he thinks a task takes him: at best, as a rule, at worst."""

    task: Name
    low: Minutes | None = None
    minutes: Minutes
    high: Minutes | None = None
    why: Remark = ""

    @model_validator(mode="after")
    def _in_order(self) -> "TaskMinutes":
        low, high = self.low or self.minutes, self.high or self.minutes
        if not low <= self.minutes <= high:
            raise ValueError(
                f"{low} min at best, {self.minutes} min as a rule and {high} min at worst are not in order"
            )
        return self


class TaskOrder(Body):
    """A task that he wants to begin only after others, whatever the job says."""

    task: Name
    after: list[Name] = Field(min_length=1)
    why: Remark = ""


class DayPlanned(Body):
    """A day on which he, or the second person, has other hours than in other weeks; none when `hours` is empty."""

    day: Day
    hours: list[Annotated[str, StringConstraints(pattern=r"^\d\d:\d\d-\d\d:\d\d$")]] = Field(
        default_factory=list
    )
    whose: Literal["own", "second person"] = "own"
    why: Remark = ""


class Promised(Body):
    """The day on which something is promised: a part back from the shop, or delivered; the likely span around it."""

    what: Name
    of: Literal["shop", "delivery"]
    on: Day
    earliest: Day | None = None
    latest: Day | None = None
    by: Remark = ""

    @model_validator(mode="after")
    def _in_order(self) -> "Promised":
        if not (self.earliest or self.on) <= self.on <= (self.latest or self.on):
            raise ValueError(
                f"{self.earliest or self.on} at the earliest, {self.on} as promised and {self.latest or self.on} "
                "at the latest are not in order"
            )
        return self


class PartOrdered(Body):
    """A part is ordered: of whom, how many, for how much, expected when."""

    part: Name
    supplier: Name
    quantity: Annotated[int, Field(ge=1, le=10_000)] = 1
    expected: Day | None = None
    amount: Amount | None = None
    currency: Currency | None = None
    note: Remark = ""

    @model_validator(mode="after")
    def _with_currency(self) -> "PartOrdered":
        if (self.amount is None) != (self.currency is None):
            raise ValueError("an amount and its currency are said together")
        return self


class PriceSeen(Body):
    """What a supplier asks for a part today: the price of a pack, and how many days it takes."""

    part: Name
    supplier: Name
    price: More
    currency: Currency
    pack: Annotated[int, Field(ge=1, le=10_000)] = 1
    days: Annotated[int, Field(ge=0, le=400)] | None = None
    article: Remark = ""


class PartAge(Body):
    """How long a part has been in the engine: what it has run, how old it is."""

    part: Name
    distance: Amount | None = None
    unit: Literal["km", "mi"] | None = None
    months: Annotated[int, Field(ge=0, le=2_400)] | None = None
    basis: Said

    @model_validator(mode="after")
    def _something(self) -> "PartAge":
        if self.distance is None and self.months is None:
            raise ValueError("the distance that it has run, or its age in months: one of the two at least")
        if (self.distance is None) != (self.unit is None):
            raise ValueError("a distance and its unit are said together")
        return self


class PartLife(Body):
    """How parts like this one wear out: shape and characteristic life of a Weibull distribution, and what it costs."""

    part: Name
    shape: More
    life: More
    unit: Literal["km", "mi", "months"]
    until: More
    """How much it will run before the engine is open again, in the same unit."""
    cost: Amount
    """What a failure costs: opening it again, and what else it breaks."""
    currency: Currency
    basis: Said


class CostExpected(Body):
    """What something will cost: at best, as a rule, at worst; and how likely it comes at all."""

    what: Name
    of: Literal["shop", "part", "tool", "supplies", "other"] = "other"
    low: Amount
    likely: Amount
    high: Amount
    currency: Currency
    chance: Number = "1"
    due: Literal["start", "diagnosis", "strip", "measuring"] = "start"
    """After which stop point it was known."""
    basis: Remark = ""

    @model_validator(mode="after")
    def _in_order(self) -> "CostExpected":
        if not Decimal(self.low) <= Decimal(self.likely) <= Decimal(self.high):
            raise ValueError(f"{self.low}, {self.likely} and {self.high} are not in order: low, likely, high")
        if not 0 < Decimal(self.chance) <= 1:
            raise ValueError("a chance is more than 0 and at most 1")
        return self


StopPoint = Literal["start", "diagnosis", "strip", "measuring"]


class EstimateTold(Body):
    """The range that was told to the owner, and at which stop point."""

    at: StopPoint
    low: Amount
    middle: Amount
    high: Amount
    currency: Currency
    to: Name
    note: Remark = ""

    @model_validator(mode="after")
    def _in_order(self) -> "EstimateTold":
        if not Decimal(self.low) <= Decimal(self.middle) <= Decimal(self.high):
            raise ValueError(f"{self.low}, {self.middle} and {self.high} are not in order")
        return self


class CeilingAgreed(Body):
    """The most that the job may cost, as agreed; `until` is the stop point at which it is spoken of again."""

    amount: More
    currency: Currency
    by: Name
    until: StopPoint | Literal["closing"] = "closing"
    note: Remark = ""


class Approval(Body):
    """A yes or a no to something that was found, by a named person."""

    what: Name
    answer: Literal["yes", "no"]
    by: Name
    amount: Amount | None = None
    currency: Currency | None = None
    note: Remark = ""

    @model_validator(mode="after")
    def _with_currency(self) -> "Approval":
        if (self.amount is None) != (self.currency is None):
            raise ValueError("an amount and its currency are said together")
        return self
