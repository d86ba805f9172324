"""What fits where? Every fit of the sheet that is chosen part by part, each answered as far as it was measured."""

from collections.abc import Callable, Sequence

from gudgeon.bench.context import Bench
from gudgeon.bench.fits.answer import Fit, FitsAnswer
from gudgeon.bench.fits.errors import NothingOfThatName
from gudgeon.bench.fits.marks import read_marks
from gudgeon.bench.fits.matched import matched_fit, matched_keys
from gudgeon.bench.fits.rings import ring_fit
from gudgeon.bench.fits.shells import Said, shell_fit
from gudgeon.bench.fits.weights import KEY, weights_fit

QUESTION = "What fits where?"
BASIS = (
    "Most places inside first, then nearest to the middle of what is wanted; every assignment is proven to be the "
    "best there is. Verdicts are those of “Is it good?”; ± is twice the standard uncertainty of the gauges. Thickness "
    "of shells and weights of the maker's sheet count as printed."
)
NONE = (
    "The sheet states no fits that are chosen: write `fits:` with bearings, ring_gaps or weights, or a limit "
    "`shape: matched pairs`"
)


def fits(
    bench: Bench, *, what: str | None = None, codes: Sequence[str] = (), shells: Sequence[str] = ()
) -> FitsAnswer:
    """Answer for all fits, or for one of them; codes and marks of shells are read off the engine."""
    bench.unlock()
    asked = _all(bench, codes, shells)
    chosen = asked if what is None else {key: one for key, one in asked.items() if _is(bench, key, what)}
    if what is not None and not chosen:
        raise NothingOfThatName(what, asked)
    found = tuple(one() for one in chosen.values())
    return FitsAnswer(bench.heading(QUESTION), found, () if asked else (NONE,), BASIS)


def _all(bench: Bench, codes: Sequence[str], shells: Sequence[str]) -> dict[str, Callable[[], Fit]]:
    """Every fit by its key, to be worked out when it is asked for."""
    sheet = bench.sheet.fits
    bearings = sheet.bearings if sheet is not None else {}
    by_code, in_it = read_marks(codes, bearings=bearings), read_marks(shells, bearings=bearings)
    found: dict[str, Callable[[], Fit]] = {}
    for key in bearings:
        said = Said(by_code.get(key), in_it.get(key))
        found[key] = _later(shell_fit, bench, key, said)
    for key in matched_keys(bench):
        found[key] = _later(matched_fit, bench, key)
    for key in sheet.ring_gaps if sheet is not None else ():
        found[key] = _later(ring_fit, bench, key)
    if sheet is not None and sheet.weights is not None:
        found[KEY] = _later(weights_fit, bench)
    return found


def _later(work: Callable[..., Fit], *given: object) -> Callable[[], Fit]:
    return lambda: work(*given)


def _is(bench: Bench, key: str, what: str) -> bool:
    """Whether a fit is meant: by its key, or by words of its name."""
    sheet = bench.sheet.fits
    bearing = sheet.bearings.get(key) if sheet is not None else None
    item = bench.sheet.characteristics.get(key)
    name = bearing.name if bearing is not None else item.name if item is not None else key
    return what.lower() == key.lower() or what.lower() in name.lower()
