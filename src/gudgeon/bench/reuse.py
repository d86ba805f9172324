"""Which bolts of a joint may be used again: every rule of the sheet, judged from what was read."""

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import TypeVar

from gudgeon.bench.answer import Heading
from gudgeon.bench.bodies import BASE_UNIT
from gudgeon.bench.bodies import joint as joint_of
from gudgeon.bench.context import Bench, entries_of
from gudgeon.bench.judging.decision import Value, decide, inside_as_read, total, value_of
from gudgeon.bench.measured import Measured, Odd, measured, odd
from gudgeon.bench.part_keys import fasteners_of, key_of
from gudgeon.bench.progress import GOOD
from gudgeon.quantity.format import both
from gudgeon.sheet.inspections import Characteristic
from gudgeon.sheet.joints import Joint
from gudgeon.sheet.reuse import MEASURED, Reuse

AGAIN, NOT, DOUBT, UNKNOWN = "use again", "renew", "in doubt", "not judged"
ORDER = (NOT, DOUBT, UNKNOWN, AGAIN)
"""The gravest first: one rule against a bolt is enough."""


@dataclass(frozen=True, slots=True)
class RuleVerdict:
    """What one rule says of one bolt."""

    rule: str
    limit: str
    read: str
    verdict: str
    reason: str


@dataclass(frozen=True, slots=True)
class BoltVerdict:
    """One bolt: the gravest verdict of all rules, and each of them."""

    bolt: str
    where: str
    verdict: str
    rules: tuple[RuleVerdict, ...]


@dataclass(frozen=True, slots=True)
class ReuseAnswer:
    """Every bolt of a joint."""

    heading: Heading
    joint: str
    name: str
    called: str
    rules: tuple[str, ...]
    bolts: tuple[BoltVerdict, ...]
    counts: dict[str, int]
    said: str
    source: str


def reuse(bench: Bench, key: str) -> ReuseAnswer:
    """Judge every bolt of a joint by every rule that the sheet states."""
    bench.unlock()
    joint = joint_of(bench.sheet, key)
    rules = joint.reuse.rules if joint.reuse is not None else ()
    known = _known(bench, key, joint, rules)
    bolts = tuple(_bolt(known, rules, name) for name in joint.bolt_names)
    counts = {verdict: sum(one.verdict == verdict for one in bolts) for verdict in ORDER}
    return ReuseAnswer(
        bench.heading("Is it good?"),
        key,
        joint.name,
        joint.called,
        tuple(rule_words(bench, rule) for rule in rules),
        bolts,
        counts,
        _said(joint, counts),
        _source(joint, rules),
    )


def _said(joint: Joint, counts: dict[str, int]) -> str:
    if joint.reuse is None or joint.reuse.rule == "not stated":
        return "The sheet states no rule for using them again: ask the manual before you do."
    words = {NOT: "to renew", DOUBT: "in doubt", UNKNOWN: "not judged", AGAIN: "may be used again"}
    return ", ".join(f"{count} {words[verdict]}" for verdict, count in counts.items() if count)


def _source(joint: Joint, rules: tuple[Reuse, ...]) -> str:
    """The pages that the rules stand on."""
    stated = [rule.limit or rule.difference for rule in rules]
    cited = [
        (one.source if one is not None else None) or rule.source
        for one, rule in zip(stated, rules, strict=True)
    ]
    return "; ".join(dict.fromkeys(str(one or joint.source) for one in cited if one or joint.source))


def rule_words(bench: Bench, rule: Reuse) -> str:
    """A rule with its limit, in words."""
    limit = _limit_words(bench, rule)
    return f"{rule.rule}: {limit}" if limit else rule.rule


def _limit_words(bench: Bench, rule: Reuse) -> str:
    if rule.most_uses is not None:
        return f"at most {rule.most_uses} uses"
    stated = rule.difference or rule.limit
    if stated is not None:
        return stated.value.text
    own = [bench.sheet.characteristics[name] for name in rule.measured_as]
    limits = [one.wear_limit or one.required for one in own]
    return "; ".join(one.value.text for one in limits if one is not None)


@dataclass(frozen=True, slots=True)
class _Known:
    """What the book knows of the bolts of a joint, asked once for all of them."""

    bench: Bench
    joint: Joint
    readings: Mapping[str, Mapping[str, Measured]]
    strange: Mapping[str, Mapping[str, Odd]]
    uses: Counter[str]
    renewed: bool


def _known(bench: Bench, key: str, joint: Joint, rules: tuple[Reuse, ...]) -> _Known:
    items = {name for rule in rules for name in rule.measured_as}
    return _Known(
        bench,
        joint,
        {name: measured(bench, name) for name in items},
        {name: odd(bench, name) for name in items},
        _uses(bench, key, joint),
        _renewed(bench, key),
    )


def _uses(bench: Bench, key: str, joint: Joint) -> Counter[str]:
    """How often each bolt reached the last stage, by the book; uses before the book are not known to it."""
    last = max(number for number, _ in joint.stages())
    return Counter(
        one.body["bolt"]
        for one in entries_of(bench)
        if one.kind == "pull"
        and one.id not in bench.state.struck
        and (one.body["joint"], one.body["stage"]) == (key, last)
        and one.body["outcome"] in GOOD
    )


def _renewed(bench: Bench, key: str) -> bool:
    """Whether the book says that the fasteners of this joint were renewed, as a part or one by one."""
    part, joint = fasteners_of(bench.sheet, key), bench.state.joints.get(key)
    as_part = (
        one.decision == "renew" and key_of(bench.sheet, name) == part
        for name, one in bench.state.parts.items()
    )
    return any(as_part) or (joint is not None and bool(joint.renewed))


