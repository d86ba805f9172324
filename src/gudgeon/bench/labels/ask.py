"""Which labels are printed, on which sheet, from which place on, flat or round a wire."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from gudgeon.bench.answer import Heading
from gudgeon.bench.context import Bench
from gudgeon.bench.labels.errors import KindUnknown, NoRoomForTheNote, NothingToLabel, TooManyLabels
from gudgeon.bench.labels.find import plain_code
from gudgeon.bench.labels.kinds import KINDS
from gudgeon.bench.labels.sheets import SheetSaid, sheet_of, start_of
from gudgeon.bench.labels.things import Label, labeled
from gudgeon.bench.places import stands_in
from gudgeon.calc.labels.arrange import Flag, flag
from gudgeon.calc.labels.sheet import LabelPlace, LabelSheet, places
from gudgeon.quantity.written import parse_amount

MOST_LABELS = 1_000
NOTE_MM = 5.0
"""A margin from here on holds two small lines inside what printers leave white."""
USUAL_WIRE = "6 mm"


@dataclass(frozen=True, slots=True)
class LabelsSaid:
    """What was asked for, in his own words; what is empty was not said.

    `only` holds keys, codes, place numbers, or words of a name. `everything` takes in what is back already. `wire` is
    the diameter of a wire to fold round, empty for flat labels; `outlines` draws them, for plain paper to cut.
    """

    kinds: tuple[str, ...] = ()
    only: tuple[str, ...] = ()
    everything: bool = False
    sheet: SheetSaid = field(default_factory=SheetSaid)
    start: str = ""
    wire: str = ""
    outlines: bool = False


@dataclass(frozen=True, slots=True)
class Labels:
    """The labels, the sheet, the place of each, and how each is parted where it folds round a wire.

    On a sheet without a margin that holds a line, one place of each is kept for `notes`: which book the labels are of.
    """

    heading: Heading
    labels: tuple[Label, ...]
    sheet: LabelSheet
    places: tuple[LabelPlace, ...]
    flag: Flag | None = None
    wire: str = ""
    wire_mm: float = 0.0
    outlines: bool = False
    notes: tuple[LabelPlace, ...] = ()

    @property
    def sheets(self) -> int:
        """How many sheets it takes."""
        return max(one.sheet for one in (*self.places, *self.notes))


def labels(bench: Bench, said: LabelsSaid | None = None, *, paper: str = "a4") -> Labels:
    """The labels of what is off, plugged or apart; refused where nothing is, or where the sheet cannot be."""
    said = said or LabelsSaid()
    sheet = sheet_of(said.sheet, paper=paper if paper in ("a4", "letter") else "a4")
    row, column = start_of(said.start, sheet)
    chosen = _chosen(labeled(bench), said)
    if len(chosen) > MOST_LABELS:
        raise TooManyLabels(len(chosen), most=MOST_LABELS)
    wire = parse_amount(said.wire, kind="length", default_unit="mm") if said.wire else None
    parted = (
        flag(width_mm=sheet.label_width_mm, height_mm=sheet.label_height_mm, wire_mm=wire.to("mm"))
        if wire
        else None
    )
    at, notes = _placed(sheet, count=len(chosen), row=row, column=column)
    return Labels(
        bench.heading("Labels"),
        chosen,
        sheet,
        at,
        parted,
        wire=str(wire) if wire else "",
        wire_mm=wire.to("mm") if wire else 0.0,
        outlines=said.outlines,
        notes=notes,
    )


def _placed(
    sheet: LabelSheet, *, count: int, row: int, column: int
) -> tuple[tuple[LabelPlace, ...], tuple[LabelPlace, ...]]:
    """The places of the labels, and those of the notes."""
    if max(sheet.top_mm, sheet.bottom_mm, sheet.left_mm, sheet.right_mm) >= NOTE_MM:
        return places(sheet, count=count, row=row, column=column), ()
    if sheet.rows * sheet.columns == 1:
        raise NoRoomForTheNote(least_mm=NOTE_MM)
    sheets = 0
    while True:
        at = places(sheet, count=count + sheets, row=row, column=column)
        if at[-1].sheet == sheets:
            break
        sheets = at[-1].sheet
    notes = {one.sheet: one for one in reversed(at)}
    return tuple(one for one in at if one != notes[one.sheet]), tuple(notes.values())[::-1]


def _chosen(every: Sequence[Label], said: LabelsSaid) -> tuple[Label, ...]:
    unknown = next((kind for kind in said.kinds if kind not in KINDS), None)
    if unknown is not None:
        raise KindUnknown(unknown, known=KINDS)
    found = [
        one
        for one in every
        if (one.open or said.everything)
        and (not said.kinds or one.kind in said.kinds)
        and _named(one, said.only)
    ]
    if not found:
        raise NothingToLabel(said.kinds, only=said.only)
    return tuple(sorted(found, key=lambda one: KINDS.index(one.kind)))


def _named(one: Label, only: Sequence[str]) -> bool:
    """Whether one is among those named; all are where none is."""
    return not only or any(
        (said and said.casefold() in (one.key.casefold(), one.number.casefold()))
        or plain_code(said) == one.code
        or stands_in(one.what, said=said)
        for said in only
    )
