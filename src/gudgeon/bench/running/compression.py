"""Cranking pressure: what was measured beside what is expected and what the sheet allows, cylinder by cylinder."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from gudgeon.bench.context import Bench
from gudgeon.bench.judging.altitude import verdicts_here
from gudgeon.bench.judging.criteria import Criterion
from gudgeon.bench.judging.decision import decide, value_of
from gudgeon.bench.judging.evaluate import findings
from gudgeon.bench.judging.finding import Finding
from gudgeon.bench.measured import Measured, measured
from gudgeon.bench.running.answers import Air, BalanceLine, Compression, CylinderLine, Expected
from gudgeon.bench.running.expected import expected, printed_limits, shares
from gudgeon.bench.running.gathered import READ, Gathered, after_start
from gudgeon.bench.running.pressures import cranking_in_bar, shown
from gudgeon.bench.running.reasons import Seen, advice, listed
from gudgeon.bench.running.with_oil import WithOil, with_oil
from gudgeon.calc.engine.spread import Spread, share_of_highest, spread_of, within
from gudgeon.errors import GudgeonError
from gudgeon.sheet.inspections import place_names
from gudgeon.sources.first_run import balance_rules, run_figure

BETWEEN = "difference between cylinders"
AT_THE_SEA = (
    "Printed pressures are taken as those at the level of the sea. Where the manual names another altitude: "
    "gudgeon calc engine.cranking-pressure, with minimum and minimum_altitude."
)
WORST = ("outside", "in doubt", "inside", "not measured")


@dataclass(frozen=True, slots=True)
class _Read:
    """What was read of the cylinders, dry and wet, and what every limit of the sheet says of it."""

    key: str
    places: tuple[str, ...]
    dry: Mapping[str, Measured]
    wet: Mapping[str, WithOil]
    found: tuple[tuple[Criterion | None, Finding], ...]

    def of(self, place: str) -> list[tuple[Criterion, Finding]]:
        """What the limits say of one cylinder."""
        return [(limit, one) for limit, one in self.found if limit is not None and one.place == place]


def compression(bench: Bench, air: Air, wanted: Gathered) -> Compression:
    """Everything about cranking pressure; what is not read or not stated is named."""
    band = expected(bench, air, wanted)
    after = after_start(bench)
    key = after.cranking_pressure
    if key is None or key not in bench.sheet.characteristics:
        wanted.lacks(
            "the characteristic that holds the cranking pressures",
            therefore="what was measured cannot be compared",
            path="after_start.cranking_pressure",
        )
        return Compression(band, (), _how(bench, None), (), (), (), ())
    return wanted.attempt(
        lambda: _compared(bench, key, air, band=band, wanted=wanted),
        otherwise=Compression(band, (), _how(bench, key), (), (), (), ()),
        what="what was read of the cylinders",
        therefore="not compared with what is expected and with the sheet",
        path=f"characteristics.{key}",
    )


def _compared(bench: Bench, key: str, air: Air, *, band: Expected | None, wanted: Gathered) -> Compression:
    """What was read of the cylinders, beside everything it is compared with."""
    read = _read(bench, key, wanted)
    seen = tuple(_seen(bench, read, place, band, air) for place in read.places if place in read.dry)
    notes = [*_notes(read), *([AT_THE_SEA] if air.known else []), *_before_work(read)]
    balance = _balance(bench, read)
    return Compression(
        band,
        printed_limits(bench, key, air),
        _how(bench, key),
        tuple(_line(read, one) for one in seen),
        balance,
        advice(
            bench,
            seen,
            places=read.places,
            wet_known=after_start(bench).wet is not None,
            alike=min((one.verdict for one in balance), key=WORST.index, default="not measured"),
        ),
        tuple(notes),
    )


def _read(bench: Bench, key: str, wanted: Gathered) -> _Read:
    item, wet_key = bench.sheet.characteristics[key], after_start(bench).wet
    dry = {place: one for place, one in measured(bench, key).items() if math.isfinite(one.low + one.high)}
    wet = {}
    if wet_key is not None and wet_key in bench.sheet.characteristics:
        oiled = {place: with_oil(bench, wet_key, dry=one) for place, one in dry.items()}
        wet = {place: one for place, one in oiled.items() if one is not None}
    places = tuple(dry) if item.computed else place_names(item)
    lacking = [place for place in places if place not in dry]
    if lacking:
        wanted.lacks(
            f"cranking pressure of {', '.join(lacking)}",
            therefore="not compared with what is expected, and no balance is final",
            do=f"Read it, then: {READ} {key} --as-left",
        )
    if wet_key is None:
        wanted.lacks(
            "the characteristic that holds the pressures with oil in the cylinder",
            therefore="rings and valves cannot be told apart by it",
            path="after_start.wet",
        )
    return _Read(key, places, dry, wet, findings(bench, key, readings=dry))


def _notes(read: _Read) -> list[str]:
    return list(dict.fromkeys(note for one in read.dry.values() for note in one.notes))


def _before_work(read: _Read) -> list[str]:
    """Which pressures are those from before the work."""
    found = [place for place, one in read.dry.items() if one.condition == "as found"]
    if not found:
        return []
    if len(found) == len(read.dry):
        whole = len(found) == len(read.places)
        return (
            ["These pressures are as found, before the work. What it gives now: add --as-left."]
            if whole
            else []
        )
    return [
        f"Read as found only, before the work: {listed(found)}. Set beside the others, which are as left, that proves "
        f"no balance of today. Read again: {READ} {read.key} --as-left"
    ]


def _how(bench: Bench, key: str | None) -> str:
    speed = after_start(bench).cranking_speed
    least = run_figure("cranking_speed")
    turned = (
        f"turned at {speed.value.text} ({after_start(bench).cited(speed) or 'the data sheet'})"
        if speed is not None
        else f"turned at {least.value:g} r/min or more ({least.source.provenance.lower()})"
    )
    volts = run_figure("rest_voltage")
    battery = f"battery at rest {volts.value:g} V or more ({volts.source.provenance.lower()})"
    own = bench.sheet.characteristics[key].how if key is not None else None
    return "; ".join(filter(None, [own or "engine warm, all plugs out, throttle wide open", turned, battery]))


def _seen(bench: Bench, read: _Read, place: str, band: Expected | None, air: Air) -> Seen:
    """One cylinder against the band and the limits, as printed and as they are here."""
    dry = read.dry[place]
    wet = read.wet.get(place)
    highest = max(one.high for one in read.dry.values())
    said = read.of(place)
    verdict = min((one.verdict for _, one in said), key=WORST.index, default="no limit given")
    why = [one.reason for _, one in said if one.verdict in ("outside", "in doubt")]
    low = any(one.verdict == "outside" for limit, one in said if limit.shape == BETWEEN)
    for limit, one in said:
        if limit.shape == "plain" and one.verdict == "outside":
            here = verdicts_here(bench, dry, low=limit.low) if limit.low is not None else None
            low = low or ((here is None or set(here) == {"outside"}) and not _above(dry, limit))
    if not any(limit.shape == BETWEEN for limit, _ in read.found if limit is not None):
        low = low or share_of_highest(dry.high, highest=highest) < run_figure("low_share").value
    return Seen(
        place, dry, wet, share_of_highest(dry.high, highest=highest), _against(dry, band), verdict,
        "; ".join(dict.fromkeys(why)), low, _as_new(bench, read.key, dry, air),
    )  # fmt: skip


def _as_new(bench: Bench, key: str, dry: Measured, air: Air) -> bool:
    """Whether it reaches what the sheet prints for a new engine, as that is here by the milder rule."""
    new = bench.sheet.characteristics[key].new_range
    least = new.value.low_in("kPa") if new is not None else None
    return least is not None and dry.high >= least * (min(shares(air)) if air.known else 1.0)


def _above(dry: Measured, limit: Criterion) -> bool:
    return limit.high is not None and dry.low > limit.high


def _against(dry: Measured, band: Expected | None) -> str:
    """How a reading stands to the band, its uncertainty counted."""
    if band is None:
        return ""
    verdict = decide(value_of(dry), low=band.low_kpa, high=band.high_kpa).verdict
    if verdict == "inside":
        return "as expected"
    if not dry.u_known and band.low_kpa <= dry.low <= dry.high <= band.high_kpa:
        return "as expected as read; how far the gauge may be off is not known"
    side = "below" if (dry.low + dry.high) / 2 < (band.low_kpa + band.high_kpa) / 2 else "above"
    return f"{side} what is expected" if verdict == "outside" else f"about the {_end(side)} end of it"


def _end(side: str) -> str:
    return "lower" if side == "below" else "upper"


def _line(read: _Read, one: Seen) -> CylinderLine:
    before = f", before: {one.dry.as_found}" if one.dry.as_found else ""
    return CylinderLine(
        one.place,
        f"{one.dry.text}{before}",
        _wet(one),
        f"{100 * one.rise:+.0f} %" if one.rise is not None else "",
        f"{100 * one.share:.0f} %",
        one.against,
        one.verdict,
        one.why,
    )


def _wet(one: Seen) -> str:
    if one.wet is None:
        return ""
    return f"{one.wet.reading.text}: {one.wet.stale}" if one.wet.stale else one.wet.reading.text


def _balance(bench: Bench, read: _Read) -> tuple[BalanceLine, ...]:
    """The sheet's rules between cylinders; where it has none, those of the trade, which do not agree."""
    own = [limit for limit, _ in read.found if limit is not None and limit.shape == BETWEEN]
    lines = []
    for limit in dict.fromkeys(own):
        rows = [one for other, one in read.found if other is limit]
        verdict = min((one.verdict for one in rows), key=WORST.index)
        lines.append(
            BalanceLine(
                limit.words,
                verdict,
                _extremes(read, bar=cranking_in_bar(bench)),
                limit.source or "the data sheet",
            )
        )
    return tuple(lines) if lines else _of_trade(bench, read)


def _of_trade(bench: Bench, read: _Read) -> tuple[BalanceLine, ...]:
    found = _spread(read)
    lines = []
    for rule in balance_rules():
        if found is None or len(read.dry) < len(read.places):
            verdict = "not measured"
        else:
            low = rule.least_kpa is not None and found.lowest < rule.least_kpa
            verdict = "inside" if within(found, rule=rule.rule, limit=rule.limit) and not low else "outside"
        lines.append(
            BalanceLine(
                f"{rule.words}, as read",
                verdict,
                _extremes(read, bar=cranking_in_bar(bench)),
                str(rule.source),
            )
        )
    return tuple(lines)


def _spread(read: _Read) -> Spread | None:
    try:
        return spread_of([(one.low + one.high) / 2 for one in read.dry.values()])
    except GudgeonError:
        return None


def _extremes(read: _Read, *, bar: bool) -> str:
    found = _spread(read)
    if found is None:
        return ""
    low, high = (shown(end, bar=bar) for end in (found.lowest, found.highest))
    return (
        f"lowest {low}, highest {high}: {100 * found.share:.0f} %, apart by "
        f"{shown(found.difference, bar=bar)}"
    )
