"""Line by line: height, flatness, roughness, chambers, cam tunnel and test, as left against what is asked of them."""

from collections.abc import Iterator
from dataclasses import dataclass

from gudgeon.bench.context import Bench
from gudgeon.bench.cut.words import mm
from gudgeon.bench.holds import standings
from gudgeon.bench.judging.decision import decide, value_of
from gudgeon.bench.judging.evaluate import findings
from gudgeon.bench.judging.finding import NOT_MEASURED
from gudgeon.bench.measured import Measured, measured_in
from gudgeon.bench.scans import scanned_in
from gudgeon.bench.shop.found import PartKind, face_key, limit_words
from gudgeon.bench.shop.send_back import roughness_key
from gudgeon.bench.shop.taken import spread_words
from gudgeon.sheet.figures import Stated
from gudgeon.sheet.inspections import place_names

AS_LEFT = "as left"
WORST = ("outside", "in doubt", NOT_MEASURED, "no limit given", "inside")


@dataclass(frozen=True, slots=True)
class Check:
    """One line: what was asked, what came back, the verdict, what follows, and where the limit stands."""

    what: str
    asked: str
    got: str
    verdict: str
    follows: str
    source: str


@dataclass(frozen=True, slots=True)
class NotBack:
    """A figure that is not in the book as left: what, the command that keeps it, why it is missing, what limits it."""

    what: str
    command: str
    why: str
    asked: str = ""


def of_the_head(bench: Bench, part: PartKind) -> Iterator[Check | NotBack]:
    """The height by its least place, the chambers, the cam tunnel, the test for cracks."""
    head, cylinder = bench.sheet.head, bench.sheet.cylinder
    if part != "head":
        return
    if head is not None and head.measured_as in bench.sheet.characteristics and head.least_height is not None:
        source = str(head.cited(head.least_height) or "")
        yield from _least_height(bench, head.measured_as or "", head.least_height, source)
    chamber = cylinder.measured_as.get("chamber_volume") if cylinder is not None else None
    if chamber is not None and chamber in bench.sheet.characteristics:
        yield from _limited(bench, chamber)
    else:
        yield NotBack(
            "depth or volume of the chambers",
            "",
            "the sheet has no place for it (cylinder: measured_as: chamber_volume)",
        )
    tunnel = head.cam_tunnel if head is not None else None
    if tunnel is not None and tunnel in bench.sheet.characteristics:
        yield from _limited(bench, tunnel)
    elif not bench.sheet.lacks("overhead cam"):
        yield NotBack("cam tunnel", "", "the sheet names nothing that shows it (head: cam_tunnel)")
    yield from _tested(bench)


def of_the_face(bench: Bench, part: PartKind) -> Iterator[Check | NotBack]:
    """Flatness and roughness of the gasket face."""
    key = face_key(bench, part=part)
    if key is None:
        yield NotBack("flatness of the face", "", "no characteristic of the sheet is read on it")
    else:
        yield from _limited(bench, key)
    yield from _roughness(bench, part)


def _least_height(bench: Bench, key: str, stated: Stated, source: str) -> Iterator[Check | NotBack]:
    read = measured_in(bench, key, condition=AS_LEFT)
    low, high = stated.value.low_in("mm"), stated.value.high_in("mm")
    limit = low if low is not None else high
    if not read or limit is None:
        return
    place, one = min(read.items(), key=lambda pair: pair[1].low)
    value = value_of(one)
    found = decide(value, low=limit, high=None)
    spare = (one.low + one.high) / 2 - limit
    words = mm(abs(spare))
    follows = f"{words} above the least" if spare >= 0 else f"{words} too thin: do not fit it"
    asked = f"at least {stated.value.text.removeprefix('min ')}"
    verdict = found.verdict if one.u_known else "in doubt"
    yield Check(
        "Least height", asked, f"{one.text}, {spread_words(value)}, at {place}", verdict, follows, source
    )


def _limited(bench: Bench, key: str) -> Iterator[Check | NotBack]:
    """A characteristic as left against its own limits: the worst of its verdicts, and where."""
    item = bench.sheet.characteristics[key]
    read = measured_in(bench, key, condition=AS_LEFT)
    scan = scanned_in(bench, key, condition=AS_LEFT)
    if not read and scan is None:
        yield NotBack(
            f"{item.name} as left",
            f"gudgeon record reading {key}",
            "not read since it came back",
            limit_words(bench, key),
        )
        return
    found = [one for _, one in findings(bench, key, readings=read)]
    worst = min((one.verdict for one in found), key=WORST.index, default="no limit given")
    at = [one.place for one in found if one.verdict == worst and one.place]
    missing = [one for one in place_names(item) if one not in read] if scan is None else []
    follows = (
        "" if worst in ("inside", "no limit given") else f"at {', '.join(dict.fromkeys(at))}" if at else ""
    )
    yield Check(
        item.name, limit_words(bench, key), "; ".join(_shown(read)) or "scanned, as left", worst, follows, ""
    )  # fmt: skip
    if missing:
        yield NotBack(
            f"{item.name} as left: {', '.join(missing)}",
            f"gudgeon record reading {key}",
            "not read since it came back",
        )


def _shown(read: dict[str, Measured]) -> Iterator[str]:
    """Readings that say the same are said once, with how many places they are of."""
    by_text: dict[str, list[str]] = {}
    for place, one in read.items():
        by_text.setdefault(one.text, []).append(place)
    for text, places in by_text.items():
        where = f"{len(places)} places" if len(places) > 1 else places[0]
        yield f"{text} at {where}" if where else text


def _roughness(bench: Bench, part: PartKind) -> Iterator[Check | NotBack]:
    head = bench.sheet.head if part == "head" else None
    stated = head.finish if head is not None else None
    key = roughness_key(bench, part=part)
    asked = f"Ra {stated.value.text}" if stated is not None else ""
    if key is None:
        yield NotBack(
            "roughness Ra of the face", "",
            "the sheet has no place for it; ask the shop for its figure, and keep it with what was found", asked,
        )  # fmt: skip
        return
    item, read = bench.sheet.characteristics[key], measured_in(bench, key, condition=AS_LEFT)
    if stated is None or not read:
        yield from _limited(bench, key)
        return
    low, high = stated.value.low_in("µm"), stated.value.high_in("µm")
    low = None if stated.value.first.single else low
    verdicts = {
        decide(value_of(one), low=low, high=high).verdict if one.u_known else "in doubt"
        for one in read.values()
    }
    worst = min(verdicts, key=WORST.index)
    source = str(head.cited(stated) or "") if head is not None else ""
    follows = "" if worst == "inside" else "ask the maker of the gasket before it is fitted"
    yield Check(item.name, asked, "; ".join(_shown(read)), worst, follows, source)


def _tested(bench: Bench) -> Iterator[Check | NotBack]:
    for one in standings(bench.sheet, bench.state):
        if one.hold.id != "head_tested":
            continue
        if one.stands:
            yield Check("Test for cracks", "tested", one.value, "proved", "", "")
        else:
            yield NotBack("test for cracks", "gudgeon record hold head_tested …", one.why_not, "tested")
