"""The shape beside a state in words, so that a state is never told by color alone."""

_BY_WORD = {
    "inside": "full",
    "outside": "cross",
    "in doubt": "half",
    "not measured": "empty",
    "no limit given": "empty",
    "not started": "empty",
    "complete, not marked": "half",
    "complete": "full",
    "stage": "half",
    "snug": "half",
    "run in by hand": "half",
    "disturbed": "half",
    "being taken apart": "half",
    "not done": "half",
    "next": "arrow",
    "ready": "arrow",
    "running": "wait",
    "waiting": "wait",
    "blocked": "bar",
    "done": "full",
    "expected": "empty",
    "agreed": "half",
    "spent": "full",
    "declined": "cross",
    "clicked while turning": "full",
    "angle reached": "full",
    "clicked at once": "full",
    "stopped": "half",
    "doubtful": "half",
    "yes, with": "half",
    "yes": "full",
    "no": "cross",
    "struck": "cross",
    "open": "empty",
    "error": "cross",
    "doubt": "half",
    "note": "empty",
    "use again": "full",
    "renew": "cross",
    "not judged": "empty",
    "more than ordered": "cross",
    "not more than ordered": "full",
    "proved": "full",
    "even": "full",
    "askew": "cross",
    "leans": "half",
    "straighten first": "arrow",
    "to order": "arrow",
    "late": "cross",
    "ordered": "wait",
    "received": "half",
    "compared": "full",
    "fitted": "full",
    "rework": "arrow",
    "accept": "half",
    "reuse": "full",
    "not decided": "empty",
}
SHAPES = frozenset((*_BY_WORD.values(), "rule"))


def shape_of(state: str) -> str:
    """The shape of a state, by how its words begin: disc, cross, half disc, ring, arrow, hourglass, bar."""
    said = state.lower()
    if ": not done" in said:
        return "half"
    for words, shape in _BY_WORD.items():
        if said == words or said.startswith((f"{words} ", f"{words},", f"{words}:")):
            return shape
    return "empty"
