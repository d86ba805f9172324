"""The drive of the camshafts as answers hand it around: wheels, path, counts, what is wrong or missing."""

from dataclasses import dataclass
from typing import Literal

from gudgeon.bench.sheet_place import place_of
from gudgeon.bench.timing.drive_words import worded
from gudgeon.calc.engine.drive_path import DrivePath, WheelAt
from gudgeon.sheet.drive import Drive
from gudgeon.written.located import Path, Written

Grade = Literal["error", "doubt", "missing", "note"]


@dataclass(frozen=True, slots=True)
class DriveRemark:
    """What contradicts itself in the sheet's drive (error), may be wrong (doubt), is missing, or a note.

    `path` is the field, dotted as it is typed, `place` the file and line where it stands; the text repeats neither.
    `printed` is what stands there.
    """

    grade: Grade
    path: str
    place: str
    text: str
    printed: str = ""

    def __str__(self) -> str:
        where = f"{self.path} ({self.place})" if self.place else self.path
        return f"{where}: {self.text}"


@dataclass(frozen=True, slots=True)
class DriveWheel:
    """A wheel of the drive. `at` is its place and pitch radius; where it has none, `lacks` says what is missing."""

    key: str
    name: str
    teeth: int | None
    drives: str
    mark: str
    mark_at_deg: float | None
    on: str
    back: bool
    keyless: bool
    is_tensioner: bool
    at: WheelAt | None
    lacks: str

    @property
    def is_crankshaft(self) -> bool:
        """Whether it sits on the crankshaft."""
        return self.drives == "crankshaft"

    @property
    def is_camshaft(self) -> bool:
        """Whether it turns a camshaft."""
        return self.drives == "camshaft"


@dataclass(frozen=True, slots=True)
class TeethCounted:
    """Teeth (or links) between two marks as the belt runs: as printed, and as its path makes them.

    `off` is path less printed where both are known; `by_path` need not be whole: its fraction is how far the two marks
    are off a whole tooth.
    """

    start: str
    end: str
    way: str
    printed: int | None
    by_path: float | None
    path: str

    @property
    def off(self) -> float | None:
        """By how many teeth path and print differ."""
        return None if self.printed is None or self.by_path is None else self.by_path - self.printed


@dataclass(frozen=True, slots=True)
class DriveModel:
    """The whole drive.

    `wheels` are all wheels of the sheet by key; `order` the keys in which belt or chain runs, begun at the crankshaft.
    `clockwise` is the way in which the loop runs as seen from `viewed_from`, None where it is not known or contradicts
    itself; `clockwise_from` is where it was taken from. `path` is the whole loop (its wheel names are keys), None where
    a place is missing. `tight` are the keys from the last camshaft to the crankshaft as the belt runs: that side is
    pulled straight. `realign` is after how many turns of the crankshaft the marks of belt and crankshaft line up again,
    `realign_with_cam` those of the camshafts too.
    """

    kind: str
    viewed_from: str
    clockwise: bool | None
    clockwise_from: str
    wheels: dict[str, DriveWheel]
    order: tuple[str, ...]
    tight: tuple[str, ...]
    path: DrivePath | None
    pitch_mm: float | None
    belt_teeth: int | None
    loop_teeth: float | None
    counts: tuple[TeethCounted, ...]
    realign: int | None
    realign_with_cam: int | None
    heads: dict[str, float]
    takes_up: str
    takes_up_mm: float | None
    cam_in_block: bool
    drive: Drive
    remarks: tuple[DriveRemark, ...]

    @property
    def units(self) -> str:
        """What is counted: teeth of a belt, links of a chain."""
        return "links" if self.kind == "timing chain" else "teeth"

    @property
    def errors(self) -> tuple[DriveRemark, ...]:
        """What contradicts itself."""
        return tuple(one for one in self.remarks if one.grade == "error")

    @property
    def missing(self) -> tuple[DriveRemark, ...]:
        """What is not stated, with what cannot be told without it."""
        return tuple(one for one in self.remarks if one.grade == "missing")


class Remarks:
    """Collects remarks, each with the place of its field in the sheet."""

    def __init__(self, written: Written | None, *, kind: str = "") -> None:
        self._written = written
        self._kind = kind
        self._all: list[DriveRemark] = []

    def add(self, grade: Grade, path: Path, text: str, *, printed: str = "") -> None:
        """One remark; a field that is not there is placed at the nearest part that is."""
        from gudgeon.bench.proof.figures import path_text

        place = str(place_of(self._written, path) or "")
        self._all.append(DriveRemark(grade, path_text(path), place, worded(text, kind=self._kind), printed))

    def all(self) -> tuple[DriveRemark, ...]:
        """All of them, each once."""
        return tuple(dict.fromkeys(self._all))
