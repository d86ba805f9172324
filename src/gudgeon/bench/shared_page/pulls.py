"""The pulls of one stage of a joint as one step: figure, source, tool, and what every bolt said."""

from collections.abc import Sequence
from dataclasses import replace

from gudgeon.bench.context import Bench
from gudgeon.bench.pattern import Pattern, pattern
from gudgeon.bench.progress import progress
from gudgeon.bench.pull_list import state_words
from gudgeon.bench.pull_words import stage_words
from gudgeon.bench.same import same_figure
from gudgeon.bench.shared_page.choices import Choices
from gudgeon.bench.shared_page.deeds import joint_name
from gudgeon.bench.shared_page.hiding import Hiding
from gudgeon.bench.shared_page.model import Rows
from gudgeon.bench.shared_page.tools import each_once, in_both, source_words, tool_words
from gudgeon.book.entries import Entry
from gudgeon.errors import GudgeonError
from gudgeon.quantity.written import parse_printed
from gudgeon.sheet.joints import Joint, Stage

KINDS = ("pull", "bolt-loosened")
_BASE = {"torque": "N·m", "verify": "N·m"}


def pull_words(bench: Bench, one: Entry) -> str:
    """Which stage of which joint, and its figure as it was shown that day, in both systems of units."""
    body, joint = one.body, bench.sheet.joints.get(one.body["joint"])
    stage = _stage(joint, one)
    what = "loosened" if one.kind == "bolt-loosened" else "tightened"
    of = f" of {len(joint.loosening if one.kind == 'bolt-loosened' else joint.program)}" if joint else ""
    said = f"{joint_name(bench, body['joint'])} {what}, stage {body['stage']}{of}"
    shown = str(body["shown"].get("target", ""))
    if stage is None:
        return ", ".join(filter(None, (said, shown)))
    figure = shown if stage.figure is not None else ""
    if (
        stage.figure is not None
        and same_figure(shown, now=stage.figure.text, kind="torque")
        and stage.kind in _BASE
    ):
        figure = in_both(stage.figure, kind="torque", base=_BASE[stage.kind])
    passed = body["round"] if stage.repeat > 1 else 0
    return f"{said}: {stage_words(stage, figure=figure, of_pass=passed)}"


def _stage(joint: Joint | None, one: Entry) -> Stage | None:
    """The stage as the sheet has it now; none where it has no such stage any more, or one of another kind."""
    if joint is None:
        return None
    program = joint.loosening if one.kind == "bolt-loosened" else joint.program
    number = one.body["stage"]
    found = program[number - 1] if number <= len(program) else None
    kind = one.body["shown"].get("kind")
    return found if found is not None and kind in (None, found.kind) else None


def pull_facts(
    bench: Bench, pulls: Sequence[Entry], *, choices: Choices, hidden: Hiding
) -> tuple[tuple[str, str], ...]:
    """Tool and setting, the state of the thread, the order, the source."""
    body = pulls[0].body
    joint, shown = bench.sheet.joints.get(body["joint"]), body["shown"]
    tools = each_once(tool_words(bench, one.body["tool"], choices=choices, hidden=hidden) for one in pulls)
    through = " (through an adapter)" if any(one.body["shown"].get("adapter") for one in pulls) else ""
    facts = (
        ("With", "; ".join(tools) + (through if tools else "")),
        ("Set to", "; ".join(each_once(_setting(one) for one in pulls))),
        ("Threads", str(shown.get("thread state", ""))),
        ("Order", str(shown.get("order", "")) if len(pulls) > 1 else ""),
        ("From", source_words(bench, joint.source) if joint is not None else ""),
    )
    return tuple((name, said) for name, said in facts if said)


def _setting(one: Entry) -> str:
    """The setting where it is a torque and nothing else: the field takes any words."""
    try:
        return parse_printed(str(one.body.get("setting", "")), kind="torque").text
    except GudgeonError:
        return ""


def pull_rows(bench: Bench, pulls: Sequence[Entry]) -> Rows | None:
    """Every bolt with its place and what happened; nothing where all were done by hand alike."""
    joint = bench.sheet.joints.get(pulls[0].body["joint"])
    rows = []
    for one in pulls:
        bolt = str(one.body["bolt"])
        known = joint is not None and bolt in joint.bolt_names
        where = joint.bolt(bolt).where if joint is not None and known else ""
        rows.append((bolt if known else "a bolt", where or "", _outcome(bench, one), str(one.number)))
    if not any(row[1] for row in rows):
        plain = tuple((bolt, said, number) for bolt, _, said, number in rows)
        return Rows("What every one of them said", ("No.", "What happened", "Entry"), plain)
    return Rows("What every one of them said", ("No.", "Place", "What happened", "Entry"), tuple(rows))


def _outcome(bench: Bench, one: Entry) -> str:
    body = one.body
    said = [str(body["outcome"]), f"{body['angle_deg']}°" if body.get("angle_deg") else ""]
    words = " ".join(filter(None, said)) + (f" ({body['doubt']})" if body.get("doubt") else "")
    return f"{words}; struck later: it does not count" if one.id in bench.state.struck else words


def joint_state(bench: Bench, key: str) -> str:
    """How far a joint is, in words."""
    joint = bench.sheet.joints[key]
    loose = key in {item.joint for item in bench.state.provisional.values()}
    found = progress(joint, bench.state.joints.get(key))
    found = replace(found, disturbed="opened again" if found.disturbed else "")  # why stands in words of his
    return f"{joint.name}: {state_words(joint, found, provisional=loose)}"


def joint_drawn(bench: Bench, key: str) -> Pattern | None:
    """The bolts where they stand, where the sheet says it."""
    if bench.locked is not None or key not in bench.sheet.joints:
        return None
    found = pattern(bench, key)
    return found if len(found.spots) > 1 else None
