"""Bolted joints: where the bolts stand, in which order, by which program, in which state.

A program is a list of stages, each a line such as `- torque: 25 N·m` or `- turn: 90° ± 5°`,
with what narrows it written below it: `only`, `order`, `family`, `repeat`, `for_bolts`. A stage at which the joint
is left on purpose says until when: `provisional: until the timing is proved`.
"""

from collections.abc import Iterator
from functools import cached_property
from typing import Annotated, Any, Literal

from pydantic import Discriminator, Field, PlainValidator, Tag, WithJsonSchema, model_validator

from gudgeon.quantity.written import Printed
from gudgeon.sheet.doubts import DoubtKind, DoubtRules
from gudgeon.sheet.fasteners import Bedding, Fastener, Friction, FrictionClass, Gasket, Layer
from gudgeon.sheet.figures import Sourced, StatedAngle
from gudgeon.sheet.inspections import Milestone
from gudgeon.sheet.reuse import Reuse
from gudgeon.sheet.waits import AgainAfter
from gudgeon.written.fields import (
    Angle,
    Duration,
    Gap,
    Key,
    Length,
    Name,
    Section,
    Text,
    Torque,
    Whole,
    YesNo,
    read_figure,
    refuse,
)

StageKind = Literal["hand-run", "draw down", "torque", "turn", "loosen", "verify", "stretch", "wait"]
STAGE_KINDS: tuple[StageKind, ...] = (
    "hand-run", "draw down", "torque", "turn", "loosen", "verify", "stretch", "wait",
)  # fmt: skip


Role = Literal[
    "cylinder head",
    "camshaft caps",
    "camshaft sprockets",
    "belt tensioner",
    "crank pulley",
    "valve cover",
    "intake manifold",
    "exhaust manifold",
    "water pump",
    "thermostat housing",
    "seal carrier",
    "timing cover",
    "engine mount",
    "spark plugs",
    "oil drain plug",
    "oil pan",
    "flywheel",
    "rod caps",
    "main caps",
]
"""What a joint is in any engine, so that holds and gates find it whatever the sheet calls it."""


def _loosen(value: Any) -> Printed | str:
    return "fully" if value == "fully" else read_figure(value, "angle")


def _order_shape(value: Any) -> str:
    return "free" if isinstance(value, str) else "listed"


Loosened = Annotated[
    Printed | str,
    PlainValidator(_loosen),
    WithJsonSchema({"type": ["string", "number"], "examples": ["fully", "180°"]}),
]
Order = Annotated[
    Annotated[tuple[Name, ...], Tag("listed")] | Annotated[Literal["free"], Tag("free")],
    Discriminator(_order_shape),
]


class Bolt(Section):
    """One place of a joint; coordinates in mm, seen from the stated side."""

    x: Length | None = None
    y: Length | None = None
    where: Text | None = None
    family: Key | None = None


def _bolts_shape(value: Any) -> str:
    return "by name" if isinstance(value, dict) else "count"


Bolts = Annotated[
    Annotated[Whole, Tag("count")] | Annotated[dict[Name, Bolt], Tag("by name")], Discriminator(_bolts_shape)
]


class Stage(Section):
    """One stage: exactly one kind, and what narrows it."""

    hand_run: Text | None = Field(default=None, alias="hand-run")
    draw_down: Angle | None = Field(default=None, alias="draw down")
    torque: Torque | None = None
    turn: Angle | None = None
    loosen: Loosened | None = None
    verify: Torque | None = None
    stretch: Gap | None = None
    wait: Duration | None = None
    only: tuple[Name, ...] = ()
    order: Literal["normal", "reversed", "free"] | None = None
    family: Key | None = None
    repeat: Whole = Field(default=1, ge=1, le=20)
    for_bolts: Literal["new", "used"] | None = None
    provisional: Text | None = None
    note: Text | None = None

    @classmethod
    def __get_pydantic_json_schema__(cls, core: Any, handler: Any) -> dict[str, Any]:
        """An editor is told that `- hand-run` may stand alone."""
        return {"anyOf": [{"const": "hand-run"}, handler(core)]}

    @model_validator(mode="before")
    @classmethod
    def _one_kind(cls, value: Any) -> Any:
        if value == "hand-run":
            return {"hand-run": "to contact"}
        if not isinstance(value, dict):
            raise refuse(f"A stage was expected, like `- torque: 25 N·m`; `{value}` was found.")
        named = [kind for kind in STAGE_KINDS if kind in value]
        if len(named) != 1:
            found = " and ".join(named) or "none"
            raise refuse(f"A stage names exactly one of: {', '.join(STAGE_KINDS)}; {found} was found.")
        if "provisional" in value and str(value["provisional"] or "").strip().lower() in (
            "yes",
            "no",
            "true",
        ):
            raise refuse("Write until when the joint stays so: `provisional: until the rear cover is on`.")
        return value

    @cached_property
    def kind(self) -> StageKind:
        """Which kind of stage it is."""
        for kind in STAGE_KINDS:
            if self._said(kind) is not None:
                return kind
        raise AssertionError("a stage has exactly one kind")

    @cached_property
    def figure(self) -> Printed | None:
        """The figure of the stage, where it has one."""
        said = self._said(self.kind)
        return said if isinstance(said, Printed) else None

    def _said(self, kind: StageKind) -> Any:
        return getattr(self, kind.replace("-", "_").replace(" ", "_"))


