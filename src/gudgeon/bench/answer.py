"""What every answer carries, and its stable shape as JSON."""

import dataclasses
from collections.abc import Mapping
from datetime import date, datetime
from decimal import Decimal
from typing import Any

NOTICE = "invented engine – not for any real one"
RULES = "The maker's current manual, local rules and licensed practice overrule this."


@dataclasses.dataclass(frozen=True, slots=True)
class Heading:
    """Which engine an answer is about, and what must be said with it.

    `head` is the head of the build's chain, so that what is printed can be matched to the book; `job` is what the job
    is called, as chosen in the book. `written` is the hour of the last entry: it dates a print, so that the same book
    gives the same print whenever it is asked.
    """

    question: str
    engine: str
    build: str
    notice: str
    asked: str
    sheet: str
    kit: str
    remarks: tuple[str, ...]
    head: str = ""
    job: str = ""
    written: str = ""


def plain(value: Any) -> Any:
    """A frozen answer as plain data for JSON; keys are the names of its fields."""
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return {field.name: plain(getattr(value, field.name)) for field in dataclasses.fields(value)}
    if isinstance(value, Mapping):
        return {str(key): plain(inner) for key, inner in value.items()}
    if isinstance(value, list | tuple | set | frozenset):
        return [plain(inner) for inner in value]
    if isinstance(value, datetime | date):
        return value.isoformat()
    if isinstance(value, Decimal):
        return str(value)
    if value is None or isinstance(value, str | int | float | bool):
        return value
    return str(value)
