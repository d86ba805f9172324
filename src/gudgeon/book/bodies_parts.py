"""Bodies: what becomes of parts, the machine shop, money, what is accepted outside its limit."""

from decimal import Decimal
from typing import Annotated, Literal

from pydantic import StringConstraints, model_validator

from gudgeon.book.body import Body, Name, Number, Remark, Said


class PartDisposition(Body):
    """What becomes of a part.

    With a `joint` it is one of its fasteners, `bolt`, or `all` of them; renewed, it is the new one that is in hand now.
    """

    part: Name
    decision: Literal["reuse", "rework", "renew", "accept"]
    why: Said
    joint: Name | None = None
    bolt: Name | None = None

    @model_validator(mode="after")
    def _one_fastener(self) -> "PartDisposition":
        if (self.joint is None) != (self.bolt is None):
            raise ValueError("a fastener is named by its joint and its place in it, both")
        return self


class PartReceived(Body):
    """A part came."""

    part: Name
    compared: bool
    note: Remark = ""


class ShopOut(Body):
    """A part goes to the machine shop."""

    part: Name
    shop: Name
    ordered: Said
    most_off: Said | None = None


class ShopBack(Body):
    """A part is back from the machine shop."""

    part: Name
    found: Said


class AcceptedBody(Body):
    """Something outside its limit is accepted by a named person."""

    what: Said
    by: Name
    why: Said


class Money(Body):
    """Money spent on the job, or got back; the currency in its three letters, ISO 4217."""

    what: Name
    amount: Number
    currency: Annotated[str, StringConstraints(pattern="^[A-Z]{3}$")]
    way: Literal["spent", "got back"] = "spent"
    part: Name | None = None
    to: Remark = ""

    @model_validator(mode="after")
    def _more_than_nothing(self) -> "Money":
        if Decimal(self.amount) <= 0:
            raise ValueError("the amount is not more than nothing; which way it went is said apart")
        return self
