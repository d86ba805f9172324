"""What the long pages need besides their answers: how many of each verdict, and citations that lead to their page."""

import re
from collections import Counter
from collections.abc import Iterable
from functools import lru_cache
from urllib.parse import urlencode

from gudgeon.web.commands import Piece

_WORST_FIRST = ("outside", "in doubt", "not measured", "inside")
_NUMBERED = re.compile(r"\b(pp?\.|pages?|tables?|fig(?:ure|\.)s?|sections?) (?=\d)")
_PAGE = r"(?:pp?\.|pages?|tables?|fig(?:ure|\.)s?|sections?|§) ?\w[\w.–-]*"


def tally(verdicts: Iterable[str]) -> list[tuple[str, int]]:
    """How many of each verdict, the worst first; what is no verdict is not counted.

    Example:
        >>> tally(["inside", "in doubt: the gauge", "", "inside"])
        [('in doubt', 1), ('inside', 2)]
    """
    counts = Counter(next((word for word in _WORST_FIRST if one.startswith(word)), "") for one in verdicts)
    return [(word, counts[word]) for word in _WORST_FIRST if counts[word]]


def told_often(texts: Iterable[str], *, most: int = 2) -> str:
    """What a list says most often, with its number where it is more than one: the summary of a folded list.

    Example:
        >>> told_often(["no clamp", "not judged", "not judged", "not shown"])
        'not judged (2); no clamp; …'
    """
    counts = Counter(texts).most_common()
    said = "; ".join(f"{text} ({count})" if count > 1 else text for text, count in counts[:most])
    return f"{said}; …" if len(counts) > most else said


def citations(text: str, sources: Iterable[str]) -> tuple[Piece, ...]:
    """A text with each citation of a page turned into a link to that page of the source.

    Example:
        >>> [one.address for one in citations("limit: manual p. 58", ("manual",))]
        ['', '/sheet/source/manual?page=p.+58']
    """
    keys = tuple(sources)
    if not keys:
        return (Piece(text),) if text else ()
    found, start = [], 0
    for match in _cited(keys).finditer(text):
        page = match["page"].rstrip(".–-")
        address = f"/sheet/source/{match['key']}?{urlencode({'page': page})}"
        end = match.start() + len(match["key"]) + 1 + len(page)
        found += [Piece(text[start : match.start()]), Piece(text[match.start() : end], address)]
        start = end
    return tuple(piece for piece in (*found, Piece(text[start:])) if piece.text)


def unbroken(text: str) -> str:
    """A text whose numbers of pages stay on the line of their `p.`.

    Example:
        >>> unbroken("(manual p. 41)") == "(manual p.\N{NO-BREAK SPACE}41)"
        True
    """
    return _NUMBERED.sub("\\1\N{NO-BREAK SPACE}", text)


@lru_cache(maxsize=16)
def _cited(keys: tuple[str, ...]) -> re.Pattern[str]:
    names = "|".join(re.escape(key) for key in sorted(keys, key=len, reverse=True))
    return re.compile(rf"\b(?P<key>{names}) (?P<page>{_PAGE})")
