"""Recording: a fact is checked for sense, never for permission, and kept with what was shown."""

import getpass
import os
import platform
import uuid
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from difflib import get_close_matches
from typing import Any

from gudgeon.bench.bodies import body
from gudgeon.bench.bodies import joint as joint_of
from gudgeon.bench.context import Bench, Papers, Writer, entries_of, entry_of, state_after
from gudgeon.bench.doing import Known, of_entry
from gudgeon.bench.entries import TASK_KINDS, entry_words, item_names
from gudgeon.bench.errors import AlreadyOpen, NotOpen, StruckBefore, Unknown
from gudgeon.bench.meanwhile import remarks_on_others
from gudgeon.bench.network import tasks_left_out, tasks_of
from gudgeon.bench.passing import inspected_fields, override_fields
from gudgeon.bench.plan_errors import LeftOut
from gudgeon.bench.plan_fields import KINDS as OF_THE_PLAN
from gudgeon.bench.plan_fields import check_plan, plan_fields
from gudgeon.bench.remarks import remarks_on
from gudgeon.bench.said_fields import said_fields
from gudgeon.bench.sent_before import ids_before, sent_before
from gudgeon.bench.standing import meant
from gudgeon.bench.stops import looked_fields, stop_fields
from gudgeon.bench.what_is_accepted import what_is_accepted
from gudgeon.bench.which_item import CLOSES, which_item
from gudgeon.book.entries import Draft, Entry
from gudgeon.book.errors import SameIdOtherContent
from gudgeon.book.state import State
from gudgeon.book.store import Appended


@dataclass(frozen=True, slots=True)
class Recorded:
    """What was written into the book, and what is to be said about it."""

    entry: str
    kind: str
    said: str
    remarks: tuple[str, ...]


OPENS = {
    "provisional-made": ("provisional", "provisional"),
    "left-in": ("left_in", "left in"),
    "plugged": ("plugged", "plugged"),
    "taken-off": ("left_over", "off the engine"),
}


def find_task(bench: Bench, said: str) -> str:
    """The task of this engine's job that is meant by its key or by words of its title that fit only one."""
    tasks = {one.key: one for one in tasks_of(bench.sheet, bench.state)}
    found = meant(said, tasks)
    if len(found) == 1:
        return found[0]
    out = tasks_left_out(bench.sheet, bench.state)
    if not found and (gone := meant(said, out)):
        raise LeftOut(out[gone[0]].title)
    near = found or get_close_matches(said, [one.title for one in tasks.values()], n=4, cutoff=0.3)
    named = [f"“{tasks[one].title if one in tasks else one}”" for one in near[:6]]
    raise Unknown(
        "task (by words of its title that fit only one; all of them: gudgeon now --all)", said, named
    )


def who() -> str:
    """Who writes: GUDGEON_WHO, else the login name."""
    named = os.environ.get("GUDGEON_WHO", "").strip()
    if named:
        return named
    try:
        return getpass.getuser()
    except (KeyError, OSError, ImportError):
        return "unknown"


def writer_here() -> Writer:
    """Whoever sits at this machine."""
    return Writer(who(), platform.node() or "unknown")


def draft(
    papers: Papers,
    *,
    build: str,
    kind: str,
    fields: Mapping[str, Any],
    at: datetime,
    basis: str,
    by: Writer,
    known: Known,
    entry_id: str = "",
) -> Draft:
    """An entry to be, with the sheet and the kit it is made against, and what it does to the engine."""
    made = body(papers.sheet, papers.kit, kind=kind, fields=fields, job=known.job)
    doing = of_entry(papers.sheet, known, kind=kind, fields=made)
    return Draft(
        id=entry_id or uuid.uuid4().hex,
        kind=kind,
        body={**made, "doing": doing} if doing is not None else made,
        build=build,
        who=by.who,
        device=by.device,
        device_time=at.isoformat(timespec="seconds"),
        basis=basis,
        sheet=papers.sheet_sha,
        kit=papers.kit_sha,
    )


