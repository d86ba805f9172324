"""Settling a finding: the decision and its reason are written into the sheet, under `settled:`."""

from datetime import date
from typing import Any

from gudgeon.bench.errors import Unknown
from gudgeon.bench.proof.findings import Finding
from gudgeon.bench.proof.run import proofread
from gudgeon.errors import InputError
from gudgeon.sheet.load import parse_sheet
from gudgeon.sheet.model import DataSheet
from gudgeon.sheet.write import changed, checked

DECISIONS = ("kept", "corrected", "asked")


class ReasonEmpty(InputError):
    """A decision that nobody could follow later."""

    def __init__(self) -> None:
        super().__init__(
            "The reason is empty. Write why the figure stays, what is right, or whom you asked; nothing was written."
        )


def found_in(text: str, *, file: str, key: str) -> Finding:
    """The finding of that key in the text of a sheet, or a refusal that names those there are."""
    loaded = parse_sheet(text, file=file)
    findings = {one.key: one for one in proofread(loaded.sheet, written=loaded.written)}
    if key not in findings:
        raise Unknown("finding", key, findings)
    return findings[key]


def settle(text: str, *, file: str, finding: str, decision: str, why: str, who: str, on: date) -> str:
    """The text of the sheet with the decision in it; comments and order stay, an earlier decision is replaced."""
    if decision not in DECISIONS:
        raise Unknown("decision", decision, DECISIONS)
    reason = " ".join(why.split())
    if not reason:
        raise ReasonEmpty
    found = found_in(text, file=file, key=finding)
    line = {
        "finding": finding,
        "decision": decision,
        "why": reason,
        "who": who,
        "on": on,
        "about": f"{found.path}: {found.printed}",
    }
    return checked(text, after=changed(text, lambda root: _put(root, line)), file=file)


def _put(root: Any, line: dict[str, Any]) -> None:
    from ruamel.yaml.comments import CommentedMap

    kept = CommentedMap(line)
    kept.fa.set_flow_style()
    if root.get("settled") is None:
        root["settled"] = []
    decided = root["settled"]
    for index, one in enumerate(decided):
        if one.get("finding") == line["finding"]:
            decided[index] = kept
            return
    decided.append(kept)


def outdated(sheet: DataSheet, findings: tuple[Finding, ...]) -> int:
    """How many decisions are about figures that have changed since: they settle nothing any more."""
    keys = {one.key for one in findings}
    return sum(one.finding not in keys for one in sheet.settled)
