"""What somebody accepts: a joint, a characteristic, or one place of it, in the words in which it is judged."""

from gudgeon.bench.context import Bench
from gudgeon.bench.errors import JointHasNoPlaces, Unknown
from gudgeon.bench.places import find_place


def what_is_accepted(bench: Bench, said: str) -> str:
    """The key and the place in full, as the sheet or the verdict names it.

    `bore 2 top across` is `bore cylinder 2, top, across`. Without a place the whole characteristic is meant.

    Raises:
        Unknown: where the sheet knows no such characteristic, joint or place.
        JointHasNoPlaces: where words follow the key of a joint.
    """
    key, _, rest = said.strip().partition(" ")
    item, rest = bench.sheet.characteristics.get(key), rest.strip()
    if item is None and key not in bench.sheet.joints:
        known = [*bench.sheet.characteristics, *bench.sheet.joints]
        raise Unknown("characteristic (with its place) or joint", said, known)
    if not rest:
        return key
    if item is None:
        raise JointHasNoPlaces(key, rest)
    return f"{key} {find_place(item, rest, judged=_judged(bench, key))}".strip()


def _judged(bench: Bench, key: str) -> list[str]:
    """The places of which a verdict speaks; several that are not read yet are one row, and no place."""
    if bench.locked is not None:
        return []
    from gudgeon.bench.good import inspect
    from gudgeon.bench.judging.finding import NOT_MEASURED

    rows = inspect(bench, only=key).rows
    return [row.place for row in rows if row.item == key and row.verdict != NOT_MEASURED]