class Joint(Sourced):
    """A bolted joint with its bolts, order, program and thread state."""

    name: Text
    role: Role | None = None
    called: Literal["bolt", "nut", "stud", "screw", "plug"] = "bolt"
    fastener: Fastener | None = None
    families: dict[Key, Fastener] = Field(default_factory=dict)
    bolts: Bolts
    viewed_from: Text | None = None
    numbered_from: Text | None = None
    twelve_oclock: Text | None = None
    order: Order
    thread_state: Text
    program: tuple[Stage, ...] = Field(min_length=1)
    total_turn: StatedAngle | None = None
    loosening: tuple[Stage, ...] = ()
    loosening_order: tuple[Name, ...] = ()
    loosening_cold: YesNo = False
    reuse: Reuse | None = None
    before_work: tuple[Text, ...] = ()
    gasket: Gasket | None = None
    dowels: Text | None = None
    clamped: tuple[Layer, ...] = ()
    friction: Friction | None = None
    friction_class: FrictionClass | None = None
    bedding: Bedding | None = None
    doubt: Text | None = None
    doubts: dict[DoubtKind, DoubtRules] = Field(default_factory=dict)
    due_before: Milestone = "crank"
    witness: YesNo = False
    again_after: AgainAfter | None = None
    cautions: tuple[Text, ...] = ()

    @property
    def bolt_names(self) -> tuple[str, ...]:
        """The bolts as the sheet numbers them."""
        if isinstance(self.bolts, dict):
            return tuple(self.bolts)
        return tuple(str(number) for number in range(1, self.bolts + 1))

    @property
    def sequence(self) -> tuple[str, ...]:
        """The bolts in tightening order; where the order is free, as numbered."""
        return self.bolt_names if self.order == "free" else self.order

    def bolt(self, name: str) -> Bolt:
        """One bolt, with an empty description where the sheet gives none."""
        return self.bolts[name] if isinstance(self.bolts, dict) else Bolt()

    def fastener_of(self, name: str) -> Fastener | None:
        """The fastener that stands at a bolt's place."""
        family = self.bolt(name).family
        return self.families.get(family) if family else self.fastener

    def stage_bolts(self, stage: Stage, *, loosening: bool = False) -> tuple[str, ...]:
        """The bolts of one stage, in the order in which they are worked.

        A joint is loosened in reversed order, unless the sheet states an order for the teardown.
        """
        own_order = loosening and bool(self.loosening_order)
        sequence = self.loosening_order if own_order else self.sequence
        chosen = [name for name in sequence if not stage.only or name in stage.only]
        if stage.family:
            chosen = [name for name in chosen if self.bolt(name).family == stage.family]
        as_written = stage.order is None and (stage.kind != "loosen" or own_order)
        return tuple(chosen if as_written or stage.order in ("normal", "free") else reversed(chosen))

    def stages(self, *, bolts_are: str = "new", loosening: bool = False) -> Iterator[tuple[int, Stage]]:
        """The numbered stages that apply to new or to used bolts; numbers count the whole program."""
        for number, stage in enumerate(self.loosening if loosening else self.program, start=1):
            if stage.for_bolts in (None, bolts_are):
                yield number, stage
