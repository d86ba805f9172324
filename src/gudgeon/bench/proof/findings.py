"""A finding: what was printed, what would agree, which digit probably slipped, and who settled it."""

import hashlib
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Literal

Grade = Literal["error", "doubt", "note"]
GRADES: tuple[Grade, ...] = ("error", "doubt", "note")


@dataclass(frozen=True, slots=True)
class Settled:
    """What the person decided about a finding, and why."""

    decision: Literal["kept", "corrected", "asked"]
    why: str
    who: str
    on: date | None


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that does not agree, at one place of the sheet.

    The key holds what was printed: a figure that changes is proof-read anew.
    """

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
    settled: Settled | None = None

    @property
    def counts(self) -> bool:
        """Whether it still stands: not settled, or said to be corrected while the figure is as it was."""
        return self.settled is None or self.settled.decision == "corrected"


def finding_key(check: str, *, path: str, printed: str) -> str:
    """A short key from the check, the place and what was printed there."""
    digest = hashlib.sha256("\n".join((check, path, printed)).encode()).hexdigest()
    return f"{check}-{digest[:8]}"


def open_errors(findings: Iterable[Finding]) -> int:
    """How many errors nobody has settled."""
    return sum(1 for finding in findings if finding.grade == "error" and finding.counts)


def finding(
    check: str,
    *,
    grade: Grade,
    path: str,
    name: str,
    printed: str,
    why: str,
    agrees: str = "",
    digit: str = "",
    source: str = "",
) -> Finding:
    """A finding as a check makes it; its line and what settled it are added by the run."""
    key = finding_key(check, path=path, printed=printed)
    return Finding(key, check, grade, path, None, name, printed, agrees, digit, why, source)
