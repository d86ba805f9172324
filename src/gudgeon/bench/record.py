"""Recording: a fact is checked for sense, never for permission, and kept with what was shown."""

import getpass
import os
import platform
import uuid
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from gudgeon.bench.bodies import body
from gudgeon.bench.context import Bench, Papers
from gudgeon.bench.errors import AlreadyOpen, NotOpen, Unknown
from gudgeon.bench.holds import all_holds, standings
from gudgeon.bench.progress import progress
from gudgeon.book.entries import Draft
from gudgeon.book.state import State


@dataclass(frozen=True, slots=True)
class Recorded:
    """What was written into the book, and what is to be said about it."""

    entry: str
    kind: str
    said: str
    remarks: tuple[str, ...]


CLOSES = {
    "provisional-cleared": ("provisional", "provisional"),
    "taken-out": ("left_in", "left in"),
    "opened": ("plugged", "plugged"),
    "refitted": ("left_over", "off the engine"),
}
OPENS = {
    "provisional-made": ("provisional", "provisional"),
    "left-in": ("left_in", "left in"),
    "plugged": ("plugged", "plugged"),
    "taken-off": ("left_over", "off the engine"),
}


def who() -> str:
    """Who writes: GUDGEON_WHO, else the login name."""
    named = os.environ.get("GUDGEON_WHO", "").strip()
    if named:
        return named
    try:
        return getpass.getuser()
    except (KeyError, OSError, ImportError):
        return "unknown"


def draft(
    papers: Papers, *, build: str, kind: str, fields: Mapping[str, Any], at: datetime, basis: str, by: str
) -> Draft:
    """An entry to be, with the sheet and the kit it is made against."""
    return Draft(
        id=uuid.uuid4().hex,
        kind=kind,
        body=body(papers.sheet, papers.kit, kind=kind, fields=fields),
        build=build,
        who=by,
        device=platform.node() or "unknown",
        device_time=at.isoformat(timespec="seconds"),
        basis=basis,
        sheet=papers.sheet_sha,
        kit=papers.kit_sha,
    )


def record(bench: Bench, kind: str, fields: Mapping[str, Any]) -> Recorded:
    """Write one entry; it is on disk when this returns."""
    _check(bench.state, kind, fields)
    made = draft(
        bench.papers,
        build=bench.build,
        kind=kind,
        fields=fields,
        at=bench.now,
        basis=bench.state.head,
        by=who(),
    )
    bench.store.put_document(bench.papers.sheet_text, kind="sheet")
    bench.store.put_document(bench.papers.kit_text, kind="kit")
    done = bench.store.append(made)
    remarks = [f"Since you looked, the book got {one.kind} by {one.who}." for one in done.since]
    return Recorded(
        done.entry.id, kind, _words(bench, kind, made.body), (*_remarks(bench, kind, made.body), *remarks)
    )


def _check(state: State, kind: str, fields: Mapping[str, Any]) -> None:
    """What makes no sense against the lists as they stand."""
    if kind in CLOSES:
        name, words = CLOSES[kind]
        items = getattr(state, name)
        if fields["item"] not in items:
            raise NotOpen(words, str(fields["item"]), items)
    if kind in OPENS:
        name, words = OPENS[kind]
        if fields["item"] in getattr(state, name):
            raise AlreadyOpen(words, str(fields["item"]))
    if kind == "timer-ended" and fields["timer"] not in state.timers:
        raise NotOpen("running", str(fields["timer"]), state.timers)
    if kind == "shop-back" and fields["part"] not in state.shop:
        raise NotOpen("at the shop", str(fields["part"]), state.shop)


def find_entry(bench: Bench, said: str) -> str:
    """The whole id of an entry that is named by its beginning or its number."""
    entries = list(bench.store.entries(bench.build))
    found = [one.id for one in entries if str(one.number) == said]
    found = found or [one.id for one in entries if said and one.id.startswith(said)]
    if len(found) != 1:
        near = [one.id[:8] for one in entries if one.id in found] or [one.id[:8] for one in entries[-5:]]
        raise Unknown("entry (by its number, or the first letters of its id)", said, near)
    return found[0]


def _words(bench: Bench, kind: str, made: Mapping[str, Any]) -> str:
    """One line that says what the book now holds."""
    if kind == "reading":
        item = bench.sheet.characteristics[made["item"]]
        value = made["value"] or f"{made['low'] or '0'} to {made['high'] or '…'}"
        return ", ".join(
            filter(None, [item.name, made["place"], f"{value} {made['unit']}", made["condition"]])
        )
    if kind == "pull":
        joint = bench.sheet.joints[made["joint"]]
        return f"{joint.name}: bolt {made['bolt']}, stage {made['shown']['stage']}, {made['outcome']}"
    if kind == "hold-proved":
        return f"{all_holds()[made['hold']].name}: {made['value']}"
    if kind == "identity-read":
        return f"engine code {made['code']}, {'matches the sheet' if made['matches'] else 'does not match the sheet'}"
    named = made.get("name") or made.get("item") or made.get("joint") or made.get("part") or made.get("text")
    return f"{kind.replace('-', ' ')}: {named or made.get('why') or made.get('timer') or ''}".rstrip(": ")


def _remarks(bench: Bench, kind: str, made: Mapping[str, Any]) -> tuple[str, ...]:
    """What a careful helper would say at once."""
    if kind == "pull":
        joint = bench.sheet.joints[made["joint"]]
        expected = progress(joint, bench.state.joints.get(made["joint"])).next
        if expected is not None and (expected.stage, expected.round, expected.bolt) != (
            made["stage"], made["round"], made["bolt"],
        ):  # fmt: skip
            return (
                f"This was not the next pull: bolt {expected.bolt}, stage {expected.stage} was. It is kept as it "
                "happened; the joint is in doubt until that pull is recorded or this one is struck.",
            )
        if made["outcome"] in ("doubtful", "stopped at"):
            return (
                joint.doubt or "The sheet gives no rule for a bolt in doubt: ask the manual before going on.",
            )
    if kind == "hold-proved":
        under = {one.hold.id: one for one in standings(bench.sheet, bench.state)}
        open_ones = [
            under[name].hold.name for name in all_holds()[made["hold"]].rests_on
            if name in under and not under[name].stands
        ]  # fmt: skip
        if open_ones:
            return (f"It does not stand yet: it rests on {'; '.join(open_ones)}.",)
    if kind == "identity-read" and not made["matches"] and not made["why_not"]:
        return ("Figures stay locked until you say why this sheet serves: --why REASON.",)
    return ()
