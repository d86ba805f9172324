"""His own hours, told apart from the money, at what he says an hour is worth."""

from decimal import ROUND_HALF_UP, Decimal

from gudgeon.bench.context import Bench
from gudgeon.bench.costs.amounts import exact
from gudgeon.bench.costs.model import OwnHours


def own_hours(bench: Bench, *, minutes_left: int) -> OwnHours:
    """Hours that the book has of finished tasks, and those that the job has left; never in a sum of money."""
    done = sum(one.minutes or 0 for one in bench.state.tasks.values() if one.status == "done")
    rates = bench.kit.rates
    rate = rates.own if rates is not None else None
    written = rates.own_hour or "" if rates is not None else ""
    worth = ""
    if rate is not None:
        spent, left = (_worth(minutes, rate.amount) for minutes in (done, minutes_left))
        said = [f"{exact(spent, rate.currency)} so far" if done else ""]
        said.append(f"{exact(left, rate.currency)} to come" if minutes_left else "")
        worth = ", ".join(filter(None, said))
    return OwnHours(
        done=f"{in_hours(done)} written down" if done else "none written down",
        left=f"{in_hours(minutes_left)} by the job" if minutes_left else "none",
        worth=worth,
        rate=f"{rate.words} an hour" if rate is not None else written,
    )


def _worth(minutes: int, rate: Decimal) -> Decimal:
    return (Decimal(minutes) * rate / 60).quantize(Decimal("0.01"), rounding=ROUND_HALF_UP)


def in_hours(minutes: int) -> str:
    """A length of work in words.

    Example:
        >>> in_hours(45), in_hours(150), in_hours(120)
        ('45 min', '2 h 30 min', '2 h')
    """
    hours, rest = divmod(minutes, 60)
    return " ".join(filter(None, [f"{hours} h" if hours else "", f"{rest} min" if rest or not hours else ""]))
