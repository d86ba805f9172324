"""What is said at once of what becomes of a part: which limits it settles, or that the sheet knows no such part."""

from collections.abc import Iterator

from gudgeon.bench.context import Bench
from gudgeon.bench.judging.acceptance import part_names
from gudgeon.book.entries import Entry
from gudgeon.book.state import State

MOST = 6


def part_remarks(bench: Bench, entry: Entry, _after: State) -> Iterator[str]:
    """What a decision about a part settles, in a sentence."""
    said, sheet = str(entry.body["part"]), bench.sheet
    if entry.body.get("joint"):
        return
    named = [key for key in sheet.characteristics if said.lower() in part_names(sheet, key)]
    listed = {key.lower() for key in sheet.parts} | {one.name.lower() for one in sheet.parts.values()}
    if not named and said.lower() not in listed and not _a_joint(bench, said):
        parts = dict.fromkeys(
            (
                *(one.part for one in sheet.characteristics.values()),
                *(one.name for one in sheet.parts.values()),
            )
        )
        known = ", ".join(f"“{one}”" for one in list(parts)[:MOST]) + (
            " and others" if len(parts) > MOST else ""
        )
        yield (
            f"The sheet has no part called “{said}”, so no limit is settled by it. Its parts: {known or 'none'}. If "
            f"one of them was meant: gudgeon strike {entry.number} --why …"
        )
    elif named and entry.body["decision"] in ("renew", "accept"):
        names = [sheet.characteristics[key].name for key in named]
        more = f" and {len(names) - MOST} more" if len(names) > MOST else ""
        yield f"It settles what is outside until now of: {', '.join(names[:MOST])}{more}."


def _a_joint(bench: Bench, said: str) -> bool:
    """Whether it is the fasteners of a joint."""
    return any(said.lower() in (key.lower(), one.name.lower()) for key, one in bench.sheet.joints.items())