def record(
    bench: Bench,
    kind: str,
    fields: Mapping[str, Any],
    *,
    entry_id: str | None = None,
    basis: str | None = None,
) -> Recorded:
    """Write one entry; it is on disk when this returns.

    A sender who may send it twice makes its id: then it counts once. `basis` is the head that the
    sender had seen, where that is not the one of this bench.
    """
    made = _drafted(bench, kind, fields, entry_id=entry_id or "", basis=basis)
    _pin(bench)
    return _recorded(bench, _append(bench, made))


def record_many(
    bench: Bench,
    entries: Sequence[tuple[str, Mapping[str, Any]]],
    *,
    entry_id: str | None = None,
    basis: str | None = None,
) -> Recorded:
    """Write several entries that belong together, all of them or none; the answer is that of the last one.

    `entry_id` is the id of the last one, and those of the others follow from it: sent twice they count once.
    """
    *before, (kind, fields) = entries
    if _in_the_book(bench, entry_id) is not None:
        again = record(bench, kind, fields, entry_id=entry_id, basis=basis)
        ids = [*ids_before(again.entry, len(before)), again.entry]
        return replace(again, remarks=sent_before(bench, state_after(bench), ids=ids))
    last = entry_id or uuid.uuid4().hex
    drafts = [
        _drafted(bench, one, said, entry_id=own, basis=basis)
        for own, (one, said) in zip(ids_before(last, len(before)), before, strict=True)
    ]
    drafts.append(_drafted(bench, kind, fields, entry_id=last, basis=basis))
    _pin(bench)
    done = bench.store.append_many(_stacked(drafts))[-1]
    own = {one.id for one in drafts}
    return _recorded(bench, replace(done, since=tuple(one for one in done.since if one.id not in own)))


def _stacked(drafts: Sequence[Draft]) -> list[Draft]:
    """Each stands on the one before it: what was seen is said by the first, and by what stands on photos alone."""
    first = next((place for place, one in enumerate(drafts) if one.kind != "photo"), 0)
    return [*drafts[: first + 1], *(replace(one, basis="") for one in drafts[first + 1 :])]


def _drafted(bench: Bench, kind: str, said: Mapping[str, Any], *, entry_id: str, basis: str | None) -> Draft:
    fields = _resolved(bench, kind, {name: _stripped(name, value) for name, value in said.items()})
    if _in_the_book(bench, entry_id) is None:  # what was sent before may have closed what it names
        _check(bench, kind, fields)
    return draft(
        bench.papers,
        build=bench.build,
        kind=kind,
        fields=fields,
        at=bench.now,
        basis=bench.state.head if basis is None else basis,
        by=bench.writer or writer_here(),
        known=Known.of(bench.state),
        entry_id=entry_id,
    )


def _pin(bench: Bench) -> None:
    bench.store.put_document(bench.papers.sheet_text, kind="sheet")
    bench.store.put_document(bench.papers.kit_text, kind="kit")


def _recorded(bench: Bench, done: Appended) -> Recorded:
    """What the book now holds, and what is to be said about it."""
    entry, after = done.entry, state_after(bench)
    if done.already:
        return Recorded(entry.id, entry.kind, _words(bench, entry), sent_before(bench, after, ids=[entry.id]))
    remarks = remarks_on_others(bench, entry, done.since)
    return Recorded(entry.id, entry.kind, _words(bench, entry), (*remarks_on(bench, entry, after), *remarks))


def _in_the_book(bench: Bench, entry_id: str | None) -> Entry | None:
    if not entry_id:
        return None
    return entry_of(bench, entry_id)


def _append(bench: Bench, made: Draft) -> Appended:
    """Add it. The same fact sent again is no other fact for being sent later; another one under its id is refused.

    What it did to the engine was said when it was sent first.
    """
    try:
        return bench.store.append(made)
    except SameIdOtherContent:
        known = _in_the_book(bench, made.id)
        if known is None:
            raise
        return bench.store.append(
            replace(
                made,
                body={**made.body, **{name: known.body[name] for name in ("doing",) if name in known.body}},
                who=known.who,
                device=known.device,
                device_time=known.device_time,
                sheet=known.sheet,
                kit=known.kit,
            )
        )


