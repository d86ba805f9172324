"""Two printed ends of one figure compared: rounded, cut off, in doubt, or wrong.

Two figures agree where one value rounds to both. Beyond that:

- more than three times apart is an error whatever the digits: two correctly rounded figures of one
  digit each can be three times apart at most (1 stands for anything from 0.5 to 1.5), and a ten-fold
  slip leaves them more than three times apart;
- up to two steps of the coarser figure beyond rounding is a doubt: a factor cut to three digits
  (0.738, 9.8, 14.2) or a figure rounded twice moves the last digit so far and no farther;
- all else is an error, unless a rounded factor in common use explains it.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from gudgeon.bench.proof.amounts import Exact, agrees, apart, exact, ratio
from gudgeon.bench.proof.customary import customary
from gudgeon.bench.proof.findings import Grade
from gudgeon.quantity.written import Amount

FAR = 3  # times apart
STEPS = 2  # of the coarser last digit, beyond rounding
COARSE = Fraction(1, 100)  # a figure rounded to tens is a note while it is off by no more


@dataclass(frozen=True, slots=True)
class Verdict:
    """How two figures stand to each other; no grade where they agree."""

    grade: Grade | None
    why: str = ""
    cause: Literal["", "last digit", "coarse", "customary"] = ""


AGREE = Verdict(None)


def compare(one: Amount, *, other: Amount) -> Verdict:
    """How two printed figures of one thing stand to each other."""
    first, second = exact(one), exact(other)
    if agrees(first, other=second):
        return _rounded(first, second)
    shifted = bool(one.unit.offset or other.unit.offset)
    if first.value * second.value < 0 and not shifted:
        return Verdict("error", "the signs differ")
    if ratio(first, other=second) > FAR and not shifted:
        return Verdict("error", f"they are {float(ratio(first, other=second)):.3g} times apart")
    return _near(one, other, first, second)


def _rounded(first: Exact, second: Exact) -> Verdict:
    """Both can be one value; a note where neither is the other one converted and rounded."""
    if abs(first.value - second.value) <= max(first.half, second.half):
        return AGREE
    return Verdict("note", "both can stand for one value, and neither is the other one rounded")


def _near(one: Amount, other: Amount, first: Exact, second: Exact) -> Verdict:
    shifted = one.unit.offset != other.unit.offset
    if not shifted and (_cut_off(first, second) or _cut_off(second, first)):
        return Verdict("note", "a last digit was cut off, not rounded")
    difference = abs(first.value - second.value)
    off = difference / max(abs(first.value), abs(second.value))
    said = f"{float(difference):.3g} {one.kind.base}" if shifted else f"{float(100 * off):.3g}%"
    if rounded_coarsely(one, second) or rounded_coarsely(other, first):
        return Verdict("note" if off <= COARSE else "doubt", f"rounded coarsely, {said} apart", "coarse")
    step = 2 * max(first.half, second.half)
    beyond = apart(first, other=second)
    if step and beyond <= STEPS * step:
        count = "less than one" if beyond < step else f"{float(beyond / step):.1f}"
        return Verdict("doubt", f"off by {count} of the last digit beyond rounding", cause="last digit")
    factor = customary(one, other=other)
    if factor:
        return Verdict("doubt", factor, "customary")
    return Verdict("error", f"they are {said} apart, and rounding does not explain it")


def _cut_off(cut: Exact, rounded: Exact) -> bool:
    """Whether one figure is the other with its further digits cut off."""
    value, other = abs(cut.value), abs(rounded.value)
    return value <= other + rounded.half and other - rounded.half <= value + 2 * cut.half


def rounded_coarsely(amount: Amount, other: Exact) -> bool:
    """Whether a figure was rounded to tens, hundreds or fives and is right at that."""
    number = abs(amount.number)
    if not amount.step or not number:
        return False
    count = int(number / amount.step)
    tens = 1
    while count % (tens * 10) == 0:
        tens *= 10
    fives = tens * 5 if (count // tens) % 10 == 5 else tens
    rounded = fives if fives * 10 <= count else tens
    if rounded == 1 or rounded * 10 > count:
        return False
    value = exact(amount)
    return agrees(Exact(value.value, value.half * rounded), other=other)
