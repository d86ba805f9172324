"""What turns the camshafts, by its name: a chain is called a chain, in whatever words a belt was thought of."""

import re

_INSTEAD = (
    (r"\bmarked tooth\b", "marked link"),
    (r"\bmarked teeth\b", "marked links"),
    (r"\bbelt\b", "chain"),
    (r"\bBelt\b", "Chain"),
)
_OF_GEARS = (
    (
        r"\bthe belt may jump a tooth at the slack side\b",
        "the play between the gears would show the marks off",
    ),
    (r"\bthe belt comes off\b", "the gears come off"),
    (r"\bbelt\b", "gears"),
    (r"\bBelt\b", "Gears"),
)


def thing(kind: str) -> str:
    """`belt`, `chain` or `gears`."""
    return kind.removeprefix("timing ")


def worded(text: str, *, kind: str) -> str:
    """Words that speak of a belt, for a drive of this kind; what stands in backticks is typed so, and stays."""
    instead = {"timing chain": _INSTEAD, "timing gears": _OF_GEARS}.get(kind, ())
    pieces = text.split("`")
    for place in range(0, len(pieces), 2):
        for pattern, word in instead:
            pieces[place] = re.sub(pattern, word, pieces[place])
    return "`".join(pieces)
