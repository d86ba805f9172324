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
    """A day and an hour in words that fit a list."""
    return moment.astimezone().strftime("%a %b %d, %H:%M")


def left(moment: datetime, *, now: datetime) -> str:
    """How long until a moment."""
    minutes = max(0, round((moment - now).total_seconds() / 60))
    hours, rest = divmod(minutes, 60)
    return f"{hours} h {rest:02d} min" if hours else f"{rest} min"


def since(text: str, *, now: datetime) -> str:
    """How long ago something was written down."""
    hours = (now - datetime.fromisoformat(text)).total_seconds() / 3600
    if hours < 1:
        return "less than an hour ago"
    return f"{hours:.0f} h ago" if hours < 48 else f"{hours / 24:.0f} days ago"
