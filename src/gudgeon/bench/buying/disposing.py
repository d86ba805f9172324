"""What becomes of every part: what speaks for it, what was decided, and where the two differ."""

from collections.abc import Iterator, Mapping

from gudgeon.bench.buying.grounds import GRAVEST, Judged, every_time, grounds_of
from gudgeon.bench.buying.model import ACCEPT, OPEN, RENEW, REUSE, REWORK, Disposition, Ground, WhileOpen
from gudgeon.bench.buying.said import SaidOfPart, other_names
from gudgeon.bench.buying.wear import while_open_sums
from gudgeon.bench.context import Bench
from gudgeon.bench.part_keys import key_of
from gudgeon.quantity.money import Money

WORDS = {
    RENEW: "renew it", REWORK: "rework it", REUSE: "use it again", ACCEPT: "leave it as it is, with a reason",
    OPEN: "not known",
}  # fmt: skip
NOTHING_SPEAKS = "no rule of the sheet, no limit and no age speaks for it: look at it, and decide"


def dispositions(
    bench: Bench,
    names: Mapping[str, str],
    *,
    said: Mapping[str, SaidOfPart],
    known: Judged,
    prices: Mapping[str, Money | None],
    needed: Mapping[str, int],
) -> tuple[Disposition, ...]:
    """One for every part of the sheet, of what was measured, of the bolts, and of the book."""
    return tuple(
        _one(bench, key, name, said=said.get(key, SaidOfPart()), known=known, price=prices.get(key),
             needed=needed.get(key, 1))
        for key, name in names.items()
    )  # fmt: skip


def part_names(bench: Bench, known: Judged) -> dict[str, str]:
    """Every part by its key, in the order of the sheet; then what only the readings, the joints or the book name."""
    names = {key: part.name for key, part in bench.sheet.parts.items()}
    names |= {key: name for key, name in known.names.items() if key not in names}
    names |= {
        key_of(bench.sheet, name): name for name in other_names(bench, names) if not _new_bolt(bench, name)
    }
    return names


def _new_bolt(bench: Bench, name: str) -> bool:
    """Whether it is one new bolt of a joint that is in hand, and not a part."""
    one = bench.state.parts.get(name)
    return one is not None and bool(one.decision) and not one.decided


def _one(
    bench: Bench,
    key: str,
    name: str,
    *,
    said: SaidOfPart,
    known: Judged,
    price: Money | None,
    needed: int,
) -> Disposition:
    part = bench.sheet.parts.get(key)
    grounds = tuple(grounds_of(bench, key, part=part, said=said, known=known))
    proposal = min((one.proposes for one in grounds), key=GRAVEST.index, default=OPEN)
    decision = said.state.decision if said.state.decided else ""
    one_time = every_time(bench, key, part=part, known=known)
    sums = None
    if not one_time and decision in ("", REUSE, ACCEPT):
        sums = while_open_sums(part, said, name=name, price=price, needed=needed)
    return Disposition(
        key, name, decision, said.state.why if decision else "", proposal, grounds,
        _differs(decision, proposal, grounds), "" if decision or one_time else _asks(name, proposal, grounds, sums),
        one_time, sums,
    )  # fmt: skip


def _differs(decision: str, proposal: str, grounds: tuple[Ground, ...]) -> str:
    """Where the person decided otherwise than what speaks for it, but for a part that was reworked and is good now."""
    if not decision or proposal in (OPEN, decision) or (decision, proposal) == (REWORK, REUSE):
        return ""
    speaking = [one for one in grounds if one.proposes == proposal]
    why = "; ".join(f"{one.words}{f' ({one.source})' if one.source else ''}" for one in speaking)
    return f"You decided: {WORDS[decision]}. What speaks for “{WORDS[proposal]}”: {why}"


def _asks(name: str, proposal: str, grounds: tuple[Ground, ...], sums: WhileOpen | None) -> str:
    """What is to be done to decide it."""
    if sums is not None and sums.speaks_for:
        return f"the figures speak for {sums.speaks_for}; decide"
    if proposal != OPEN:
        return f"proposed: {WORDS[proposal]}; decide"
    return "; ".join(_open(grounds)) or NOTHING_SPEAKS


def _open(grounds: tuple[Ground, ...]) -> Iterator[str]:
    for one in grounds:
        if one.proposes == OPEN:
            yield one.words
