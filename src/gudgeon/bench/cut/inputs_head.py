"""The head: its height now and new, what came off before, how far its face is off flat, its pits."""

from gudgeon.bench.context import Bench
from gudgeon.bench.cut.given import Deviation, Given, HeadGiven, Heights, Missing
from gudgeon.bench.cut.known import EXACTLY_ZERO, total
from gudgeon.bench.cut.looked_for import LookedFor
from gudgeon.bench.cut.reading import deepest, deviation, heights, limit, stated
from gudgeon.quantity.format import both
from gudgeon.sheet.engine import Head

AS_FOUND = "the head as found"
AS_IT_IS = "the head as it is now: its height as found is not in the book"
NOT_READ = "the head as it is now: its height is not in the book"


def head(bench: Bench, wanted: LookedFor) -> HeadGiven:
    """Everything of the head that goes in."""
    sheet = bench.sheet.head or Head()
    known = bench.sheet.characteristics
    key = _key(bench)
    found, left = _found_and_left(bench)
    if found is None:
        do = f"measure it: gudgeon record reading {key}" if key else "no characteristic holds it"
        wanted.lacks("height of the head as found", path="head.measured_as", do=do)
    new = stated(
        bench, sheet.height, name="height of a new head", path="head.height", kind="length",
        source=sheet.cited(sheet.height), state="new",
    )  # fmt: skip
    new_height = None if isinstance(new, Missing) else new
    return HeadGiven(
        zero=AS_FOUND if found is not None else AS_IT_IS if left is not None else NOT_READ,
        found=found,
        left=left,
        made=_made(found, left),
        before=_before(bench, sheet, new_height, found or left, wanted),
        new_height=new_height,
        least_height=limit(
            bench, sheet.least_height, name="least height of the head", path="head.least_height", kind="length",
            source=sheet.cited(sheet.least_height), upper=False,
        ),
        most_off=limit(
            bench, sheet.most_off, name="most that may come off in all", path="head.most_off",
            kind="length_difference", source=sheet.cited(sheet.most_off), upper=True,
        ),
        flatness=_flatness(bench, sheet, wanted),
        pits=deepest(bench, sheet.pits, name="pits") if sheet.pits is not None and sheet.pits in known else None,
    )  # fmt: skip


def made(bench: Bench) -> Given | None:
    """The cut of this job as the heights in the book show it: the one figure for all who ask what came off."""
    return _made(*_found_and_left(bench))


def _key(bench: Bench) -> str | None:
    """The characteristic that holds the height of the head."""
    key = bench.sheet.head.measured_as if bench.sheet.head is not None else None
    return key if key in bench.sheet.characteristics else None


def _found_and_left(bench: Bench) -> tuple[Heights | None, Heights | None]:
    key = _key(bench)
    if key is None:
        return None, None
    return heights(bench, key, condition="as found"), heights(bench, key, condition="as left")


def _flatness(bench: Bench, sheet: Head, wanted: LookedFor) -> Deviation | None:
    keys = [
        name for name, item in bench.sheet.characteristics.items() if sheet.face is not None and item.face == sheet.face
    ]  # fmt: skip
    found = deviation(bench, keys)
    if found is None:
        do = (
            f"measure it: gudgeon record reading {keys[0]}"
            if keys
            else "no characteristic of this face holds it"
        )
        wanted.lacks("flatness of the head face as found", path="head.face", do=do)
    return found


def _made(found: Heights | None, left: Heights | None) -> Given | None:
    """The cut as the heights show it: of the same places where both were read, else of the means."""
    if found is None or left is None:
        return None
    before, after = dict(found.by_place), dict(left.by_place)
    same = [place for place in before if place in after]
    if same:
        parts = [(1 / len(same), before[one].known) for one in same] + [
            (-1 / len(same), after[one].known) for one in same
        ]
        words = f"from the heights in the book, {len(same)} {'place' if len(same) == 1 else 'places'}"
    else:
        parts = [(1.0, found.mean.known), (-1.0, left.mean.known)]
        words = "from the mean heights in the book: no place was read before and after"
    cut = total(parts)
    return Given("cut that was made", cut, both(cut.value, kind="length_difference"), words, "as left")


def _before(
    bench: Bench, sheet: Head, new: Given | None, base: Heights | None, wanted: LookedFor
) -> Given | None:
    """What had come off before this job: as the sheet states it, else as its height shows it."""
    if sheet.taken_off_before is not None:
        return wanted.take(
            stated(
                bench, sheet.taken_off_before, name="taken off before", path="head.taken_off_before",
                kind="length_difference", source=sheet.cited(sheet.taken_off_before),
            )
        )  # fmt: skip
    if new is None or base is None:
        do = "write it, or the height of a new head and the height as found"
        wanted.lacks("taken off before", path="head.taken_off_before", do=do)
        return None
    off = total([(1.0, new.known), (-1.0, base.mean.known)])
    least_new = sheet.height.value.low_in("mm") if sheet.height is not None else None
    edge = min(new.value if least_new is None else least_new, new.value)
    if base.mean.value >= edge - base.mean.known.expanded:
        wanted.notes.append(
            f"The head is as high as a new one ({base.mean.text}; new {new.text}): taken as never cut before."
        )
        return Given(
            "taken off before", EXACTLY_ZERO, "nothing", "its height is that of a new head", "as found"
        )
    words = f"height of a new head, {new.source}, less its height as found"
    return Given("taken off before", off, both(off.value, kind="length_difference"), words, "as found")
