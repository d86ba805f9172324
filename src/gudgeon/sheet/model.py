"""The whole data sheet. What is not stated is a gap, and a gap is never filled."""

from typing import Any, Literal

from pydantic import Field, ValidationInfo, field_validator, model_validator

from gudgeon.sheet.after_start import AfterStart
from gudgeon.sheet.drive import Drive, ValveGear
from gudgeon.sheet.engine import Book, Cylinder, Engine, Head
from gudgeon.sheet.faces import Face
from gudgeon.sheet.figures import Sourced, StatedTime
from gudgeon.sheet.fits import Fits
from gudgeon.sheet.gates import GateOverruled
from gudgeon.sheet.inspections import Caution, Characteristic, Fluid, read_on
from gudgeon.sheet.joints import Joint
from gudgeon.sheet.parts import Part
from gudgeon.sheet.waits import Waits
from gudgeon.written.fields import Day, Key, Section, Text, YesNo, written_parts

FORMAT = "data sheet 1"


class Sealant(Sourced):
    """A sealed joint and its two clocks: fit within the open time, fill after the cure."""

    name: Text
    where: Text
    open_time: StatedTime | None = None
    cure: StatedTime | None = None


class Settlement(Section):
    """What the person decided about one finding of the proof-reading; `finding` is its key.

    The key holds what was printed: a figure that changes is proof-read anew.
    """

    finding: Text
    decision: Literal["kept", "corrected", "asked"]
    why: Text
    who: Text | None = None
    on: Day | None = None
    about: Text | None = None


def _on_its_face(item: Characteristic, faces: dict[str, Face]) -> Characteristic:
    face = faces.get(item.face or "")
    if face is None or item.places:
        return item
    return item.model_copy(update={"places": tuple(read_on(item, face=face))})


class DataSheet(Section):
    """The person's own transcription of what the manual says of one engine."""

    gudgeon: Literal["data sheet 1"]
    invented: YesNo = False
    notice: Text | None = None
    engine: Engine
    sources: dict[Key, Book] = Field(min_length=1)
    cylinder: Cylinder | None = None
    head: Head | None = None
    faces: dict[Key, Face] = Field(default_factory=dict)
    characteristics: dict[Key, Characteristic] = Field(default_factory=dict)
    joints: dict[Key, Joint] = Field(default_factory=dict)
    drive: Drive | None = None
    valve_gear: ValveGear | None = None
    fits: Fits | None = None
    after_start: AfterStart | None = None
    fluids: dict[Key, Fluid] = Field(default_factory=dict)
    sealants: dict[Key, Sealant] = Field(default_factory=dict)
    waits: Waits = Field(default_factory=Waits)
    parts: dict[Key, Part] = Field(default_factory=dict)
    gates: tuple[GateOverruled, ...] = ()
    cautions: tuple[Caution, ...] = ()
    settled: tuple[Settlement, ...] = ()

    @model_validator(mode="before")
    @classmethod
    def _nothing_yet(cls, value: Any) -> Any:
        return written_parts(value, needed=("engine", "sources"))

    @field_validator("characteristics")
    @classmethod
    def _places_of_faces(
        cls, items: dict[str, Characteristic], info: ValidationInfo
    ) -> dict[str, Characteristic]:
        """Where a characteristic names a face and no places, it is read on the lines or the points of the face."""
        faces = info.data.get("faces", {})
        return {key: _on_its_face(item, faces) for key, item in items.items()}

    def lacks(self, feature: str) -> bool:
        """Whether the sheet says once that the engine does not have this."""
        return feature in self.engine.does_not_have
