"""The card of a joint: what hangs on the engine while it is tightened, and is written on with a pencil."""

import re
from collections.abc import Iterable, Sequence
from itertools import islice
from typing import Any

from gudgeon.bench.progress import OUTCOMES
from gudgeon.bench.pull_list import JointCard, Pull, StageLine
from gudgeon.bench.scale_read import READ_KINDS
from gudgeon.paper.pattern import sketch
from gudgeon.paper.press import press
from gudgeon.paper.words import dated, page_words

MOST_COLUMNS = 9
"""So many stages stand side by side with room to write; more are continued in a table below."""


def card_pdf(card: JointCard, *, size: str) -> bytes:
    """One joint on paper."""
    return cards_pdf((card,), size=size)


def cards_pdf(cards: Sequence[JointCard], *, size: str) -> bytes:
    """Several joints in one file, each beginning on a page of its own and numbered by itself."""
    data = {"cards": [card_data(card) for card in cards]}
    return press("card.typ", data, size=size, dated_as=dated(cards[0].heading))


def card_data(card: JointCard) -> dict[str, Any]:
    """Everything that stands on the card, in the order in which it stands there."""
    rows = [place.bolt for place in card.places]
    return {
        "page": page_words(card.heading, about=card.name),
        "name": f"{card.name}: taken apart" if card.program == "loosening" else card.name,
        "state": card.state,
        "next": _next(card),
        "look_first": card.look_first,
        "provisional": card.provisional,
        "datums": [datum.words for datum in card.datums],
        "doubts": list(card.doubts),
        "in_doubt": list(card.in_doubt_lines) or list(filter(None, [card.in_doubt])),
        "held_back": _held_back(card),
        "left_out": card.figures_left_out,
        "facts": _facts(card),
        "parts": [list(one) for one in card.made_of],
        "before": list(card.before_work),
        "cautions": [*card.sealing, *card.cautions],
        "sketch": sketch(card.places, viewed_from=card.viewed_from, free_order=card.free_order),
        "free_order": card.free_order,
        "places": _places(card),
        "stages": [_stage(card, stage) for stage in card.stages],
        "with_tools": _with_tools(card.stages),
        "grids": [_grid(card, columns, rows) for columns in _in_groups(_columns(card), MOST_COLUMNS)],
        "outcomes": _outcomes(card),
        "sources": list(card.sources) or ["none stated"],
        "called": card.called,
    }


def _facts(card: JointCard) -> list[list[str]]:
    threads = dict.fromkeys(place.thread for place in card.places if place.thread)
    if card.figures_left_out:
        # Their figures are locked: the name stands there with a line to write on.
        blank = ("Thread", "State of the thread", f"Using the {card.called}s again")
        known = {"Numbered from": card.numbered_from, "Seen from": card.viewed_from}
        return [*([name, ""] for name in blank), *([name, text] for name, text in known.items() if text)]
    facts = {
        "Thread": "; ".join(threads) or card.thread,
        "State of the thread": card.thread_state,
        f"Using the {card.called}s again": card.reuse,
        "These are": f"{card.bolts_are} {card.called}s" if card.bolts_are else "",
        "Numbered from": card.numbered_from,
        "Seen from": card.viewed_from,
    }
    return [[name, text] for name, text in facts.items() if text]


def _places(card: JointCard) -> list[dict[str, Any]]:
    """Every bolt in its turn; its thread only where the joint mixes them."""
    mixed = len({place.thread for place in card.places}) > 1
    return [
        {
            "turn": turn,
            "bolt": "" if place.bolt == card.called else place.bolt,
            "where": ", ".join(filter(None, [place.where, place.thread if mixed else ""])),
        }
        for turn, place in enumerate(card.places, start=1)
    ]


def _next(card: JointCard) -> list[str]:
    """The next pull: what, where, and what to do; nothing where none is offered."""
    pull = next((one for one in card.pulls if one.number == card.next_pull), None)
    if pull is None:
        return []
    stage = next(one for one in card.stages if one.stage == pull.stage)
    name = f"every {card.called}" if pull.bolt == "all" else _bolt_words(card, pull.bolt)
    where = f"{name}, {pull.where}" if pull.where else name
    setting = pull.setting or stage.tool.setting
    with_what = f"set {setting} on {pull.tool}" if setting else pull.tool
    done = f"stage {pull.stage} of {stage.of}, pull {pull.number} of {pull.total}"
    what, which = f"{pull.action}; {with_what}", ", ".join(filter(None, [done, pull.mark]))
    if card.go_on_when:
        return [f"{card.next_words[0].upper()}{card.next_words[1:]}", f"then {where}: {what}", which]
    return [where, what, which]


def _held_back(card: JointCard) -> list[list[str]]:
    """Why no pull is the next one, and what opens it, as an instruction to pull is refused."""
    return [[f"{one.why[0].upper()}{one.why[1:]}", _untyped(one.way_out)] for one in card.refused]


def _untyped(way_out: str) -> str:
    """What opens a gate, without what is typed for it."""
    if way_out.startswith("gudgeon record inspected"):
        return "Somebody looks into it, and what was found is recorded with a name"
    return re.sub(
        r": gudgeon [^;]*", "", re.sub(r", then: gudgeon [^;]*", ", then record where it stands", way_out)
    )


def _bolt_words(card: JointCard, name: str) -> str:
    return name if len(card.places) == 1 or name == card.called else f"{card.called} {name}"


