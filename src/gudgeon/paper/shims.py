"""Which shim goes where, to take to the bench: what each place gets, and the moves to tick off."""

from typing import Any

from gudgeon.bench.shims.model import ShimAnswer
from gudgeon.paper.press import press
from gudgeon.paper.words import dated, page_words, without_commands, without_keys


def shims_pdf(answer: ShimAnswer, *, size: str) -> bytes:
    """The shims on paper."""
    return press("shims.typ", shims_data(answer), size=size, dated_as=dated(answer.heading))


def shims_data(answer: ShimAnswer) -> dict[str, Any]:
    """Everything that stands on the list, in the order in which it stands there."""
    return {
        "page": page_words(answer.heading, about="Shims"),
        "question": answer.heading.question,
        "said": without_commands(answer.said),
        "again": [without_commands(text) for text in answer.measure_again],
        "remarks": [without_commands(text) for text in answer.remarks],
        "never": [
            f"{one.valve}: {one.words}: {one.nearest}, then {one.result}. {one.hint}".rstrip()
            for one in answer.never
        ],
        "work": [
            {"title": run.title, "steps": [{"number": one.number, "words": one.words} for one in run.steps]}
            for run in answer.work
        ],
        "valves": [
            {
                "name": ", ".join(filter(None, (one.side, one.place))),
                "found": one.found,
                "shim": one.shim,
                "fitted": one.fitted,
                "from": one.comes_from,
                "moved": one.moved,
                "result": one.result,
                "verdict": one.verdict,
            }
            for one in answer.valves
        ],
        "screws": [
            {
                "name": ", ".join(filter(None, (one.side, one.place))),
                "found": one.found,
                "wanted": one.wanted,
                "now": one.now,
                "set": one.change,
            }
            for one in answer.screws
        ],
        "shopping": [
            f"{one.count} × {one.size}"
            + (f", {one.each} each" if one.each else "")
            + f": {'; '.join(one.goes_to)}"
            for one in answer.shopping
        ],
        "money": answer.money,
        "stock": [f"{one.size}: {one.now} now, {one.after} afterwards" for one in answer.stock]
        if answer.work
        else [],
        "proof": answer.proof,
        "aims": [f"{what}: {value}" for what, value in answer.aims],
        "missing": [without_keys(f"{one.missing}: {one.therefore}") for one in answer.missing],
        "taken": list(answer.taken),
        "sources": list(answer.sources),
    }
