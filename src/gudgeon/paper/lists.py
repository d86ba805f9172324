"""The four open lists and the counts on paper, with blank rows for what is not in the book yet."""

from collections.abc import Iterable
from typing import Any

from gudgeon.bench.on_paper.counts_sheet import ListsAndCounts, ToCount
from gudgeon.bench.open_lists import NO_PLACE, Item
from gudgeon.bench.reason import WORDS
from gudgeon.paper.press import press
from gudgeon.paper.words import dated, page_words

BLANK = 4
"""So many rows at least are left to write in at the end of each table."""
ROWS = {"left over": 22}
USUAL_ROWS = 8
"""So many rows an open list has in all, so that a blank book has room for a strip."""


def lists_pdf(answer: ListsAndCounts, *, size: str) -> bytes:
    """The open lists and the counts on paper."""
    return press("lists.typ", lists_data(answer), size=size, dated_as=dated(answer.heading))


def lists_data(answer: ListsAndCounts) -> dict[str, Any]:
    """Everything that stands on lists and counts, in their order."""
    count = sum(len(one.items) for one in answer.lists)
    return {
        "page": page_words(answer.heading, about="What is open"),
        "counts_page": page_words(answer.heading, about="Counts"),
        "state": f"{answer.job}: {count} open when printed",
        "counts_state": f"{answer.job}: off and on",
        "blank": BLANK,
        "lists": [
            {
                "name": f"{one.name[0].upper()}{one.name[1:]}",
                "meaning": one.meaning,
                "blank": max(BLANK, ROWS.get(one.name, USUAL_ROWS) - len(one.items)),
                "items": [_item(item) for item in one.items],
            }
            for one in answer.lists
        ],
        "fasteners": _counts(answer.fasteners),
        "bags": _counts(answer.bags),
        "kinds": _counts(answer.kinds),
    }


def _item(item: Item) -> dict[str, str]:
    key, _, task = item.due.partition(": ")
    due = WORDS.get(key, key)
    return {
        "name": item.name,
        "place": "" if item.where == NO_PLACE else item.where,
        "why": item.why,
        "since": item.since,
        "due": f"{due} ({task})" if task else due,
    }


def _counts(rows: Iterable[ToCount]) -> list[dict[str, str]]:
    return [
        {
            "what": one.what,
            "sheet": one.by_sheet,
            "bag": one.bag,
            "off": one.off,
            "back": one.back,
            "off_in_book": one.off_in_book,
            "back_in_book": one.back_in_book,
            "look": one.look,
        }
        for one in rows
    ]
