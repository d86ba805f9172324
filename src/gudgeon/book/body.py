"""What bodies are made of: the base that all keep to, and the types of their fields."""

import re
from datetime import datetime
from decimal import Decimal
from typing import Annotated, Literal

from pydantic import AfterValidator, BaseModel, ConfigDict, Field, StringConstraints

_DECIMAL = re.compile(r"[+-]?\d{1,30}(\.\d{1,30})?([eE][+-]?\d{1,2})?", re.ASCII)
_TICKS = frozenset(("ok", "okay", "yes", "y", "done", "good", "fine", "x", "checked", "true", "✓", "✔"))
_AROUND_TICKS = frozenset(("all", "is", "it", "its", "looks", "very", "was", "everything"))
_NOT = frozenset((
    "no", "nope", "none", "not", "nothing", "nil", "never", "yet", "n", "na", "n/a", "unknown", "later", "tbd",
    "todo", "isn't", "wasn't", "didn't", "don't",
))  # fmt: skip
_AROUND_NOT = frozenset((
    "seen", "found", "looked", "measured", "tested", "proved", "known", "there", "did", "do", "i", "at", "for",
    "now", "this",
))  # fmt: skip


def _plain_decimal(text: str) -> str:
    """A decimal without an exponent, its last digit kept: 0.050 says more than 0.05."""
    if not _DECIMAL.fullmatch(text):
        raise ValueError("a decimal number was expected, like 0.05")
    return format(Decimal(text), "f")


def _time_with_offset(text: str) -> str:
    """A moment that means the same everywhere; the years keep room for every wait that can be started."""
    try:
        moment = datetime.fromisoformat(text)
    except ValueError:
        raise ValueError("a time as ISO 8601 was expected, like 2026-03-07T10:00:00+01:00") from None
    if moment.tzinfo is None:
        raise ValueError("the time has no offset from UTC")
    if not 1970 <= moment.year < 3000:
        raise ValueError("the year is not between 1970 and 2999; set the clock of the device")
    return text


Said = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1, max_length=20_000)]
Name = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1, max_length=300)]
Remark = Annotated[str, StringConstraints(max_length=20_000)]
Number = Annotated[str, AfterValidator(_plain_decimal)]
Ordinal = Annotated[int, Field(ge=1, le=10_000)]
EntryId = Annotated[str, StringConstraints(pattern="^[0-9a-f]{32}$")]
Hash = Annotated[str, StringConstraints(pattern="^([0-9a-f]{64})?$")]
RestsOn = Annotated[str, StringConstraints(pattern=r"^(joint|hold|state|part|under):\S.*$", max_length=300)]
"""What a proof rests on: a joint as it is pulled, another proof, the engine as it stands, a part that is here, or
`under` a joint: what that joint hides, and what has to be seen again when it was opened."""
Time = Annotated[str, AfterValidator(_time_with_offset)]
Due = Literal["crank", "fire", "drive", "handover"]
DueLater = Literal["crank", "fire", "drive", "handover", "recall"]
"""A wait may also be due at the recall, after the car has been handed over: it is listed, and stops nothing."""
PhotoSha = Annotated[str, StringConstraints(pattern="^[0-9a-f]{64}$")]
About = Annotated[
    str,
    StringConstraints(
        pattern=r"^(joint|hold|task|item|part|entry|gate|engine|reading|breach|timer|counted):\S.*$",
        max_length=300,
    ),
]
"""What a photo shows or an override is about, by its family and its key."""


def seen(text: str) -> str:
    """What was seen; a bare tick says nothing of the engine, and a bare no proves nothing."""
    if _says_no(text):
        raise ValueError(f"`{text}` proves nothing; write what was seen")
    if _says_nothing(text):
        raise ValueError(f"`{text}` is a bare tick; write the value that was seen")
    return text


def _reason(text: str) -> str:
    if _says_nothing(text) or all(word in _NOT for word in _words(text)):  # `not done` is a reason to strike
        raise ValueError(f"`{text}` is no reason; write why in words")
    return text


def _says_nothing(text: str) -> bool:
    """Whether a text has no word but those of somebody who nods."""
    words = re.findall(r"\w+|[✓✔]", text.lower())
    return all(word in _TICKS or word in _AROUND_TICKS for word in words)


def _says_no(text: str) -> bool:
    """Whether a text only says that there is nothing yet; `no leak at 1.2 bar` says more."""
    words = _words(text)
    around = _AROUND_NOT | _TICKS | _AROUND_TICKS
    return any(word in _NOT for word in words) and all(word in _NOT or word in around for word in words)


def _words(text: str) -> list[str]:
    return re.findall(r"n/a|[\w'’]+", text.lower().replace("’", "'"))


Seen = Annotated[Said, AfterValidator(seen)]
Reason = Annotated[Said, AfterValidator(_reason)]


class Body(BaseModel):
    """What every body keeps to."""

    model_config = ConfigDict(extra="forbid", strict=True)
