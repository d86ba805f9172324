"""The shop order: what a machinist works from, and what leaves the garage with the part."""

import shlex
from dataclasses import dataclass

from gudgeon.bench.answer import Heading
from gudgeon.bench.context import Bench
from gudgeon.bench.cut.inputs import gather
from gudgeon.bench.cut.limits import least
from gudgeon.bench.shop.face_now import face_now, told_when
from gudgeon.bench.shop.finish import Finish, finish_of
from gudgeon.bench.shop.found import (
    FoundLine,
    PartKind,
    face_key,
    flatness_found,
    limit_words,
    readings_found,
)
from gudgeon.bench.shop.ordered import less_than_cleans, order_of, part_name
from gudgeon.bench.shop.room import Room, room_of_block, room_of_head
from gudgeon.bench.shop.send_back import Figure, send_back
from gudgeon.bench.shop.straighten import Straighten, camshafts, straighten
from gudgeon.bench.shop.work import Step, Telling, never, ordered_words, steps

QUESTION = "What do I order at the machine shop?"
NO_DATUM = (
    "not in the sheet (head: datum): agree with the shop which machined face it sets the part up from, and write it "
    "here. Not the warped face itself"
)
NO_STAYS = "not in the sheet (head: stays): write here what is on the part when it leaves"
NO_DATUM_BLOCK = "agree with the shop which machined face it sets the block up from, and write it here"
NO_STAYS_BLOCK = "write here what is on the block when it leaves"


@dataclass(frozen=True, slots=True)
class ShopOrder:
    """The answer to “What do I order at the machine shop?”.

    `been` says what the book knows of this part at a shop before. `ordered`, `most_off` and `record` are what
    `gudgeon record shop-out` would write: the order itself writes nothing.
    """

    heading: Heading
    kind: PartKind
    part: str
    code: str
    material: str
    been: str
    work: tuple[Step, ...]
    face: str
    flatness: tuple[FoundLine, ...]
    flatness_limit: str
    heights: tuple[FoundLine, ...]
    heights_limit: str
    room: Room
    datum: str
    datum_source: str
    finish: Finish
    straighten: Straighten | None
    stays: tuple[str, ...]
    never: tuple[Telling, ...]
    send_back: tuple[Figure, ...]
    missing: tuple[str, ...]
    ordered: str
    most_off: str
    record: str


def shop_order(bench: Bench, *, part: PartKind = "head") -> ShopOrder:
    """The order for the head, or for the block under it, as sheet and book stand now."""
    bench.unlock()
    head = bench.sheet.head if part == "head" else None
    due = straighten(bench) if part == "head" else None
    room = room_of_head(bench) if part == "head" else room_of_block(bench)
    finish = finish_of(bench, part=part)
    name, key = part_name(bench, part=part), face_key(bench, part=part)
    height = _heights_key(bench, part)
    caps = (
        part == "head" and camshafts(bench.sheet) != "in the block" and not bench.sheet.lacks("camshaft caps")
    )
    datum = head.datum if head is not None else None
    work, stays = steps(room, due=due), head.stays if head is not None else ()
    ordered = ordered_words(work, finish=finish.asked, stays=stays)
    return ShopOrder(
        heading=bench.heading(QUESTION),
        kind=part,
        part=name,
        code=_code(bench),
        material=(head.material or "") if head is not None else "",
        been=_been(bench, part),
        work=work,
        face=_face(bench, key),
        flatness=_flatness(bench, part, key),
        flatness_limit=limit_words(bench, key) if key is not None else "",
        heights=readings_found(bench, height) if height is not None else (),
        heights_limit=limit_words(bench, height) if height is not None else "",
        room=room,
        datum=datum or (NO_DATUM if part == "head" else NO_DATUM_BLOCK),
        datum_source=_cited(bench, part) if datum else "",
        finish=finish,
        straighten=due,
        stays=stays or (NO_STAYS if part == "head" else NO_STAYS_BLOCK,),
        never=never(room, caps=caps, head=part == "head"),
        send_back=send_back(bench, part=part),
        missing=_missing(bench, part, key, room, due),
        ordered=ordered,
        most_off=room.most_off,
        record=_record(name, ordered, room.most_off),
    )


def _flatness(bench: Bench, part: PartKind, key: str | None) -> tuple[FoundLine, ...]:
    """How flat the face was found, and which of it was read before its last cut."""
    if key is None:
        return ()
    return told_when(flatness_found(bench, key), face_now(bench, key, part=part))


def _code(bench: Bench) -> str:
    read = bench.state.identity
    return read.code if read is not None else ""


def _been(bench: Bench, part: PartKind) -> str:
    """What is to be known before the same part is ordered a second time."""
    before = order_of(bench, part=part)
    if before is None:
        return ""
    if not before.back:
        less = less_than_cleans(before, least(gather(bench))) if part == "head" else ""
        said = f"By the book it is away, at {before.shop}, ordered: {_sentence(before.ordered)}"
        return f"{said} {less}".rstrip()
    return (
        f"It was at {before.shop} and came back. It was ordered: {_sentence(before.ordered)} What follows is a new "
        "order, by what was read last."
    )


def _sentence(words: str) -> str:
    """What another wrote, with the stop that ends it."""
    said = words.rstrip()
    return said if said.endswith((".", "!", "?", ":")) else f"{said}."


def _face(bench: Bench, key: str | None) -> str:
    item = bench.sheet.characteristics[key] if key is not None else None
    face = bench.sheet.faces.get(item.face or "") if item is not None else None
    if face is not None:
        return face.name
    return item.name if item is not None else ""


def _heights_key(bench: Bench, part: PartKind) -> str | None:
    """The characteristic that holds the height of the head, or of a block how high its pistons stand."""
    head, cylinder = bench.sheet.head, bench.sheet.cylinder
    if part == "head":
        key = head.measured_as if head is not None else None
    else:
        key = cylinder.measured_as.get("piston_height") if cylinder is not None else None
    return key if key in bench.sheet.characteristics else None


def _cited(bench: Bench, part: PartKind) -> str:
    head = bench.sheet.head
    return str(head.source) if head is not None and part == "head" and head.source is not None else ""


def _missing(
    bench: Bench, part: PartKind, key: str | None, room: Room, due: Straighten | None
) -> tuple[str, ...]:
    """What the order would say if it were known."""
    said = list(room.missing)
    if due is not None:
        said += due.missing
    if key is None:
        said.append(f"how flat the {part} is: no characteristic of the sheet is read on its gasket face")
    if part == "head" and (bench.sheet.head is None or bench.sheet.head.datum is None):
        said.append("the face it is set up from (head: datum)")
    return tuple(dict.fromkeys(said))


def _record(name: str, ordered: str, most_off: str) -> str:
    """The command that keeps the order in the book, once the part is given away."""
    words = ["gudgeon", "record", "shop-out", name, "--shop", "…", "--ordered", ordered]
    words += ["--most-off", most_off] if most_off else []
    return " ".join(word if word == "…" else _quoted(word) for word in words)


def _quoted(word: str) -> str:
    """A word as a shell takes it, in double quotes where that is enough."""
    if shlex.quote(word) == word:
        return word
    return f'"{word}"' if not set(word) & set('"$`\\!') else shlex.quote(word)
