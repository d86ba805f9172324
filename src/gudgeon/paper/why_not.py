"""Why it may not be started yet: the list that goes round the engine with a pencil."""

from collections.abc import Iterable
from typing import Any

from gudgeon.bench.ready import Readiness
from gudgeon.bench.reason import DUE, WORDS, Reason
from gudgeon.paper.press import press
from gudgeon.paper.words import dated, page_words, without_commands


def why_not_pdf(readiness: Readiness, *, size: str) -> bytes:
    """The reasons why not, and what is due later, on paper."""
    return press("why_not.typ", why_not_data(readiness), size=size, dated_as=dated(readiness.heading))


def why_not_data(readiness: Readiness) -> dict[str, Any]:
    """Everything that stands on the list, in the order in which it stands there."""
    question = f"May I {readiness.milestone_words}?"
    open_things = len(readiness.reasons)
    things = "1 thing is" if open_things == 1 else f"{open_things} things are"
    return {
        "page": page_words(readiness.heading, about=question),
        "question": question,
        "answer": readiness.answer,
        "count": f"{things} open before it." if open_things else "Nothing that is due before it is open.",
        "cautions": list(readiness.cautions),
        "families": [
            {"name": name, "count": _count(reasons), "reasons": reasons}
            for name, reasons in _grouped(readiness.reasons, "family")
        ],
        "later": [
            {
                "before": f"Before you {WORDS[due]}" if due in WORDS else f"At the {due}",
                "count": _count(reasons),
                "reasons": reasons,
            }
            for due, reasons in sorted(
                _grouped(readiness.later, "due_before"), key=lambda one: DUE.index(one[0])
            )
        ],
        "accepted": [*readiness.accepted, *(f"Let pass earlier: {text}" for text in readiness.earlier)],
        "aside": [without_commands(text) for text in readiness.aside],
    }


def _grouped(reasons: Iterable[Reason], by: str) -> list[tuple[str, list[dict[str, Any]]]]:
    """Reasons that belong together, in the order in which they were found."""
    groups: dict[str, list[dict[str, Any]]] = {}
    for reason in reasons:
        groups.setdefault(getattr(reason, by), []).append(_reason(reason))
    return list(groups.items())


def _count(reasons: list[dict[str, Any]]) -> int:
    """How many boxes there are to tick: the members of a group one by one."""
    return sum(len(reason["items"]) or 1 for reason in reasons)


def _reason(reason: Reason) -> dict[str, Any]:
    """One line of the list; the members of a group are ticked one by one, so they are not said twice."""
    return {
        "what": reason.what,
        "why": reason.why.removesuffix(f": {', '.join(reason.items)}") if reason.items else reason.why,
        "how": reason.how,
        "value": reason.value,
        "items": list(reason.items),
    }
