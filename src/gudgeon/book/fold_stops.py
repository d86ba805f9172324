"""When a stop is over: when what was stopped goes on, not when something else is begun beside it."""

from gudgeon.book.entries import Entry
from gudgeon.book.fold_lists import CLOSES, OPENS

_JOINT = ("pull", "bolt-loosened", "joint-marked", "joint-witnessed", "joint-disturbed")
_TASK = ("task-started", "task-done")
WORK = frozenset((*_JOINT, *_TASK, "hold-proved", *OPENS, *CLOSES))
"""Acts on the engine."""


class Stops:
    """What was in hand when the work was stopped: a joint, else a task, else nothing that the book knows.

    A joint is in hand from its first pull until it is marked, or until a task is begun; a task until it is done.
    A stop at a joint ends with the next entry on that joint, or on the task during which it was pulled. A stop
    at a task ends with any work but that on another task. A stop at neither ends with any work.
    """

    def __init__(self) -> None:
        self._joint = ""
        self._task = ""
        self._stopped = ("", "")

    @property
    def in_hand(self) -> tuple[str, str]:
        """The joint and the task that are in hand; empty for none."""
        return self._joint, self._task

    def worked(self, entry: Entry) -> None:
        """Remember what an act on the engine was about."""
        if entry.kind in _JOINT:
            self._joint = "" if entry.kind == "joint-marked" else entry.body["joint"]
        elif entry.kind in _TASK:
            self._joint = ""
            self._task = entry.body["task"] if entry.kind == "task-started" else ""

    def stop(self) -> None:
        """The work stops here."""
        self._stopped = (self._joint, self._task)

    def ended_by(self, entry: Entry) -> bool:
        """Whether an act on the engine goes on with what was stopped."""
        joint, task = self._stopped
        if entry.kind in _TASK:
            return entry.body["task"] == task if joint or task else True
        return entry.kind in _JOINT and entry.body["joint"] == joint if joint else True
