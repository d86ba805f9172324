"""Settling what proof-reading found: the decision is kept in the sheet, with its reason."""

from typing import Any

from gudgeon.bench.context import Bench
from gudgeon.bench.errors import Unknown
from gudgeon.bench.proof.findings import Finding
from gudgeon.bench.record import who
from gudgeon.bench.sheet_figures import sheet_findings
from gudgeon.bench.sheet_file import sheet_file, write_sheet
from gudgeon.errors import InputError
from gudgeon.sheet.write import changed, checked

DECISIONS = ("kept", "asked")
"""What a page can settle; a figure is corrected by writing it."""


class NoReason(InputError):
    """A decision that nobody could follow later."""

    def __init__(self) -> None:
        super().__init__("The reason is empty. Write why it stays, or whom you asked; nothing was written.")


def settle_finding(bench: Bench, key: str, *, decision: str, why: str, made_from: str) -> Finding:
    """Write a decision about one finding into the sheet."""
    findings = {one.key: one for one in sheet_findings(bench)}
    if key not in findings:
        raise Unknown("finding", key, findings)
    if decision not in DECISIONS:
        raise Unknown("decision", decision, DECISIONS)
    reason = " ".join(why.split())
    if not reason:
        raise NoReason
    found, file = findings[key], sheet_file(bench)
    line = {
        "finding": key,
        "decision": decision,
        "why": reason,
        "who": who(),
        "on": bench.now.date(),
        "about": found.name,
    }

    def change(text: str) -> str:
        return checked(text, changed(text, lambda root: _settle(root, line)), file=file.name)

    write_sheet(file, made_from=made_from, change=change)
    return found


def _settle(root: Any, line: dict[str, Any]) -> None:
    """Put the decision at the end of those that are there, in place of an earlier one about the same finding."""
    from ruamel.yaml.comments import CommentedMap

    kept = CommentedMap(line)
    kept.fa.set_flow_style()
    decided = root.setdefault("settled", [])
    for index, one in enumerate(decided):
        if one.get("finding") == line["finding"]:
            decided[index] = kept
            return
    decided.append(kept)
