"""What was counted at the strip against what was counted at the refit, and against what the list names."""

from collections.abc import Iterator
from dataclasses import dataclass

from gudgeon.bench.context import Bench
from gudgeon.bench.reason import Reason
from gudgeon.book.state import Count, Tally


@dataclass(frozen=True, slots=True)
class Difference:
    """One way in which the counts of a group do not agree, and what settles it."""

    why: str
    close_with: str
    how: str


def differences(group: str, count: Count | None, tally: Tally) -> tuple[Difference, ...]:
    """Where counts and list do not agree; none where nobody counted."""
    return tuple(
        one
        for one in (_named(group, count, tally), _back(group, count, tally), _not_yet(group, tally))
        if one is not None
    )


def _named(group: str, count: Count | None, tally: Tally) -> Difference | None:
    """What was counted off and what has a name on the list are as many."""
    named = count.named if count is not None else 0
    if tally.off is None or tally.off == named:
        return None
    verb = "is" if named == 1 else "are"
    why = f"{_many(tally.off, group)} counted as they came off, {named} {verb} on the list"
    if tally.off > named:
        typed = f"gudgeon record off {group} ITEM --name …, for each that has no name yet"
        how = "Give each that has no name yet its own line, or count again what came off."
    else:
        typed = f"count again: gudgeon record counted {group} off NUMBER"
        how = "Count again what came off: the list names more than were counted."
    return Difference(why, typed, how)


def _back(group: str, count: Count | None, tally: Tally) -> Difference | None:
    """What went back and what came off are as many, but for what is explained piece by piece."""
    named = count.named if count is not None else 0
    off = tally.off if tally.off is not None else named
    if tally.back is None or tally.back == off:
        return None
    said = tally.missing if tally.back < off else tally.over
    rest = abs(off - tally.back) - len(said)
    if rest <= 0:
        return None
    way = "missing" if tally.back < off else "over"
    came = (
        f"{_many(off, group)} counted as they came off" if tally.off is not None else f"The list names {off}"
    )
    words = f"{rest} {'is' if rest == 1 else 'are'} {way}"
    still = count.off - count.on if count is not None else 0
    on_list = (
        f", {still} of the list {'is' if still == 1 else 'are'} still off"
        if still and way == "missing"
        else ""
    )
    explained = f"; {len(said)} explained" if said else ""
    typed = f"find it, or say of each what it is: gudgeon record explained {group} {way} WHAT --why …"
    how = "Find each one and put it where it belongs, or write down of each what it is and why nothing is loose for it."
    return Difference(f"{came}, {tally.back} as they went back: {words}{on_list}{explained}", typed, how)


def _not_yet(group: str, tally: Tally) -> Difference | None:
    """What was counted off is counted back too."""
    if tally.off is None or tally.back is not None:
        return None
    return Difference(
        f"{_many(tally.off, group)} counted as they came off, and nobody has counted them as they went back",
        f"gudgeon record counted {group} back NUMBER",
        "Count them where they are now, on the engine.",
    )


def _many(number: int, group: str) -> str:
    return f"{number} {group} was" if number == 1 else f"{number} {group}s were"


def reasons(bench: Bench) -> Iterator[Reason]:
    """Every difference is a reason why not, due before the strictest milestone of its group."""
    for group, tally in bench.state.tallies.items():
        count = bench.state.counts.get(group)
        due = count.due if count is not None else "crank"
        for one in differences(group, count, tally):
            yield Reason(
                "left over", f"{group.capitalize()}s, counted", one.why, due, one.close_with, one.how,
                "the number, counted", about=f"counted:{group}",
            )  # fmt: skip