def _stage(card: JointCard, stage: StageLine) -> dict[str, Any]:
    own = [pull for pull in card.pulls if pull.stage == stage.stage]
    tool = stage.tool
    return {
        "number": stage.stage,
        "of": stage.of,
        "words": stage.words,
        "done_when": own[0].done_when if own else "",
        "leaves": _leaves(own),
        "stop": stage.stop,
        "reads": stage.kind in READ_KINDS,
        "showed": stage.scale_showed,
        "go_on_reading": stage.done < stage.total or not stage.scale_showed,
        "flats": next((pull.flats for pull in own if pull.flats), ""),
        "setting": tool.setting,
        "left-out": bool(card.figures_left_out),
        "tool": tool.name,
        "exact": tool.exact if tool.exact not in stage.words else "",
        "error": tool.error,
        "rounding": tool.rounding,
        "ways_out": list(tool.ways_out),
        "done": f"{stage.done} of {stage.total}",
        "all_done": stage.done == stage.total,
        "dials": _dials(own),
        "together": [_cell(card, pull) for pull in own if pull.bolt == "all"],
    }


def _with_tools(stages: Sequence[StageLine]) -> list[list[str]]:
    """What has to be known with a tool, once, with the stages it is for: in the table it would take whole pages."""
    said: dict[str, list[str]] = {}
    for stage in stages:
        if stage.tool.note:
            said.setdefault(stage.tool.note, []).append(str(stage.stage))
    return [
        [f"Stage{'s' if len(numbers) > 1 else ''} {', '.join(numbers)}", note]
        for note, numbers in said.items()
    ]


def _leaves(pulls: Sequence[Pull]) -> str:
    """What a pull of the stage leaves on its head; of a repeated stage the first pass, and that each adds one."""
    said = dict.fromkeys(pull.leaves for pull in pulls if pull.leaves)
    first = next(iter(said), "")
    return (
        f"{first}, and one more with each pass" if pulls and pulls[-1].round > 1 and len(said) > 1 else first
    )


def _dials(pulls: Iterable[Pull]) -> list[dict[str, Any]]:
    """A clock for each different turn of a stage, from where the mark stands to where it shall stand."""
    turns = dict.fromkeys((pull.turned_before, pull.turned_after, pull.mark) for pull in pulls if pull.mark)
    dials = []
    for before, after, words in turns:
        first, last = float(before.rstrip("°")), float(after.rstrip("°"))
        dials.append(
            {
                "from": first,
                "to": last,
                "words": words,
                "turned": f"{before} → {after}",
                "more": _full_turns(last - first),
            }
        )
    return dials


def _full_turns(angle_deg: float) -> str:
    """What a clock cannot show: that the hand goes all the way round first."""
    turns, rest = divmod(angle_deg, 360)
    if not turns:
        return ""
    whole = "1 full turn" if turns == 1 else f"{turns:.0f} full turns"
    return f"{whole} and {rest:g}°" if rest else whole


_Column = tuple[StageLine, int, int]


def _columns(card: JointCard) -> list[_Column]:
    """Stage, pass and number of passes; a wait is for the whole joint and stands with the stages alone."""
    columns = []
    for stage in card.stages:
        passes = {pull.round: None for pull in card.pulls if pull.stage == stage.stage and pull.bolt != "all"}
        columns += [(stage, number, len(passes)) for number in passes]
    return columns


def _in_groups(columns: Sequence[_Column], most: int) -> list[list[_Column]]:
    """As few tables as hold all columns, as even as can be."""
    tables = -(-len(columns) // most) or 1
    each, more = divmod(len(columns), tables)
    rest = iter(columns)
    return [list(islice(rest, each + (table < more))) for table in range(tables)]


def _grid(card: JointCard, columns: Sequence[_Column], rows: Sequence[str]) -> dict[str, Any]:
    cells: dict[str, list[dict[str, Any]]] = {bolt: [] for bolt in rows}
    heads = []
    for stage, number, passes in columns:
        own = {pull.bolt: pull for pull in card.pulls if (pull.stage, pull.round) == (stage.stage, number)}
        for bolt in rows:
            cells[bolt].append(_cell(card, own.get(bolt)))
        heads.append(
            {
                "stage": stage.stage,
                "kind": stage.kind,
                "figure": stage.tool.setting or stage.figure or ("fully" if stage.kind == "loosen" else ""),
                "is_setting": bool(stage.tool.setting),
                "through": stage.tool.through,
                "pass": f"pass {number} of {passes}" if passes > 1 else "",
                "order": _order(list(own), rows, free=card.free_order or "free order" in stage.words),
            }
        )
    return {"heads": heads, "cells": [cells[bolt] for bolt in rows]}


def _order(worked: list[str], rows: Sequence[str], *, free: bool) -> str:
    """How a column is worked, against the order of its rows."""
    if len(worked) < 2:
        return ""
    if free:
        return "any order"
    listed = [bolt for bolt in rows if bolt in worked]
    if worked == listed:
        return "from the first row"
    return "from the last row up" if worked == listed[::-1] else "by the small numbers"


def _cell(card: JointCard, pull: Pull | None) -> dict[str, Any]:
    """One place to tick: `state` is open, next, done, again (recorded, yet not done) or none."""
    if pull is None:
        return {"state": "none", "pull": 0, "words": "", "next": False}
    following = pull.number == card.next_pull and not card.go_on_when
    words = "" if pull.state == "next" else pull.state.removesuffix(", NEXT")
    state = "open" if not words else "again" if words.endswith("not done") else "done"
    return {"state": state, "pull": pull.number, "words": words, "next": following}


def _outcomes(card: JointCard) -> list[list[str]]:
    """What can be written for each kind of stage on this card, in the words of the book."""
    return [[kind, " / ".join(OUTCOMES[kind])] for kind in dict.fromkeys(one.kind for one in card.stages)]
