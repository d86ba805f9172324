"""Whether a figure is still the one that was shown: compared as a value, not as it is written."""

from gudgeon.errors import InputError
from gudgeon.quantity.kinds import KINDS
from gudgeon.quantity.written import Printed, Span, parse_printed

NOT_STATED = "not stated"

_CLOSE = 1e-9


def same_figure(before: str, *, now: str, kind: str) -> bool:
    """Whether two printed figures of a kind are one: `0.050 mm` is `0.05 mm`, and so is `50 µm`.

    What leads counts, because it is what is worked by. Only where that is in another unit than before may the same
    figure in a second unit speak for it: `0.002 in` is one of `0.05 mm (0.002 in)`.
    """
    if same_words(before, now=now):
        return True
    if kind not in KINDS:
        return False
    try:
        old, new = parse_printed(before, kind=kind), parse_printed(now, kind=kind)
    except InputError:
        return False
    return _same(old, new, base=KINDS[kind].base)


def same_words(before: str, *, now: str) -> bool:
    """Whether two texts say the same, however they are spaced."""
    return before == now or " ".join(before.split()).casefold() == " ".join(now.split()).casefold()


def _same(old: Printed, new: Printed, *, base: str) -> bool:
    if _ends_meet(old.first, new.first, base):
        return True
    if old.first.unit is new.first.unit:
        return False
    return any(
        one.unit is other.unit and _ends_meet(one, other, base) for one in old.spans for other in new.spans
    )


def _ends_meet(one: Span, other: Span, base: str) -> bool:
    pairs = ((one.low_in(base), other.low_in(base)), (one.high_in(base), other.high_in(base)))
    return all(_meet(before, now) for before, now in pairs)


def _meet(before: float | None, now: float | None) -> bool:
    if before is None or now is None:
        return before is now
    return abs(before - now) <= _CLOSE * max(1.0, abs(before), abs(now))
