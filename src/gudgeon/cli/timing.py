"""Is it timed, in the terminal."""

import sys
from argparse import Namespace
from typing import TYPE_CHECKING

from gudgeon.cli.questions import NO, YES, bench_of
from gudgeon.cli.show import as_json, closing, heading, point, table

if TYPE_CHECKING:
    from gudgeon.bench.context import Bench
    from gudgeon.bench.timing.answer import TimingAnswer

_WIDE = 100


def timing(chosen: Namespace) -> int:
    """Answer “Is it timed?”; 0 when two turns by hand are proved, 1 else."""
    from gudgeon.bench.timing.answer import timing as ask

    bench = bench_of(chosen)
    answer = ask(bench, seen_off=chosen.seen)
    if chosen.picture is not None:
        _write(chosen, bench, answer)
    code = YES if answer.proof.stands else NO
    if chosen.json:
        as_json(answer)
        return code
    heading(answer.heading)
    print(f"{answer.heading.question}  {answer.proof.answer.upper()}\n")
    _seen(answer)
    _drive(answer)
    _events(answer)
    _centers(answer)
    _proof(answer)
    print("\nCautions before you turn it:")
    for text in answer.cautions:
        point(text, mark="!")
    closing(answer.heading)
    return code


def _seen(answer: "TimingAnswer") -> None:
    if not answer.seen:
        return
    print("Seen off")
    for one in answer.seen:
        point(f"{one.words[0].upper()}{one.words[1:]}.")
        if one.why_timing and one.why_timing != "as said":
            point(
                f"{'Late or early' if not one.timing else one.timing.capitalize()}: {one.why_timing}.",
                mark=" ",
            )
        point(one.advice, mark="!")
    print()


def _drive(answer: "TimingAnswer") -> None:
    if answer.kind:
        print(f"{answer.kind.capitalize()}")
        point(answer.runs)
        table(
            ("wheel", "teeth", "turns", "mark", "seat", "where"),
            [(one.name, one.teeth, one.turns, one.mark, one.seat, one.rides_on) for one in answer.wheels],
            most=_WIDE,
        )
        if answer.counts:
            print("\nBetween the marks, as it runs")
            table(
                ("from mark to mark", "way", "printed", "by the places of the wheels", ""),
                [(one.between, one.way, one.printed, one.by_path, one.note) for one in answer.counts],
                most=_WIDE,
            )
        print()
        point(answer.realign)
        for text in answer.rules:
            point(text)
        if answer.source:
            point(f"Source: {answer.source}")
        for text in (answer.cut, *answer.shifts):
            if text:
                point(text)
    for remark in answer.remarks:
        point(f"{remark.grade}: {remark}", mark="!")


def _events(answer: "TimingAnswer") -> None:
    found = answer.events
    if not found.lines:
        return
    print("\nValve events as printed" + (" → after the cut" if answer.shifts else ""))
    table(
        ("valves", "open", "close", "", "full lift", "at lift", "source"),
        [
            (one.valve, one.opens, one.closes, one.duration, one.centerline, one.at_lift, one.source)
            for one in found.lines
        ],
        most=_WIDE,
    )
    if found.overlap:
        point(f"Both open together: {found.overlap}; between the lobes: {found.separation}")
    for one in found.lines:
        for text in one.flags:
            point(text, mark="!")


def _centers(answer: "TimingAnswer") -> None:
    print("\nTop dead center and full lift, as read")
    for one in answer.centers.lines:
        limit = f"; the sheet: {one.limit}, {one.verdict}" if one.limit else ""
        point(f"{one.what}: {one.words}{limit}" if one.words else f"{one.what}: {one.verdict}; {one.missing}")
        for text in one.notes:
            point(text, mark=" ")
    for text in answer.missing:
        point(text, mark="?")


def _proof(answer: "TimingAnswer") -> None:
    proof = answer.proof
    print(f"\nThe proof: {proof.answer}" + (f" ({proof.why_not})" if proof.why_not else ""))
    table(
        ("what", "state", "in the book", "how", "recorded with"),
        [(one.what, one.state, one.said, one.do, one.command) for one in proof.parts],
        most=_WIDE,
    )
    for text in proof.refused:
        point(f"Do not turn it now: {text}", mark="!")
    if proof.first:
        print("\nIt rests on these, and they are not proved. First, in this order:")
        table(
            ("what", "how it stands", "recorded with"),
            [(one.name, one.why, one.command) for one in proof.first],
            most=_WIDE,
        )
    if proof.command:
        rests = ", and what it rests on is proved" if proof.first else ""
        point(f"When all of the proof is so{rests}: {proof.command}")


def _write(chosen: Namespace, bench: "Bench", answer: "TimingAnswer") -> None:
    """Write the picture that was asked for, and say where it lies."""
    from gudgeon.cli.picture import svg_file

    path = svg_file(chosen.picture)
    path.write_text(_drawn(chosen.drawn, bench, answer), encoding="utf-8")
    print(f"Picture: {path}", file=sys.stderr if chosen.json else sys.stdout)


def _drawn(what: str, bench: "Bench", answer: "TimingAnswer") -> str:
    """The drive, or the wheel of the valve events; refused where the sheet states nothing of it."""
    if what == "drive":
        from gudgeon.bench.pictures.drive import drive_picture
        from gudgeon.bench.timing.drive import drive_model
        from gudgeon.bench.timing.errors import NoDrive
        from gudgeon.paper.svg_drive import drive_svg

        model = drive_model(bench)
        if model is None:
            raise NoDrive
        return drive_svg(drive_picture(model))
    from gudgeon.bench.pictures.events import events_picture
    from gudgeon.bench.timing.errors import NoEvents
    from gudgeon.paper.svg_events import events_svg

    if not answer.events.lines:
        raise NoEvents
    return events_svg(events_picture(answer.events, engine=bench.sheet.engine.name))
