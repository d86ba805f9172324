"""The templates: text is escaped, and a name that is not there is an error, never a blank."""

import uuid
from functools import lru_cache
from hashlib import sha256
from importlib import resources

from jinja2 import Environment, PackageLoader, StrictUndefined

from gudgeon import __version__
from gudgeon.bench.answer import RULES
from gudgeon.web.commands import pieces
from gudgeon.web.folding import citations, tally, unbroken
from gudgeon.web.shapes import shape_of
from gudgeon.web.sheet_words import without_keys
from gudgeon.web.wording import (
    CLOSINGS,
    adds,
    choice_words,
    due_words,
    hint_of,
    label_of,
    milestone,
    outcome_words,
    quoted,
    shared_notes,
    shortened,
    timer_state,
    worded,
)

QUESTIONS = (
    ("/", "What do I do now?"),
    ("/good", "Is it good?"),
    ("/fits", "What fits where?"),
    ("/set", "What do I set?"),
    ("/cut", "What does the cut do?"),
    ("/timing", "Is it timed?"),
    ("/buy", "What do I buy?"),
    ("/when", "When will it run?"),
    ("/start", "May I start it?"),
    ("/running", "Does it run right?"),
    ("/open", "What is open?"),
    ("/done", "What was done?"),
    ("/record", "Record"),
    ("/photos", "Photos"),
    ("/sums", "Sums"),
    ("/sheet", "Data sheet"),
    ("/kit", "Kit"),
    ("/devices", "Devices"),
)
"""The pages in the order of the work; the questions in the words of the bench."""


@lru_cache(maxsize=1)
def environment() -> Environment:
    """The templates of the pages, compiled once."""
    made = Environment(
        loader=PackageLoader("gudgeon.web"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.globals.update(questions=QUESTIONS, rules=RULES, version=__version__, static=static)
    made.globals.update(tally=tally, citations=citations, unbroken=unbroken)
    made.globals.update(without_keys=without_keys)
    made.globals.update(shape_of=shape_of, new_id=new_id, pieces=pieces, closings=CLOSINGS)
    made.globals.update(
        shared_notes=shared_notes,
        milestone=milestone,
        due_words=due_words,
        timer_state=timer_state,
        worded=worded,
        label_of=label_of,
        outcome_words=outcome_words,
        choice_words=choice_words,
        shortened=shortened,
        adds=adds,
        hint_of=hint_of,
        quoted=quoted,
    )
    return made


def static(name: str) -> str:
    """The address of a file of ours, with a mark of its content: a new style is never hidden by an old one."""
    return f"/static/{name}?{mark_of(name)}"


@lru_cache(maxsize=64)
def mark_of(name: str) -> str:
    """What tells the content of a file of ours from any other that it had."""
    content = resources.files("gudgeon.web").joinpath("static", name).read_bytes()
    return sha256(content).hexdigest()[:8]


def new_id() -> str:
    """An id for an entry, made by the page, so that a form sent twice counts once."""
    return uuid.uuid4().hex
