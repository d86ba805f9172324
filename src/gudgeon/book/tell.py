"""How long work says how far it is."""

from collections.abc import Callable
from typing import TypeAlias

Tell: TypeAlias = Callable[[str], None]
"""Takes a few words on what is being done now."""


def silent(words: str) -> None:
    """For whoever does not want to hear it."""
