"""The points where the work stopped until something was proved: each with its value, its hour, its photo."""

from collections.abc import Iterator, Sequence

from gudgeon.bench.closed.model import Row, Section
from gudgeon.bench.closed.told import Told, hour, table
from gudgeon.bench.holds import Standing, standings
from gudgeon.book.entries import Entry

HEADS = ("What is proved", "How it stands", "Value seen", "When", "Photo")
CRANK = "crank"


def proofs(told: Told) -> Section:
    """Everything that had to be proved before the starter turned it."""
    own = [one for one in standings(told.bench.sheet, told.bench.state) if one.hold.before == CRANK]
    return Section(
        "proofs",
        "What was proved before it was cranked",
        tables=(
            *table("Proofs", HEADS, rows_of(told, own)),
            *told.listed("Proofs that were taken back, or given before", _not_now(told, own)),
            *told.listed("Waits", told.of("timer-started", "timer-ended", "sealant-laid")),
        ),
        missing=missing_of(own),
    )


def rows_of(told: Told, standing: Sequence[Standing]) -> Iterator[Row]:
    """A row for each hold that was ever proved, with the value, the hour and the photo."""
    photos = {one.sha: told.numbers[one.entry] for one in told.bench.state.photos}
    for one in standing:
        proof = told.bench.state.holds.get(one.hold.id)
        read = told.bench.state.identity
        number = proof.order if proof is not None else told.numbers[read.entry] if one.stands and read else 0
        if not number:
            continue
        entry = told.entries[number - 1]
        photo = f"No. {photos[proof.photo]}" if proof is not None and proof.photo in photos else ""
        state = "stands" if one.stands else f"DOES NOT STAND: {one.why_not}"
        said = (proof.value if proof is not None else "", one.value)
        value = "; ".join(dict.fromkeys(filter(None, said)))
        yield Row(
            (one.hold.name, state, value, f"{hour(entry.device_time)}, {entry.who}", photo),
            (number,),
            "" if one.stands else "doubt",
        )


def missing_of(standing: Sequence[Standing]) -> tuple[str, ...]:
    """The holds that do not stand, in words."""
    open_ones = [one for one in standing if not one.stands]
    return tuple(
        f"{why[0].upper()}{why[1:]}: {'; '.join(one.hold.name for one in open_ones if one.why_not == why)}."
        for why in dict.fromkeys(one.why_not for one in open_ones)
    )


def _not_now(told: Told, own: Sequence[Standing]) -> Iterator[Entry]:
    """Proofs of these holds that a later one, a void or a strike has overtaken."""
    keys = {one.hold.id for one in own}
    now = {one.order for one in told.bench.state.holds.values()}
    for one in told.of("hold-proved", "hold-voided"):
        if one.body["hold"] in keys and (one.kind == "hold-voided" or one.number not in now):
            yield one
