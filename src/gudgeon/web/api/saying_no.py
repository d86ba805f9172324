"""What a program is told when something is refused or fails: one shape for everything under /api."""

import re
from collections.abc import Mapping

from starlette.responses import JSONResponse

_HUMP = re.compile(r"(?<!^)(?=[A-Z])")


def said_no(
    status: int,
    *,
    kind: str,
    message: str,
    where: str | None = None,
    headers: Mapping[str, str] | None = None,
) -> JSONResponse:
    """A refusal: a word for its cause that stays, the message for a person, and where it applies."""
    said = {"kind": kind, "message": message, "where": where}
    return JSONResponse({"error": said}, status, headers=headers)


def word_of(error: Exception) -> str:
    """The word for the cause of an error: the name of its class.

    Example:
        >>> word_of(KeyError())
        'key-error'
    """
    return _HUMP.sub("-", type(error).__name__).lower()


def is_for_programs(path: str) -> bool:
    """Whether an address belongs to the interface for programs."""
    return path == "/api" or path.startswith("/api/")
