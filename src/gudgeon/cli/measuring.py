"""A part measured in the terminal: a prompt for every place, each reading in the book before the next prompt."""

import sys
import textwrap
from argparse import Namespace
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from gudgeon.bench.context import Bench
from gudgeon.bench.measuring import (
    Sheet,
    Spot,
    gauges_offered,
    items_of,
    reading_of,
    sheet_of,
    write_reading,
)
from gudgeon.bench.record import Recorded
from gudgeon.bench.warmth import warmth
from gudgeon.cli.progress import progress
from gudgeon.cli.questions import bench_of
from gudgeon.cli.show import as_json, clean, width
from gudgeon.errors import GudgeonError

STOP, BACK = ".", "b"
BELL = "\a"
HELP = (
    "Enter takes the line and goes on; an empty line leaves a place out; b goes back one; . stops. What enters and "
    "what does not: 0.05/0.06, <0.05 does not enter, >0.05 enters. Several figures on a line are repeats. A line that "
    "ends with ! is kept although it is far from what was expected. A refusal rings, and the place is asked again."
)


def measure(chosen: Namespace) -> int:
    """Measure a part, or take over a table or the points of a face."""
    bench = bench_of(chosen)
    if chosen.blank_table is not None:
        return _blank(bench, chosen)
    if chosen.table is not None:
        return _table(bench, chosen)
    if chosen.face is not None:
        return _face(bench, chosen)
    bench.unlock()
    return _Round(bench, chosen).run()


def _blank(bench: Bench, chosen: Namespace) -> int:
    from gudgeon.bench.measuring_table import blank_table

    text = blank_table(bench, chosen.what, condition=chosen.condition)
    if chosen.blank_table == "-":
        print(text, end="")
        return 0
    with Path(chosen.blank_table).expanduser().open("x", encoding="utf-8", newline="") as file:
        file.write(text)
    print(f"Written: {chosen.blank_table}. Fill in the column `value`, then: gudgeon measure … --table FILE")
    return 0


def _table(bench: Bench, chosen: Namespace) -> int:
    from gudgeon.bench.measuring_table import Usual, fill

    usual = Usual(
        chosen.gauge, chosen.unit, chosen.condition, chosen.part_temperature, chosen.gauge_temperature, chosen.sure
    )  # fmt: skip
    done = fill(bench, chosen.what, file=chosen.table, usual=usual)
    if chosen.json:
        return as_json(done)
    readings = "1 reading" if done.readings == 1 else f"{done.readings} readings"
    rows = "1 row" if done.skipped == 1 else f"{done.skipped} rows"
    skipped = f"; without a value and left out: {rows}" if done.skipped else ""
    print(f"In the book, all of them: {readings}{skipped}. The last one: {clean(done.last.said)}")
    _remarks(done.last)
    print("Verdicts: gudgeon judge")
    return 0


def _face(bench: Bench, chosen: Namespace) -> int:
    from gudgeon.bench.face_file import take_face

    with progress() as tell:
        done = take_face(
            bench, chosen.what, file=chosen.face, unit=chosen.unit or None, instrument=chosen.gauge,
            condition=chosen.condition, sure=chosen.sure, tell=tell,
        )  # fmt: skip
    if chosen.json:
        return as_json(done)
    print(textwrap.fill(clean(f"In the book ({done.entry[:8]}): {done.said}"), width=width()))
    _remarks(done)
    return 0


def _remarks(done: Recorded) -> None:
    for text in done.remarks:
        print(textwrap.fill(f"! {clean(text)}", width=width(), subsequent_indent="  "))


@dataclass(frozen=True, slots=True)
class _Warm:
    """How warm part and gauge are, as it was said once for all of a part."""

    part: str = ""
    gauge: str = ""

    @property
    def fields(self) -> dict[str, Any]:
        """The fields of a reading."""
        return {"part_temperature": self.part or None, "gauge_temperature": self.gauge or None}


class _Stopped(Exception):
    """Nothing more is typed, or the person said so."""


class _Halted(Exception):
    """A piped line was refused: what follows it would be taken for the place before its own."""

    def __init__(self, spot: Spot) -> None:
        super().__init__(spot.words)
        self.spot = spot


