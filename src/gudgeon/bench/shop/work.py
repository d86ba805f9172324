"""The work of an order, in its order; what is not to be done; and the text that goes into the book."""

from dataclasses import dataclass

from gudgeon.bench.shop.room import Room
from gudgeon.bench.shop.straighten import BY_HAND, Straighten

PRACTICE = "common practice"


@dataclass(frozen=True, slots=True)
class Step:
    """One step of the work: what, why, and on what that rests; `short` is what the book keeps of it."""

    what: str
    why: str
    basis: str
    short: str


@dataclass(frozen=True, slots=True)
class Telling:
    """Something that is not to be done, and on what that rests."""

    words: str
    basis: str


def steps(room: Room, *, due: Straighten | None) -> tuple[Step, ...]:
    """What is to be done, what has to come first standing first; without a tunnel in the part there is none to bend."""
    return (
        *_straighten(due),
        Step(
            "Clean it and test it for cracks, under pressure or with dye, before anything is cut",
            "A cracked part is not worth cutting, and a flat face says nothing of cracks",
            PRACTICE,
            "Test for cracks.",
        ),
        *_cut(room, straightened=due is not None and due.due == "straighten first"),
        Step(
            "Wash it after the last cut: every oil passage and water passage clear of chips and grit, threads too",
            "What stays in an oil passage goes through the bearings at the first start",
            PRACTICE,
            "Wash all passages.",
        ),
    )


def _straighten(due: Straighten | None) -> tuple[Step, ...]:
    if due is None:
        return ()
    first = "Straighten it before it is cut, until every camshaft turns free in its caps"
    if due.due == "straighten first":
        return (Step(first, due.why, due.source, "Straighten until the camshafts turn free in their caps."),)
    if due.due in ("in doubt", "not worked out"):
        return (
            Step(
                f"Try the camshafts first. {BY_HAND}. Where one binds: {first[0].lower()}{first[1:]}",
                due.why,
                due.source,
                "Straighten first where a camshaft binds in its caps.",
            ),
        )
    return ()


def _cut(room: Room, *, straightened: bool) -> tuple[Step, ...]:
    why = _joined(room.least_why, "once it is straight it takes less" if straightened else "", room.most_why)
    basis = "; ".join(dict.fromkeys(filter(None, [room.least_source, room.most_source])))
    if room.verdict == "nothing to take off":
        most = f". If something has to come off all the same: {room.at_most}" if room.most else ""
        what = f"Cut nothing off before we have talked: by its flatness the face may stay as it is{most}"
        return (Step(what, why, basis, f"Cut nothing off without asking{most}."),)
    if room.verdict == "not read since":
        most = f". If something has to come off all the same: {room.at_most}" if room.most else ""
        what = f"Cut nothing off before its face is read again: how flat it is now is not known{most}"
        return (Step(what, why, basis, f"Cut nothing off before the face is read again{most}."),)
    about = f", about {room.least}," if room.least else ""
    if room.verdict != "room" or not room.most:
        needs = f". To clean it up takes {room.least}" if room.least else ""
        return (Step(f"Do not cut it before we have talked{needs}", why, basis, "Do not cut before asking."),)
    what = f"Cut the gasket face: the least{about} that cleans it up, {room.at_most}"
    short = f"Then off the gasket face the least that cleans it up, {room.at_most}."
    return (Step(what, why, basis, short),)


def _joined(*texts: str) -> str:
    """Texts as one sentence: what begins one by itself goes on in it."""
    first, *rest = [text for text in texts if text] or [""]
    return "; ".join((first, *(text[0].lower() + text[1:] for text in rest)))


def never(room: Room, *, caps: bool, head: bool) -> tuple[Telling, ...]:
    """What is not to be done to the part."""
    more = f"Take no more than {room.most} off" if room.most else "Take nothing off that was not agreed"
    told = [f"{more}, whatever is found. Stop and call"]
    if head:
        told.append("Leave valve guides and valve seats as they are, unless it says so under the work")
    if caps:
        told += [
            "Cut nothing off the joints of the camshaft caps and do not file the caps: the bores would no longer be "
            "round",
            "Do not change caps from place to place, nor turn them round",
        ]
    told += [
        "No sanding disc and no bristle disc on the face: they round its edges, and their grit stays in the oil "
        "passages",
        "No wire wheel on the face or near an oil passage, and no blasting of open passages",
        "Leave every stamped number and mark legible",
    ]
    return tuple(Telling(words, PRACTICE) for words in told)


def ordered_words(work: tuple[Step, ...], *, finish: str, stays: tuple[str, ...]) -> str:
    """The order in a few sentences, as the book keeps it."""
    said = [one.short for one in work]
    if finish:
        said.append(f"Roughness of the face: {finish}.")
    if stays:
        said.append(f"Stays: {', '.join(stays)}.")
    return " ".join([*said, "Ask before taking more."])
