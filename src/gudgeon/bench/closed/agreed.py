"""What was asked for, what was expected and told, what was agreed, and how it ended."""

from collections.abc import Iterator

from gudgeon.bench.closed.model import Row, Section, Table
from gudgeon.bench.closed.told import Told, table
from gudgeon.bench.costs.ceiling import limit_of
from gudgeon.bench.costs.closing import closing
from gudgeon.bench.costs.facts import currencies, facts
from gudgeon.bench.costs.lines import lines
from gudgeon.bench.costs.said import ceilings
from gudgeon.bench.costs.said import told as ranges_told
from gudgeon.bench.network import job, job_named

JOB = ("job-chosen", "task-added", "task-dropped", "task-order")
MONEY = ("cost-expected", "estimate-told", "ceiling-agreed", "approval")
DATES = ("promised", "day-planned")


def agreed(told: Told) -> Section:
    """The job, the sums, and the closing account of each currency."""
    named = job(job_named(told.bench.state))
    chosen = "" if any(told.standing("job-chosen")) else "; nobody chose another"
    accounts = tuple(_accounts(told))
    tables = (
        *told.listed("The job as it was chosen and changed", told.of(*JOB)),
        *told.listed("Expected, told, agreed", told.of(*MONEY)),
        *told.listed("Days and promises", told.of(*DATES)),
        *(one for one, _ in accounts),
    )
    return Section(
        "agreed",
        "What was asked and agreed",
        said=(f"The job: {named.name}{chosen}.", *(words for _, said in accounts for words in said)),
        tables=tables,
        missing=tuple(_missing(told)),
    )


def _missing(told: Told) -> Iterator[str]:
    for kind, words in (
        ("cost-expected", "No sum that was expected is in the book."),
        ("estimate-told", "No range is written down as told to the owner."),
        ("ceiling-agreed", "No ceiling is agreed in the book."),
        ("approval", "No yes or no to anything is in the book."),
    ):
        if not any(told.standing(kind)):
            yield words


def _accounts(told: Told) -> Iterator[tuple[Table, tuple[str, ...]]]:
    """Expected against spent, exact, as the closing account has it; nothing is simulated for it."""
    bench = told.bench
    found, most, said = facts(bench, still_to_buy=False), ceilings(bench), ranges_told(bench)
    for currency in currencies(
        found, more=[*(one.currency for one in most), *(one.currency for one in said)]
    ):
        end = closing(
            lines(found, currency),
            currency=currency,
            limit=limit_of(found, most, currency),
            told=[one for one in said if one.currency == currency],
        )
        rows = [Row((one.what, one.expected, one.spent, one.difference, one.note)) for one in end.lines]
        rows.append(Row(("In all", end.expected, end.spent, end.difference, "")))
        heads = ("For what", "Expected", "Spent", "Difference", "Besides")
        name, note = f"The account in {currency}", "What is still to be bought stands in the estimate."
        yield from ((one, end.said) for one in table(name, heads, rows, note=note))
