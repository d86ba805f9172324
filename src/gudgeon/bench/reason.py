"""A reason why not: one thing that is open before a milestone, and times in the words of a list."""

from dataclasses import dataclass
from datetime import datetime

MILESTONES = ("crank", "fire", "drive", "handover")
DUE = (*MILESTONES, "recall")
"""What a thing is due before, in order; what is due at the recall stops nothing and is listed as due later."""
WORDS = {
    "crank": "turn it with the starter",
    "fire": "let it fire",
    "drive": "drive it",
    "handover": "hand it over",
}


@dataclass(frozen=True, slots=True)
class Reason:
    """One thing that is open, why, and what closes it.

    `close_with` is what to type; `how` says it in words for whoever stands at the engine, `value` what is
    to be written down, and `items` names the members of a group, each of which is closed by itself. `about` is what an
    override of it names, like `hold:timing_proved`; empty where nobody can let it pass.
    """

    family: str
    what: str
    why: str
    due_before: str
    close_with: str
    how: str = ""
    value: str = ""
    items: tuple[str, ...] = ()
    about: str = ""


def when(moment: datetime) -> str:
    """A day and an hour in words that fit a list, by the clock that showed it: told the same on every machine."""
    return moment.strftime("%a %b %d, %H:%M")


def here(moment: datetime) -> str:
    """The same by the clock of this machine, for what is still to come: a night of that clock may change it."""
    return when(moment.astimezone())


def written_at(text: str) -> str:
    """`2026-10-25 18:43`: the hour of an entry (ISO 8601), as the clock showed where it was written."""
    return datetime.fromisoformat(text).strftime("%Y-%m-%d %H:%M")


def left(moment: datetime, *, now: datetime) -> str:
    """How long until a moment."""
    minutes = max(0, round((moment - now).total_seconds() / 60))
    hours, rest = divmod(minutes, 60)
    return f"{hours} h {rest:02d} min" if hours else f"{rest} min"
