"""What stands first in the answer: what came off and what still may, or whether a cut is possible at all."""

from gudgeon.bench.cut.errors import MoreThanTheHead
from gudgeon.bench.cut.gasket import choice
from gudgeon.bench.cut.given import Inputs
from gudgeon.bench.cut.known import Known
from gudgeon.bench.cut.laws import Laws
from gudgeon.bench.cut.limits import FURTHEST_MM, Least, Most, most
from gudgeon.bench.cut.said import down, verdict_of
from gudgeon.bench.cut.words import SAME_MM, bare, mm

NOT_LIMITED = (
    "That is by the other limits alone: the sheet does not say how much the head itself may lose, neither its least "
    "height nor the most that may come off. Cut nothing before that is looked up."
)


def as_meant(laws: Laws, cut: Known, *, named: bool) -> Laws:
    """The laws under the gasket that was named, else under the one that its maker means for the cut."""
    # A thickness that is none of the list is one that he chose himself.
    own = laws.gasket is None and laws.thickness is not None
    meant = None if named or own else choice(laws.inputs, in_all=laws.in_all(cut))
    if meant is None or meant.gasket is None or meant.gasket is laws.gasket:
        return laws
    return Laws(laws.inputs, laws.camshafts, meant.gasket)


def headline(laws: Laws, ends: tuple[Least | None, Most], *, asked: Known | None, named: bool) -> str:
    """What was made and what may still come off; before a cut is made, whether one is possible."""
    made = laws.inputs.head.made
    said = verdict_of(*ends) if made is None or made.value < SAME_MM else _made(laws, made.known, named=named)
    if ends[1].binding is not None and not laws.inputs.head.limited:
        said = f"{said} {NOT_LIMITED}"
    beyond = _beyond(laws.inputs, asked) if asked is not None else None
    if asked is None or beyond is None:
        return said
    limit, source = beyond
    return f"{mm(asked.value)} cannot come off: {limit} ({source}). {said}"


def _made(laws: Laws, cut: Known, *, named: bool) -> str:
    under = as_meant(laws, cut, named=named)
    high = most(under)
    came = f"{mm(cut.value)} came off"
    if high.surely_mm is None or high.binding is None:
        return f"{came}. The sheet states no limit that a cut would meet: how much more may come off cannot be said."
    left = high.surely_mm - cut.value
    gasket = f", with the gasket {under.gasket.name}" if under.gasket not in (None, laws.gasket) else ""
    binds = f"the {high.binding.what} binds{gasket}."
    if left < -SAME_MM:
        return f"{came}, {mm(-left)} more than may surely come off; {binds}"
    if down(left) < SAME_MM:
        return f"{came}; nothing more may surely come off; {binds}"
    return f"{came}; {mm(down(left))} may surely still come off; {binds}"


def refuse_too_much(inputs: Inputs, cut: Known) -> None:
    """Refuses a cut that would take the whole chamber, or more than anybody takes off a head."""
    depth = _chamber_mm(inputs)
    if cut.value <= min(FURTHEST_MM, depth if depth is not None else FURTHEST_MM):
        return
    limit, source = _beyond(inputs, cut) or _no_head(inputs, depth)
    raise MoreThanTheHead(mm(cut.value), limit=limit, source=source)


def _beyond(inputs: Inputs, cut: Known) -> tuple[str, str] | None:
    """By which figure the head cannot lose so much, and its source; nothing where no figure says so."""
    head = inputs.head
    if head.found is not None and head.least_height is not None:
        room = max(0.0, head.found.least.value - head.least_height.value)
        if cut.value > room + cut.expanded + SAME_MM:
            words = (
                f"as found the head is {head.found.least.text} high at its least place and has to stay at least "
                f"{bare(head.least_height.text)}, so it can lose {mm(room)}"
            )
            return words, head.least_height.source
    if head.most_off is not None and cut.value > head.most_off.value + cut.expanded + SAME_MM:
        return f"at most {bare(head.most_off.text)} may come off in all", head.most_off.source
    return None


def _no_head(inputs: Inputs, depth: float | None) -> tuple[str, str]:
    chamber = inputs.cylinder.chamber_volume
    if depth is not None and depth < FURTHEST_MM and chamber is not None:
        return f"the chamber of {chamber.text} would be gone at {mm(depth)}", chamber.source
    return f"nobody takes more than {mm(FURTHEST_MM)} off a head", "common practice"


def _chamber_mm(inputs: Inputs) -> float | None:
    """The cut at which nothing of the chamber is left, its mouth taken as wide all the way up."""
    volume, area = inputs.cylinder.chamber_volume, inputs.cylinder.mouth_area
    if volume is None or area is None or volume.value <= 0 or area.value <= 0:
        return None
    return 1000 * volume.value / area.value
