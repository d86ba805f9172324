"""Settling what proof-reading found, from a page: the decision is kept in the sheet, with its reason."""

from functools import partial

from gudgeon.bench.context import Bench
from gudgeon.bench.proof.findings import Finding
from gudgeon.bench.proof.settle import settle
from gudgeon.bench.record import who
from gudgeon.bench.sheet_figures import sheet_findings
from gudgeon.bench.sheet_file import sheet_file, write_sheet


def settle_finding(bench: Bench, key: str, *, decision: str, why: str, made_from: str) -> Finding:
    """Write a decision about one finding into the sheet, if the sheet is still the one that was shown."""
    file = sheet_file(bench)
    findings = {one.key: one for one in sheet_findings(bench)}
    change = partial(
        settle,
        file=file.name,
        finding=key,
        decision=decision,
        why=why,
        who=who(),
        on=bench.now.date(),
    )
    write_sheet(file, made_from=made_from, change=change)
    return findings[key]
