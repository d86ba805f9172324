"""Whether a part that somebody names is the one that is meant by a word: `Cylinder head` is the `head`."""

import re

_BETWEEN = re.compile(r"[\s_,;:()/]+")
"""What stands between two words of a name: `Head, left` is a head."""


def words_for(said: str) -> frozenset[str]:
    """Every word by which a part may be meant that is named so; a `crankshaft` is a `crank`."""
    words = _BETWEEN.split(said.lower())
    return frozenset((*words, *(word.removesuffix("s").removesuffix("shaft") for word in words))) - {""}


def is_part(word: str, *, said: str) -> bool:
    """Whether a part that is named so is the one that is meant by a word."""
    return word in words_for(said)
