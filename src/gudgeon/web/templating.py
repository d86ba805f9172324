"""The templates: text is escaped, and a name that is not there is an error, never a blank."""

import uuid
from functools import lru_cache
from hashlib import sha256
from importlib import resources

from jinja2 import Environment, PackageLoader, StrictUndefined

from gudgeon import __version__
from gudgeon.bench.answer import RULES
from gudgeon.web.commands import pieces
from gudgeon.web.shapes import shape_of
from gudgeon.web.wording import (
    CLOSINGS,
    adds,
    choice_words,
    due_words,
    label_of,
    milestone,
    outcome_words,
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
    ("/start", "May I start it?"),
    ("/running", "Does it run right?"),
    ("/open", "What is open?"),
    ("/done", "What was done?"),
    ("/record", "Record"),
    ("/photos", "Photos"),
    ("/sheet", "Data sheet"),
    ("/kit", "Kit"),
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
    )
    return made


@lru_cache(maxsize=32)
def static(name: str) -> str:
    """The address of a file of ours, with a mark of its content: a new style is never hidden by an old one."""
    content = resources.files("gudgeon.web").joinpath("static", name).read_bytes()
    return f"/static/{name}?{sha256(content).hexdigest()[:8]}"


def new_id() -> str:
    """An id for an entry, made by the page, so that a form sent twice counts once."""
    return uuid.uuid4().hex
