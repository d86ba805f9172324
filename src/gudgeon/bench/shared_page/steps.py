"""The steps of a page: entries that are alike and follow one another become one, in the order of the work."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

from gudgeon.bench.context import Bench
from gudgeon.bench.holds import all_holds, basis_of, standings
from gudgeon.bench.network import job_named
from gudgeon.bench.photo_look import photo_look
from gudgeon.bench.shared_page import pulls, readings
from gudgeon.bench.shared_page.choices import Choices
from gudgeon.bench.shared_page.days import Days
from gudgeon.bench.shared_page.deeds import deed, hold_name, joint_name, off_words, own_words
from gudgeon.bench.shared_page.hiding import Hiding, named_in
from gudgeon.bench.shared_page.model import Day, Drawn, Rows, SharedPhoto, SharedPin, Step
from gudgeon.bench.shared_page.tools import each_once
from gudgeon.book.entries import Entry


@dataclass(frozen=True, slots=True)
class Telling:
    """What every step is told with; `photos` are those that were chosen, by their hash."""

    bench: Bench
    choices: Choices
    hidden: Hiding
    days: Days
    photos: Mapping[str, int]

    def told(self, entries: Sequence[Entry]) -> tuple[Day, ...]:
        """The days with their steps."""
        made = []
        for when, of_day in groupby(entries, key=self.days.day):
            groups = [list(group) for _, group in groupby(of_day, key=self._alike)]
            made.append((when, groups))
        last = _last_of(entries)
        return tuple(Day(when, tuple(self._steps(groups, last=last))) for when, groups in made)

    def _alike(self, one: Entry) -> tuple[object, ...]:
        body, struck = one.body, one.id in self.bench.state.struck
        if one.kind in pulls.KINDS:
            return one.kind, body["joint"], body["stage"], body["round"]
        if one.kind in readings.KINDS:
            return one.kind, body["item"], body["condition"]
        alone = one.number if self._says_more(one) else 0
        said = body["group"] if one.kind == "taken-off" else deed(self.bench, one)
        return one.kind, said, struck, alone, self._who(one)

    def _says_more(self, one: Entry) -> bool:
        return one.number in self.choices.notes or one.kind in ("photo", "hold-proved", "note")

    def _steps(self, groups: Iterable[list[Entry]], *, last: Mapping[str, str]) -> Iterator[Step]:
        for group in groups:
            yield self._step(group, last=last)
            first = group[0]
            if first.kind in readings.KINDS and group[-1].id == last.get(f"reading:{first.body['item']}"):
                yield from self._worked_out(str(first.body["item"]))

    def _step(self, group: list[Entry], *, last: Mapping[str, str]) -> Step:
        first = group[0]
        facts: tuple[tuple[str, str], ...] = ()
        rows: Rows | None = None
        drawn: Drawn | None = None
        if first.kind in pulls.KINDS:
            what = pulls.pull_words(self.bench, first)
            facts = pulls.pull_facts(self.bench, group, choices=self.choices, hidden=self.hidden)
            rows = pulls.pull_rows(self.bench, group)
            if group[-1].id == last.get(f"joint:{first.body['joint']}"):
                drawn = pulls.joint_drawn(self.bench, str(first.body["joint"]))
        elif first.kind in readings.KINDS:
            key = str(first.body["item"])
            what = readings.reading_words(self.bench, key, condition=first.body["condition"])
            facts = readings.reading_facts(self.bench, group, choices=self.choices, hidden=self.hidden)
            rows = readings.reading_rows(self.bench, group)
            if group[-1].id == last.get(f"reading:{key}"):
                drawn = readings.reading_drawn(self.bench, key)
        else:
            what = self._plainly(group)
            facts = self._proof(first) if first.kind == "hold-proved" else ()
        return Step(
            tuple(one.number for one in group), what, facts, rows, self._words(group), self._people(group),
            self._photo(first), drawn, self.days.hours(group),
        )  # fmt: skip

    def _plainly(self, group: Sequence[Entry]) -> str:
        said = deed(self.bench, group[0])
        many = f" ({len(group)} times)" if len(group) > 1 else ""
        if group[0].kind == "taken-off":
            said, many = off_words(group), ""
        struck = "; struck later: it does not count" if group[0].id in self.bench.state.struck else ""
        return f"{said}{many}{struck}"

    def _worked_out(self, key: str) -> Iterator[Step]:
        for other in readings.worked_out_from(self.bench, key):
            rows = readings.worked_out_rows(self.bench, other)
            item = self.bench.sheet.characteristics[other]
            if rows is not None:
                facts = (("Limits from", readings.limits_from(self.bench, item)),)
                yield Step((), f"Worked out: {item.name}", facts if facts[0][1] else (), rows)

    def _proof(self, one: Entry) -> tuple[tuple[str, str], ...]:
        """What was looked at, what proves it, on what the proof rests, and whether it stands now."""
        hold = all_holds().get(one.body["hold"])
        if hold is None:
            return ()
        state = self.bench.state
        found = next((it for it in standings(self.bench.sheet, state) if it.hold.id == hold.id), None)
        stands = ""
        if found is not None and one.id not in state.struck:
            stands = "it stands" if found.stands else "it does not stand now"
        rests = (
            _rest_words(self.bench, about) for about in basis_of(hold, self.bench.sheet, job_named(state))
        )
        photo = one.body.get("photo")
        by_photo = (
            "" if not photo else "a photo, on this page" if photo in self.photos else "a photo, left out"
        )
        said = "what was seen, in the words of the book" if one.body.get("value") else ""
        chosen = one.number in self.choices.notes
        by = each_once((said if chosen or not said else f"{said} (left out)", by_photo))
        facts = (
            ("Look at", hold.ask),
            ("Proved by", " and ".join(by)),
            ("Rests on", "; ".join(each_once(rests))),
            ("Today", stands),
        )
        return tuple((name, words) for name, words in facts if words)

    def _words(self, group: Iterable[Entry]) -> tuple[str, ...]:
        chosen = [one for one in group if one.number in self.choices.notes]
        return tuple(filter(None, (self.hidden.words(own_words(one)) for one in chosen)))

    def _who(self, one: Entry) -> str:
        said = [one.who if self.choices.names else "", one.device if self.choices.devices else ""]
        named = [*named_in(one)] if self.choices.names and one.kind != "turned" else []
        return ", ".join(each_once((*said, *named)))

    def _people(self, group: Iterable[Entry]) -> str:
        return "; ".join(each_once(map(self._who, group)))

    def _photo(self, one: Entry) -> SharedPhoto | None:
        if one.kind != "photo" or self.photos.get(one.body["sha"]) != one.number:
            return None
        look = photo_look(self.bench, one.body["sha"])
        pins = tuple(SharedPin(pin.number, pin.x, pin.y, self.hidden.words(pin.text)) for pin in look.pins)
        words = self.hidden.words(look.words)
        return SharedPhoto(one.body["sha"], one.number, self.hidden.words(look.photo.caption), pins, words)


def _rest_words(bench: Bench, about: str) -> str:
    family, _, key = about.partition(":")
    if family == "hold":
        return hold_name(key)
    return joint_name(bench, key) if family == "joint" else ""


def _last_of(entries: Iterable[Entry]) -> dict[str, str]:
    """The last entry of each joint and of each thing that is measured: its drawing stands there."""
    found: dict[str, str] = {}
    for one in entries:
        if one.kind in pulls.KINDS:
            found[f"joint:{one.body['joint']}"] = one.id
        elif one.kind in readings.KINDS:
            found[f"reading:{one.body['item']}"] = one.id
    return found
