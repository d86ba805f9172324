"""A made-up book in which every text that a person can write is a word of its own, so that each can be looked for."""

import typing
import uuid
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import timedelta
from pathlib import Path
from types import MappingProxyType
from typing import Annotated, Any, Literal

from pydantic import TypeAdapter, ValidationError

from gudgeon.bench.context import Bench, open_bench
from gudgeon.bench.photos import Sent, record_photo
from gudgeon.bench.pins import PinSaid
from gudgeon.book.bodies import BODIES
from gudgeon.book.entries import Draft
from tests.unit.bench.benches import KIT, START, Job, make_job
from tests.unit.book.photos import drawn, exif, saved
from tests.unit.sheet.sheets import SMALL

WHO, DEVICE, PLATE, CODE = "Quentin Abernathy", "Quentin's telephone", "XQ-771-ZW", "L1-A"
TOOLS = ("grandfather's wrench Zacharias", "blades of Ottokar")
PRICE, ODOMETER = "7741.35", "187654"
START_BODIES: Mapping[str, Mapping[str, Any]] = MappingProxyType({
    "reading": {"value": "29.985", "low": None, "high": None, "unit": "mm", "repeats": [], "part_temperature": None,
                "gauge_temperature": None, "temperature_unit": None, "gauge_as_part": False, "place": "A", "item": "journal"},
    "face-scanned": {"points": [["0", "0", "0"], ["10", "0", "0.01"], ["0", "10", "0.02"]], "item": "head_face"},
    "turned": {"doing": {}},
    "override": {"about": "joint:head"},
    "timer-started": {"minutes": 30, "distance": None, "odometer": None, "unit": None},
    "odometer-read": {"value": ODOMETER, "unit": "km"},
    "money": {"amount": PRICE},
    "photo": {"about": ["joint:head"]},
    "identity-read": {"code": CODE, "matches": True},
    "pull": {"outcome": "done", "doubt": None, "stage": 1, "bolt": "1", "angle_deg": None},
    "part-life": {"unit": "km"},
})  # fmt: skip
KEYS: Mapping[str, Any] = MappingProxyType({"joint": "head", "item": "journal", "place": "A"})
"""What names a thing of the sheet; everything else that is text is his own."""
PLAIN: tuple[Any, ...] = ("1", 1, True, "2026-03-08", "EUR", "mm", "0" * 64)


@dataclass
class Told:
    """The book, and every word that was written into it, with the kind and the field that it stands in."""

    job: Job
    words: dict[str, str] = field(default_factory=dict)
    first: str = ""

    def word(self, where: str) -> str:
        """A word that stands nowhere else."""
        made = f"zq{len(self.words)}qz"
        self.words[made] = where
        return made

    def body(self, kind: str, *, keys: bool) -> dict[str, Any]:
        """A body of this kind in which every text that may be any text is such a word."""
        _, model = BODIES[kind]
        given = {**(KEYS if keys else {}), **START_BODIES.get(kind, {})}
        made: dict[str, Any] = {}
        for name, info in model.model_fields.items():
            form: Any = Annotated[info.annotation, *info.metadata] if info.metadata else info.annotation
            takes = TypeAdapter[Any](form)
            for one in self._candidates(kind, name, info.annotation, given):
                try:
                    takes.validate_python(one, strict=True)
                    made[name] = one
                except ValidationError:
                    self.words.pop(str(one[0]) if isinstance(one, list) else str(one), None)
                    continue
                break
        return made

    def _candidates(self, kind: str, name: str, of: Any, given: Mapping[str, Any]) -> Iterator[Any]:
        if name in given:
            yield given[name]
        if name == "entry":
            yield self.first
        yield from _choices(of)
        yield self.word(f"{kind} {name}")
        yield [self.word(f"{kind} {name}")]
        yield from PLAIN

    def write(self, kind: str, body: Mapping[str, Any]) -> str:
        """One entry, as any sender may write it; its id."""
        self.job.now += timedelta(minutes=7)
        bench = open_bench(self.job.book, now=self.job.now)
        made = uuid.uuid4().hex
        try:
            bench.store.append(
                Draft(made, kind, body, "mine", WHO, DEVICE, self.job.now.isoformat(), bench.state.head)
            )
        finally:
            bench.store.close()
        return made


def _choices(of: Any) -> tuple[Any, ...]:
    """The values of a field that takes only some."""
    if typing.get_origin(of) is Literal:
        return typing.get_args(of)[:1]
    return tuple(one for inner in typing.get_args(of) for one in _choices(inner))


def told(folder: Path, *, keys: bool = True) -> Told:
    """Every kind of entry once; with `keys` of things that the sheet knows, else of things that nobody knows."""
    kit = KIT.replace("half-inch click wrench", TOOLS[0]).replace("feeler blades, kind", f"{TOOLS[1]}, kind")
    made = Told(make_job(folder, sheet=SMALL, kit=kit))
    made.first = made.write("note", {"text": made.word("note text")})
    made.write("identity-read", made.body("identity-read", keys=keys))
    for kind in BODIES:
        if kind not in ("build-opened", "identity-read", "strike"):
            made.write(kind, made.body(kind, keys=keys))
    made.write("hold-proved", {"hold": "cause_found", "value": f"seen by {made.word('hold value')}"})
    made.write("strike", made.body("strike", keys=keys))
    return made


def photographed(job: Job, **said: Any) -> int:
    """A photo with a place and a name of a camera in its file; the number of its entry."""
    job.now += timedelta(minutes=3)
    bench = open_bench(job.book, now=job.now)
    try:
        pins = [PinSaid("3", "25", "40", said.get("pin", "hose of Quentin"))]
        sent = Sent("Quentin-plate.jpg", saved(drawn((2600, 1900)), "JPEG", exif=exif()))
        record_photo(bench, sent, caption=said.get("caption", "Timing end"), about=("joint:head",), pins=pins)
        return bench.store.entries("mine")[-1].number
    finally:
        bench.store.close()


@contextmanager
def bench_at(job: Job) -> Iterator[Bench]:
    """The bench at an hour that stands still."""
    bench = open_bench(job.book, now=START + timedelta(days=9))
    try:
        yield bench
    finally:
        bench.store.close()
