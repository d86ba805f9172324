"""What to do about a bolt in doubt: what this sheet orders for this kind of doubt, and else that it orders nothing."""

from gudgeon.bench.progress import Progress, Step
from gudgeon.book.fold_joints import TURNED_TWICE
from gudgeon.sheet.doubts import DoubtRule, rule_at
from gudgeon.sheet.joints import Joint

DOUBT_WORDS = {
    "noise": "it made a noise",
    "soft": "it turned softly",
    "angle lost": "the angle was lost",
    "interrupted": "it was interrupted midway",
    "slipped": "the tool slipped",
    "other": "something else",
}
"""The kinds of doubt as a person says them."""

NO_RULE = "The sheet gives no rule for a bolt in doubt: ask the manual before going on."

PRACTICE = {
    "noise": "let it off, look at thread and bearing face, clean and oil them as the sheet says, and begin the joint "
    "again",
    "soft": "a bolt that turns on without getting tighter is past its yield, or its thread gives way: it is not turned "
    "further, but taken out and renewed, and the thread in the casting is looked at",
    "angle lost": "an angle is never guessed: the joint is slackened and begun again; a bolt that may have been turned "
    "twice is renewed",
    "interrupted": "look where its mark stands against the line, and turn only what is missing",
    "slipped": "look at the head and the socket, and where the mark stands: turn only what is missing",
}
"""What is commonly done, where the sheet says nothing. Common practice of the trade, no source."""


def doubt_words(joint: Joint, found: Progress) -> str:
    """What to do about a joint in doubt; where one pull stands twice, a wrong entry comes first."""
    return " ".join(_doubt_lines(joint, found))


def _doubt_lines(joint: Joint, found: Progress) -> tuple[str, ...]:
    own = [_said(joint, step) for step in found.steps if _doubted(step)]
    named = {step.pull.why for step in found.steps if _doubted(step) and step.pull is not None}
    rest = [one for one in found.doubts if not any(one.endswith(f": {why}") for why in named)]
    if not own or any(not _told(one, found) for one in rest):
        own.append(_general(joint, found))
    return tuple(own)


def in_doubt_lines(joint: Joint, found: Progress) -> tuple[str, ...]:
    """What a card says of doubts, a line for each: what to do about those there are, else every rule there is."""
    return _doubt_lines(joint, found) if found.doubts else _rules_lines(joint)


def rules_words(joint: Joint) -> str:
    """Every rule of the sheet for a bolt in doubt, as a card says it beforehand."""
    return " ".join(_rules_lines(joint))


def _rules_lines(joint: Joint) -> tuple[str, ...]:
    said = [
        f"{DOUBT_WORDS[kind][0].upper()}{DOUBT_WORDS[kind][1:]}{_from(rule, rules)}: {_order(joint, rule)}."
        for kind, rules in joint.doubts.items()
        for rule in rules
    ]
    if joint.doubt:
        said.append(joint.doubt)
    return tuple(said) or (NO_RULE,)


def _from(rule: DoubtRule, rules: tuple[DoubtRule, ...]) -> str:
    return f", from stage {rule.from_stage} on" if rule.from_stage > 1 or len(rules) > 1 else ""


def _doubted(step: Step) -> bool:
    """Whether whoever pulled it named the kind of doubt."""
    return step.pull is not None and step.pull.outcome == "doubtful" and step.pull.doubt not in ("", "other")


def _told(doubt: str, found: Progress) -> bool:
    """What follows from a doubt that has its rule: a bolt that is due for renewal, a stage that is not done."""
    bolts = {step.bolt for step in found.steps if _doubted(step)}
    return any(doubt.startswith(f"bolt {bolt}: ") for bolt in bolts)


def _said(joint: Joint, step: Step) -> str:
    assert step.pull is not None
    kind = step.pull.doubt
    name = step.bolt if step.bolt in (joint.called, "all") else f"{joint.called} {step.bolt}"
    where = f"{name[0].upper()}{name[1:]}, stage {step.stage}, {DOUBT_WORDS[kind]}"
    rule = rule_at(joint.doubts, kind, stage=step.stage)
    if rule is not None:
        return f"{where}: the sheet orders: {_order(joint, rule)}."
    if joint.doubt:
        return (
            f"{where}: the sheet has no rule of its own for that. Of any bolt in doubt it says: {joint.doubt}"
        )
    return (
        f"{where}: the sheet gives no rule for that. Stop; the manual decides. Common practice, not from the sheet: "
        f"{PRACTICE[kind]}."
    )


def order_words(joint: Joint, kind: str, *, stage: int) -> str:
    """What the sheet orders for a doubt, in a few words, as it is kept with the pull; empty where it orders nothing."""
    rule = rule_at(joint.doubts, kind, stage=stage)
    return ", ".join(filter(None, [rule.rule, rule.note])) if rule is not None else ""


def _order(joint: Joint, rule: DoubtRule) -> str:
    source = rule.source or joint.source
    said = {
        "go on": "go on, but look at its mark first; turn only what is missing, and record this pull again",
        "slacken and start again": f"slacken every {joint.called}, record that, and begin again with stage 1",
        "renew": (
            f"slacken every {joint.called}, take this one out and renew it, record both, and begin again with stage 1"
        ),
    }[rule.rule]
    return said + "".join(f" ({one})" for one in (rule.note, source) if one)


def _general(joint: Joint, found: Progress) -> str:
    rule = joint.doubt or NO_RULE
    if any(TURNED_TWICE in one for one in found.doubts):
        return (
            "Two entries stand for one pull: look first which of them is wrong, and strike it "
            f"(gudgeon strike NUMBER --why …). Only if both are true: {rule}"
        )
    return rule
