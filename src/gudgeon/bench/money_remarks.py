"""What is said at once of money: more of it came back than was ever paid."""

from collections.abc import Iterator
from decimal import Decimal

from gudgeon.bench.context import Bench
from gudgeon.bench.part_keys import key_of
from gudgeon.book.entries import Entry
from gudgeon.book.state import State


def money_remarks(bench: Bench, entry: Entry, after: State) -> Iterator[str]:
    """Where something was paid for a thing, and with this more has come back for it than that."""
    body, sheet = entry.body, bench.sheet
    if body["way"] == "spent":
        return
    thing = key_of(sheet, str(body["part"] or body["what"]))
    amounts = {"spent": Decimal(0), "got back": Decimal(0)}
    for one in after.money:
        if key_of(sheet, one.part or one.what) == thing and one.currency == body["currency"]:
            amounts[one.way] += Decimal(one.amount)
    if 0 < amounts["spent"] < amounts["got back"]:
        yield (
            f"{amounts['got back']} {body['currency']} came back in all for {body['part'] or body['what']}, and "
            f"{amounts['spent']} was paid for it. It is kept; look whether both amounts are right. If not: gudgeon "
            f"strike {entry.number} --why …"
        )