def _bolt(known: _Known, rules: tuple[Reuse, ...], name: str) -> BoltVerdict:
    found = tuple(_by_rule(known, rule, name) for rule in rules)
    verdict = min((one.verdict for one in found), key=ORDER.index, default=UNKNOWN)
    return BoltVerdict(name, known.joint.bolt(name).where or "", verdict, found)


def _by_rule(known: _Known, rule: Reuse, name: str) -> RuleVerdict:
    limit = _limit_words(known.bench, rule)
    if rule.rule == "always new":
        return RuleVerdict(rule.rule, limit, "", NOT, "the manual has them renewed every time")
    if rule.rule == "count of uses":
        return _counted(known, rule, name, limit)
    if rule.rule in MEASURED:
        return _measured(known, rule, name, limit)
    if rule.rule == "as found good":
        return RuleVerdict(rule.rule, limit, "", UNKNOWN, "by eye: look at thread, neck and bearing face")
    return RuleVerdict(rule.rule, limit, "", UNKNOWN, "no rule stated: ask the manual")


def _counted(known: _Known, rule: Reuse, name: str, limit: str) -> RuleVerdict:
    assert rule.most_uses is not None
    uses = known.uses[name]
    verdict = NOT if uses >= rule.most_uses else AGAIN if known.renewed else DOUBT
    reason = {
        NOT: "tightened to the last stage as often as it may be",
        DOUBT: "how often it was used before this book is not known",
        AGAIN: "fitted new in this book, and used less often than it may be",
    }[verdict]
    return RuleVerdict(rule.rule, limit, f"{uses} in this book", verdict, reason)


def _measured(known: _Known, rule: Reuse, name: str, limit: str) -> RuleVerdict:
    if not rule.measured_as:
        why = (
            f"the sheet does not say which characteristic holds this reading of each {known.joint.called}: "
            "name it in the rule, as measured_as"
        )
        return RuleVerdict(rule.rule, limit, "", UNKNOWN, why)
    places = (f"{known.joint.called} {name}", name, f"bolt {name}")
    found = {key: _at(known.readings[key], places) for key in rule.measured_as}
    read = [one for one in found.values() if one is not None]
    if len(read) < len(rule.measured_as):
        missing = [_why_none(known, key, places) for key, one in found.items() if one is None]
        return RuleVerdict(rule.rule, limit, "", UNKNOWN, "; ".join(missing))
    value, item = _figure(rule, read), known.bench.sheet.characteristics[rule.measured_as[0]]
    least, most = _ends(rule, item)
    text = " and ".join(one.text for one in read)
    if least is None and most is None and rule.rule == "thread against a straightedge":
        verdict, reason = _touches(read[0])
    else:
        verdict, reason = _verdict(value, (least, most), as_read=item.accept == "as read")
    if len(read) > 1:
        text += f", {both(abs(read[0].low - read[1].low), kind='length_difference', decimals=2)} apart"
    return RuleVerdict(rule.rule, limit, text, verdict, reason)


_T = TypeVar("_T")


def _at(by_place: Mapping[str, _T], places: tuple[str, ...]) -> _T | None:
    return next((by_place[place] for place in places if place in by_place), None)


def _why_none(known: _Known, key: str, places: tuple[str, ...]) -> str:
    item, strange = known.bench.sheet.characteristics[key], _at(known.strange[key], places)
    return f"not measured: {item.name}" if strange is None else f"{item.name}: {strange.why}"


def _figure(rule: Reuse, read: list[Measured]) -> Value:
    """What the rule judges: one reading, or how far two of them are apart, whichever is the larger."""
    if rule.rule != "difference of two diameters":
        return value_of(read[0])
    apart = total(((1.0, read[0]), (-1.0, read[1])))
    ends = sorted((abs(apart.low), abs(apart.high)))
    return replace(apart, low=0.0 if apart.low < 0 < apart.high else ends[0], high=ends[1])


def _ends(rule: Reuse, item: Characteristic) -> tuple[float | None, float | None]:
    stated = rule.difference or rule.limit
    if stated is not None:
        return stated.value.low_in("mm"), stated.value.high_in("mm")
    own = item.wear_limit or item.required
    if own is not None:
        base = BASE_UNIT[item.kind]
        return own.value.low_in(base), own.value.high_in(base)
    return None, None


def _touches(read: Measured) -> tuple[str, str]:
    """A thread that is stretched no longer lies against the straightedge: a blade enters."""
    if read.low > 0:
        return NOT, "a blade enters between thread and straightedge: it is stretched"
    return AGAIN, "no blade enters between thread and straightedge"


def _verdict(value: Value, ends: tuple[float | None, float | None], *, as_read: bool) -> tuple[str, str]:
    least, most = ends
    if least is None and most is None:
        return UNKNOWN, "the sheet states no limit"
    found = decide(value, low=least, high=most, as_read=as_read)
    if found.verdict == "outside":
        return NOT, "outside the limit"
    if found.verdict == "inside":
        return AGAIN, "inside the limit" + (" as read, as the sheet wants it" if as_read else "")
    if not value.known and inside_as_read(value, low=least, high=most):
        return DOUBT, "inside as read, but how far the gauge may be off is not known"
    return DOUBT, "the gauge cannot tell: measure more finely, or renew it"


def told(answer: ReuseAnswer) -> Iterator[tuple[str, ...]]:
    """The answer as rows: bolt, place, rule, what was read, verdict, reason."""
    for bolt in answer.bolts:
        for rule in bolt.rules:
            yield (bolt.bolt, bolt.where, rule.rule, rule.read, rule.verdict, rule.reason)