class _Round:
    """One round of measuring: characteristic by characteristic, place by place."""

    def __init__(self, bench: Bench, chosen: Namespace) -> None:
        self.bench, self.chosen = bench, chosen
        self.asks = sys.stdin.isatty()
        self.written: list[Recorded] = []
        self.last = ""
        """The words of the place that was written last."""
        self.warm = _Warm(chosen.part_temperature, chosen.gauge_temperature)
        self.gauges: dict[str, str] = {}
        """The gauge of each characteristic, once it is known."""

    def run(self) -> int:
        """Every place, until the end or until it is stopped."""
        keys = items_of(self.bench, self.chosen.what)
        self._say(textwrap.fill(HELP, width=width()))
        halted: Spot | None = None
        try:
            self._temperatures(keys)
            self._places(keys)
        except _Stopped:
            self._say("")
        except _Halted as stop:
            halted = stop.spot
        if halted is not None:
            self._say(self._go_on(halted))
        if self.chosen.json:
            as_json(self.written)
        elif halted is None:
            print(f"{self._count()} in the book. All verdicts: gudgeon judge")
        return 0 if halted is None else 1

    def _count(self) -> str:
        return "1 reading is" if len(self.written) == 1 else f"{len(self.written)} readings are"

    def _go_on(self, spot: Spot) -> str:
        """Where it stopped, what is in the book so far, and how to go on."""
        so_far = f"{self._count()} in the book" + (f", the last one of {self.last}" if self.last else "")
        left = " --as-left" if self.chosen.condition == "as left" else ""
        told = textwrap.fill(
            clean(
                f"Stopped at {spot.words}: its line was refused, and no line after it was taken, so that no reading "
                f"moves to another place. {so_far}. Go on at {spot.words}:"
            ),
            width=width(),
        )
        if spot.in_book:
            return f"{told}\n  gudgeon measure {spot.item}{left}"
        return f"{told}\n  gudgeon measure {spot.item} --rest{left}   (only the places without a reading)"

    def _say(self, text: str) -> None:
        """Said to the person; with --json the answer alone goes to standard output."""
        print(text, file=sys.stderr if self.chosen.json else sys.stdout, flush=True)

    def _line(self, prompt: str) -> str:
        print(clean(prompt), end="", flush=True, file=sys.stderr if self.chosen.json else sys.stdout)
        line = sys.stdin.readline()
        if not self.asks:
            self._say("")  # what is piped in leaves no line behind
        if not line:
            raise _Stopped
        return line.strip()

    def _temperatures(self, keys: Sequence[str]) -> None:
        """Asked once, where a length is read and a person sits there; a slip is asked again."""
        self._checked_warmth(self.warm)
        lengths = any(self.bench.sheet.characteristics[key].kind == "length" for key in keys)
        while self.asks and lengths and not self.warm.part:
            part = self._line("How warm is the part, like 24 °C (Enter: not noted)? ")
            if not part:
                return
            gauge = self._line("How warm is the gauge, like 21 °C, or: same as part (Enter: not noted)? ")
            try:
                self._checked_warmth(_Warm(part, gauge))
                self.warm = _Warm(part, gauge)
            except GudgeonError as error:
                self._refused(error)

    def _checked_warmth(self, warm: _Warm) -> None:
        warmth(warm.part, gauge=warm.gauge, as_part=False, sure=self.chosen.sure)

    def _places(self, keys: Sequence[str]) -> None:
        spots = [spot for key in keys for spot in self._sheet(key).places]
        at, shown = 0, ""
        while at < len(spots):
            spot = spots[at]
            if spot.item != shown:
                self._header(spot.item)
                shown = spot.item
            line = self._line(self._prompt(spot))
            if line == STOP:
                raise _Stopped
            if line == BACK:
                at = max(0, at - 1)
            elif not line or self._written(spot, line):
                at += 1
            elif not self.asks:
                raise _Halted(spot)
            else:
                self._say(textwrap.fill(f"  ! Asked again: {clean(spot.words)}", width=width()))

    def _sheet(self, key: str) -> Sheet:
        return sheet_of(
            self.bench, key, condition=self.chosen.condition, gauge=self.gauges.get(key, self.chosen.gauge),
            unit=self.chosen.unit, rest=self.chosen.rest,
        )  # fmt: skip

    def _header(self, key: str) -> None:
        """What is measured, how, and with what; the gauge is asked once and remembered."""
        of = self._sheet(key)
        named = f"{clean(of.name)} ({key}): {'; '.join(of.limits) or 'no limit given'}"
        self._say("\n" + textwrap.fill(named, width=width(), subsequent_indent="  "))
        for text in (of.how, of.decides):
            if text:
                self._say(
                    textwrap.fill(clean(text), width=width(), initial_indent="  ", subsequent_indent="  ")
                )
        if key not in self.gauges:
            self.gauges[key] = self._gauge(key, of)
        of = self._sheet(key)
        with_what = of.gauge_name or "no gauge named: no reading can be judged inside"
        self._say(
            f"  with: {clean(with_what)}; a figure without a unit is in {of.unit}; {self.chosen.condition}"
        )

    def _gauge(self, key: str, of: Sheet) -> str:
        if self.chosen.gauge or not self.asks:
            return of.gauge
        offered = dict(gauges_offered(self.bench, key))
        while offered:
            for name, words in offered.items():
                self._say(f"    {name}: {clean(words)}")
            said = self._line(f"Which gauge{f' (Enter: {of.gauge})' if of.gauge else ' (Enter: none)'}? ")
            if not said or said in self.bench.kit.gauges:
                return said or of.gauge
            self._say(f"  ! `{clean(said)}` is no gauge of the kit.")
        return of.gauge

    def _prompt(self, spot: Spot) -> str:
        book = f" (in the book: {spot.in_book})" if spot.in_book else ""
        return f"{spot.words}{book}: "

    def _written(self, spot: Spot, line: str) -> bool:
        """Whether a line is in the book now; what is refused is said, and asked again."""
        of = self._sheet(spot.item)
        more = {
            "unit": of.unit, "instrument": self.gauges.get(spot.item, of.gauge), "condition": self.chosen.condition,
            "sure": self.chosen.sure, **self.warm.fields,
        }  # fmt: skip
        try:
            fields = reading_of(spot, line, more=more)
            done, self.bench = write_reading(self.bench, fields)
        except GudgeonError as error:
            self._refused(error)
            return False
        self.written.append(done)
        self.last = spot.words
        self._say(f"  in the book: {clean(done.said.partition(', ')[2])}")
        for text in done.remarks:
            self._say(textwrap.fill(f"  {clean(text)}", width=width(), subsequent_indent="  "))
        return True

    def _refused(self, error: GudgeonError) -> None:
        # Whoever reads a gauge does not look at the screen: a refusal is heard.
        if self.asks:
            print(BELL, end="", flush=True, file=sys.stderr if self.chosen.json else sys.stdout)
        text = str(error).replace("add --sure", "end the line with !")
        self._say(textwrap.fill(f"  ! Not recorded: {clean(text)}", width=width(), subsequent_indent="    "))
