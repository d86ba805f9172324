"""What has changed? Every changed figure of the sheet and the kit, and what used the old one.

What was read, pulled and proved keeps the figures that it was made against. An entry that was made against the sheet
and the kit as they are is known by their hashes, and looked at no further.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from hashlib import sha256

from gudgeon.bench.answer import Heading
from gudgeon.bench.changed_figures import Difference, of_program, of_pull, of_reading
from gudgeon.bench.context import Bench, entries_of
from gudgeon.bench.entries import entry_words, item_names
from gudgeon.bench.held_against import differing
from gudgeon.bench.holds import Hold, holds_of, joints_of
from gudgeon.bench.network import job_named
from gudgeon.bench.reason import Reason, written_at
from gudgeon.bench.sheet_place import line_of
from gudgeon.book.state import HoldState, PullState, ReadingState, ScanState


@dataclass(frozen=True, slots=True)
class Used:
    """An entry that used the old figure."""

    number: int
    entry: str
    when: str
    who: str
    what: str


@dataclass(frozen=True, slots=True)
class ChangedFigure:
    """One changed figure, what it was, what it is now, where it stands, and every entry that used the old one."""

    paper: str
    where: str
    line: int | None
    what: str
    before: str
    now: str
    used_by: tuple[Used, ...]


@dataclass(frozen=True, slots=True)
class Changes:
    """The answer to “What has changed?”."""

    heading: Heading
    figures: tuple[ChangedFigure, ...]
    ways_out: str


WAYS_OUT = (
    "Everything that used an old figure is in doubt until it is done or measured anew, until the old figure is put "
    "back, or until a named person writes down why the old one serves."
)

Affected = dict[Difference, list[str]]
"""What has changed, and the ids of the entries that used the old figure."""


def changes(bench: Bench) -> Changes:
    """Every changed figure with the entries that used the old one."""
    bench.unlock()
    found = affected(bench)
    wanted = {entry for entries in found.values() for entry in entries}
    entries = {one.id: one for one in entries_of(bench)} if wanted else {}
    names = item_names(entries.values())
    used = {
        key: Used(
            entries[key].number,
            key,
            written_at(entries[key].device_time),
            entries[key].who,
            entry_words(bench, entries[key], names=names),
        )
        for key in wanted
    }
    figures = tuple(
        ChangedFigure(
            one.paper, one.where, _line(bench, one), one.what, one.before, one.now,
            tuple(sorted((used[key] for key in entries), key=lambda use: use.number)),
        )
        for one, entries in found.items()
    )  # fmt: skip
    return Changes(bench.heading("What has changed?"), figures, WAYS_OUT)


def _line(bench: Bench, one: Difference) -> int | None:
    """The line of the sheet in which the figure stands, or the part that it was taken out of."""
    return line_of(bench.papers.written, one.where) if one.paper == "data sheet" else None


def affected(bench: Bench) -> Affected:
    """Every difference between what an entry in force was made against and the papers of today."""
    found: Affected = {}
    read: tuple[ReadingState | ScanState, ...] = (
        *bench.state.readings.values(), *bench.state.scans.values(),
    )  # fmt: skip
    for reading in read:
        for one in differences_of(bench, reading):
            found.setdefault(one, []).append(reading.entry)
    for key, stage, pull in _pulls(bench):
        for one in of_pull(pull, bench.sheet.joints[key], bench.kit, key=key, stage=stage):
            found.setdefault(one, []).append(pull.entry)
    for hold, proof in _proofs(bench):
        for one in of_hold(bench, hold, proof):
            found.setdefault(one, []).append(proof.entry)
    return found


def differences_of(bench: Bench, reading: ReadingState | ScanState) -> tuple[Difference, ...]:
    """What a reading or the scan of a face was made against and is no longer so."""
    if _same_papers(bench, reading.sheet, reading.kit):
        return ()
    return tuple(of_reading(reading, bench.sheet, bench.kit))


def _same_papers(bench: Bench, sheet: str, kit: str) -> bool:
    return (sheet, kit) == (bench.papers.sheet_sha, bench.papers.kit_sha)


def _pulls(bench: Bench) -> Iterator[tuple[str, int, PullState]]:
    """The pulls that count and were made against other papers, of joints that the sheet still has."""
    for key, state in bench.state.joints.items():
        if key in bench.sheet.joints:
            for (stage, _, _), pull in state.pulls.items():
                if not _same_papers(bench, pull.sheet, pull.kit):
                    yield key, stage, pull


def _proofs(bench: Bench) -> Iterator[tuple[Hold, HoldState]]:
    for hold in holds_of(bench.sheet, job_named(bench.state)):
        proof = bench.state.holds.get(hold.id)
        if proof is not None and proof.status == "proved" and proof.sheet != bench.papers.sheet_sha:
            yield hold, proof


def of_hold(bench: Bench, hold: Hold, proof: HoldState) -> Iterator[Difference]:
    """What a proof was held against and is no longer so."""
    found = differing(proof.shown, bench.sheet, hold.held_against, joints=joints_of(hold, bench.sheet))
    for path, (before, now) in found.items():
        yield Difference("data sheet", path, f"what “{hold.name}” was held against", before, now)


def reasons(bench: Bench) -> Iterator[Reason]:
    """Readings and pulls in doubt because a figure of the sheet or the kit has changed.

    What a joint or a hold says of itself is not said again: another target, order or thread, another proof.
    """
    found: dict[Difference, list[ReadingState]] = {}
    for reading in _counting(bench):
        for one in differences_of(bench, reading):
            found.setdefault(one, []).append(reading)
    for one, readings in found.items():
        names = tuple(f"{reading.item} {reading.place}".strip() for reading in readings)
        yield _reason(one, names, family="reading", key=readings[0].item, count=_readings(len(readings)))
    for scan in _counting_scans(bench):
        for one in differences_of(bench, scan):
            yield _reason(one, (scan.item,), family="scan", key=scan.item, count=f"the scan of {scan.item}")
    pulled: dict[tuple[str, Difference], list[PullState]] = {}
    for key, stage, pull in _pulls(bench):
        told = set(of_program(pull, bench.sheet.joints[key], key=key, stage=stage))
        for one in of_pull(pull, bench.sheet.joints[key], bench.kit, key=key, stage=stage):
            if one not in told:
                pulled.setdefault((key, one), []).append(pull)
    for (key, one), pulls in pulled.items():
        count = f"{len(pulls)} pull{'s' if len(pulls) > 1 else ''} of {bench.sheet.joints[key].name}"
        due = bench.sheet.joints[key].due_before
        yield _reason(one, (), family="joint", key=key, count=count, due=due)


def _counting(bench: Bench) -> Iterator[ReadingState]:
    """The readings that count: as left, where there is one."""
    readings = bench.state.readings
    for (item, place, condition), reading in readings.items():
        if condition == "as left" or (item, place, "as left") not in readings:
            yield reading


def _counting_scans(bench: Bench) -> Iterator[ScanState]:
    """The scans of faces that count: as left where there is one, else as found."""
    for (item, condition), scan in bench.state.scans.items():
        if condition == "as left" or (item, "as left") not in bench.state.scans:
            yield scan


def _readings(count: int) -> str:
    return f"{count} reading{'s' if count > 1 else ''}"


def _reason(
    one: Difference, names: tuple[str, ...], *, family: str, key: str, count: str, due: str = "crank"
) -> Reason:
    again = "Slacken and pull again" if family == "joint" else "Measure it again"
    typed = {
        "reading": f"gudgeon record reading {key}", "scan": f"gudgeon measure {key} --face FILE.csv",
        "joint": f"gudgeon tighten {key}",
    }[family]  # fmt: skip
    return Reason(
        "in doubt",
        one.what,
        f"{count} used the old figure: it was {one.before}, the {one.paper} now says {one.now}",
        due,
        f"{typed}, put the old figure back, or say who lets the old one serve: gudgeon changes",
        f"{again}; or put the old figure back; or a named person says why the old one serves.",
        "what was done about it",
        names if len(names) > 1 else (),
        f"{'reading' if family == 'scan' else family}:{key} changed {fingerprint(one)}",
    )


def fingerprint(one: Difference) -> str:
    """A short name of exactly this change: what lets it pass does not let the next one pass."""
    text = "\n".join((one.paper, one.where, one.before, one.now))
    return sha256(text.encode()).hexdigest()[:8]