def _stripped(name: str, value: Any) -> Any:
    """A short name without the blanks around it, as it is kept: what is checked is what stands in the book."""
    return value.strip() if name in ("item", "timer", "part") and isinstance(value, str) else value


def _resolved(bench: Bench, kind: str, fields: Mapping[str, Any]) -> dict[str, Any]:
    """What a person says, as the book keeps it: who is named in words is found, and what he may leave out is filled."""
    if kind in TASK_KINDS:
        return {**fields, "task": find_task(bench, str(fields["task"]))}
    if kind == "paused":
        return stop_fields(bench, fields)
    if kind == "looked":
        looked = looked_fields(bench, fields)
        return {**looked, "entry": find_entry(bench, str(looked["entry"]))}
    if kind == "inspected":
        return inspected_fields(bench, {**fields, "entry": find_entry(bench, str(fields["entry"]))})
    if kind == "override" and "shown" not in fields:
        return override_fields(bench, fields)
    if kind == "accepted":
        return {**fields, "what": what_is_accepted(bench, str(fields["what"]))}
    if kind in OF_THE_PLAN:
        return plan_fields(bench, kind, fields, find_task=find_task)
    fields = said_fields(bench, kind, fields, find_task=find_task)
    if kind in CLOSES:
        return {**fields, "item": which_item(bench, kind, said=str(fields["item"]))}
    return dict(fields)


def _check(bench: Bench, kind: str, fields: Mapping[str, Any]) -> None:
    """What makes no sense against the lists as they stand."""
    state = bench.state
    if kind in CLOSES:
        name, words = CLOSES[kind]
        items = getattr(state, name)
        if fields["item"] not in items:
            raise NotOpen(words, str(fields["item"]), items)
    if kind in OPENS:
        name, words = OPENS[kind]
        if fields["item"] in getattr(state, name):
            raise AlreadyOpen(words, str(fields["item"]))
    if kind == "provisional-made" and fields.get("joint") is not None:
        joint_of(bench.sheet, fields["joint"])
    if kind == "timer-ended" and fields["timer"] not in running(state):
        raise NotOpen("running", str(fields["timer"]), running(state))
    if kind == "shop-back":
        away = [part for part, one in state.shop.items() if not one.back]
        if fields["part"] not in away:
            raise NotOpen("at the shop", str(fields["part"]), away)
    if kind == "strike" and fields["entry"] in state.struck:
        target, struck = entry_of(bench, fields["entry"]), state.struck[fields["entry"]]
        raise StruckBefore(target.number if target else 0, by=struck.who, why=struck.why)
    if kind in OF_THE_PLAN:
        check_plan(bench, kind, fields)


def running(state: State) -> tuple[str, ...]:
    """The waits that nobody has ended by his word."""
    return tuple(key for key, timer in state.timers.items() if not timer.ended)


def find_entry(bench: Bench, said: str) -> str:
    """The whole id of an entry that is named by its beginning or its number."""
    entries = entries_of(bench)
    found = [one.id for one in entries if str(one.number) == said]
    found = found or [one.id for one in entries if said and one.id.startswith(said)]
    if len(found) != 1:
        near = [one.id[:8] for one in entries if one.id in found] or [one.id[:8] for one in entries[-5:]]
        raise Unknown("entry (by its number, or the first letters of its id)", said, near)
    return found[0]


def _words(bench: Bench, entry: Entry) -> str:
    """One line that says what the book now holds."""
    names = item_names(entries_of(bench))
    struck = entry_of(bench, entry.body["entry"]) if entry.kind == "strike" else None
    if struck is not None:
        return f"struck entry {struck.number}: {entry_words(bench, struck, names=names)}"
    return entry_words(bench, entry, names=names)
