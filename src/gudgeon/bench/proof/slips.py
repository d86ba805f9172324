"""Which digit probably slipped: figures that differ by one slip of the printer, and agree."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise

from gudgeon.bench.proof.amounts import Exact, agrees, exact, shown
from gudgeon.quantity.written import Amount

MOVED = {1: "ten-fold", 2: "hundred-fold", 3: "thousand-fold", 4: "ten-thousand-fold"}
KINDS = ("moved", "exchanged", "lost", "added", "misread", "dropped")
"""Slips from the plainest to the least certain; the first that agrees is taken."""
UNSURE = ("misread", "dropped")
FINEST = 12
"""How many times finer or coarser than its partner a figure is still printed: an inch figure of one decimal
more than the millimeter figure is 2.5 times coarser, of two decimals more 4 times finer."""


@dataclass(frozen=True, slots=True)
class Slip:
    """A printed figure, what would agree, and which slip leads from one to the other."""

    kind: str
    printed: Amount
    meant: Amount
    how: str

    def __str__(self) -> str:
        perhaps = "perhaps " if self.kind in UNSURE else ""
        return f"{shown(self.printed)} for {shown(self.meant)}: {perhaps}{self.how}"

    @property
    def unsure(self) -> str:
        """The slip where it is one guess among several."""
        return str(self) if self.kind in UNSURE else f"perhaps {self}"


def probable(amount: Amount, target: Exact, *, least: int = 2) -> Slip | None:
    """The plainest slip that makes a figure agree with a target; of equally plain ones the nearest to it.

    A figure that loses a digit keeps `least` digits at least: fewer agree with too much.
    """
    best: Slip | None = None
    for slip in _slips(amount, least=least):
        if best is not None and KINDS.index(slip.kind) > KINDS.index(best.kind):
            break
        meant = exact(slip.meant)
        if not agrees(meant, other=target) or not _printable(slip, meant, target):
            continue
        if best is None or _distance(slip, target) < _distance(best, target):
            best = slip
    return best


def _printable(slip: Slip, meant: Exact, target: Exact) -> bool:
    """A figure with a digit put in or taken out is not printed far finer or coarser than its partner."""
    if slip.kind == "dropped":
        return meant.half * FINEST >= target.half
    return slip.kind != "added" or meant.half <= target.half * FINEST or not target.half


def _distance(slip: Slip, target: Exact) -> Fraction:
    return abs(exact(slip.meant).value - target.value)


def _slips(amount: Amount, *, least: int) -> Iterator[Slip]:
    """Every figure one slip away, the plainest slips first."""
    if not amount.step or not amount.number:
        return
    yield from _moved(amount)
    text = f"{abs(amount.number):f}"
    yield from _exchanged(amount, text)
    before_point = (text + ".").index(".")
    lost = [(place, slip) for place, slip in _lost(amount, text)]
    yield from (slip for place, slip in lost if place <= before_point)
    yield from _added(amount, text, least=least)
    yield from _misread(amount, text)
    yield from (replace(slip, kind="dropped") for place, slip in lost if place > before_point)


def _moved(amount: Amount) -> Iterator[Slip]:
    for places, fold in MOVED.items():
        for sign in (1, -1):
            meant = replace(
                amount,
                number=amount.number.scaleb(sign * places),
                step=amount.step.scaleb(sign * places),
            )
            if amount.step == 1 and meant.number == meant.number.to_integral_value():
                meant = replace(meant, number=meant.number.quantize(Decimal(1)), step=Decimal(1))
            side = "left" if sign > 0 else "right"
            count = "one place" if places == 1 else f"{places} places"
            yield Slip("moved", amount, meant, f"a {fold} slip, the point stands {count} too far {side}")


def _with(amount: Amount, text: str) -> Amount:
    number = Decimal(text)
    exponent = number.as_tuple().exponent
    assert isinstance(exponent, int)  # only digits and a point
    return replace(amount, number=number.copy_sign(amount.number), step=Decimal(1).scaleb(exponent))


def _digits(text: str) -> list[int]:
    return [index for index, letter in enumerate(text) if letter != "."]


def _significant(text: str) -> int:
    return len(text.replace(".", "").lstrip("0"))


def _exchanged(amount: Amount, text: str) -> Iterator[Slip]:
    places = _digits(text)
    for left, right in pairwise(places):
        if text[left] != text[right] and not (left == 0 and text[right] == "0" and text[1] != "."):
            letters = list(text)
            letters[left], letters[right] = letters[right], letters[left]
            how = f"the digits {text[left]} and {text[right]} exchanged"
            yield Slip("exchanged", amount, _with(amount, "".join(letters)), how)


def _lost(amount: Amount, text: str) -> Iterator[tuple[int, Slip]]:
    """A digit put in; one at the end of decimals would only print it finer, one digit alone proves nothing."""
    if _significant(text) < 2:
        return
    ends = len(text) if "." in text else len(text) + 1
    for place in range(ends):
        for digit in "0123456789":
            if digit == "0" and place == 0:
                continue
            longer = text[:place] + digit + text[place:]
            yield place, Slip("lost", amount, _with(amount, longer), f"a digit {digit} lost")


def _added(amount: Amount, text: str, *, least: int) -> Iterator[Slip]:
    """A digit taken out; without its last decimal a figure is only printed coarser."""
    for place in _digits(text):
        if "." in text and place == len(text) - 1:
            continue
        shorter = text[:place] + text[place + 1 :]
        if _significant(shorter) >= least or (text.isdigit() and text[place:] == "0" and place):
            yield Slip("added", amount, _with(amount, shorter), f"a digit {text[place]} too many")


def _misread(amount: Amount, text: str) -> Iterator[Slip]:
    if _significant(text) < 3:
        return
    for place in _digits(text):
        for digit in "0123456789":
            if digit != text[place]:
                other = text[:place] + digit + text[place + 1 :]
                yield Slip(
                    "misread", amount, _with(amount, other), f"{_article(text[place])} for {_article(digit)}"
                )


def _article(digit: str) -> str:
    return f"an {digit}" if digit == "8" else f"a {digit}"


def fraction_near(value: Fraction, *, half: Fraction) -> str:
    """The plain fraction (down to 64ths) of an inch that prints as a decimal, or nothing."""
    for under in (2, 4, 8, 16, 32, 64):
        over = round(value * under)
        if over and abs(Fraction(over, under) - value) <= half:
            whole, rest = divmod(over, under)
            return f"{whole} {rest}/{under}" if whole and rest else f"{rest}/{under}" if rest else str(whole)
    return ""
