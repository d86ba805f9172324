"""The data sheet proof-read: what does not agree in it, and what it does not state."""

from dataclasses import dataclass, fields

from gudgeon.bench.answer import Heading
from gudgeon.bench.context import Bench
from gudgeon.bench.gaps import Gap, gaps
from gudgeon.bench.proof.findings import Finding, Grade, Settled, open_errors
from gudgeon.bench.proof.run import proofread


@dataclass(frozen=True, slots=True)
class FoundInSheet:
    """One finding of the proof-reading; `counts` says whether it stands, or was settled."""

    key: str
    check: str
    grade: Grade
    path: str
    line: int | None
    name: str
    printed: str
    agrees: str
    digit: str
    why: str
    source: str
    settled: Settled | None
    counts: bool


@dataclass(frozen=True, slots=True)
class SheetAnswer:
    """What proof-reading found, how many errors of it count, and the gaps."""

    heading: Heading
    file: str
    sheet: str
    invented: bool
    errors: int
    findings: tuple[FoundInSheet, ...]
    gaps: tuple[Gap, ...]


def sheet_answer(bench: Bench) -> SheetAnswer:
    """Proof-read the sheet as it is now."""
    file = bench.papers.sheet_file
    findings = proofread(bench.sheet, written=bench.papers.written)
    return SheetAnswer(
        bench.heading("Is the data sheet right?"),
        file.name if file is not None else "",
        bench.papers.sheet_sha,
        bench.sheet.invented,
        open_errors(findings),
        tuple(
            FoundInSheet(
                **{part.name: getattr(one, part.name) for part in fields(Finding)}, counts=one.counts
            )
            for one in findings
        ),
        gaps(bench.sheet),
    )
