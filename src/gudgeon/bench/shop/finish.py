"""The finish to ask for: the maker's own figure first, then what the trade asks for by gasket, as it disagrees."""

import re
from dataclasses import dataclass

from gudgeon.bench.context import Bench
from gudgeon.quantity.format import in_order, number
from gudgeon.quantity.units import convert
from gudgeon.sources.finish import AskedFinish, asked_finishes

NO_METAL = (
    "The metal of the {part} is not named in the sheet: what the trade asks for aluminum alone, or for iron alone, is "
    "left out"
)
RULE = (
    "The figure of the maker of the gasket that goes on decides, then that of the engine's maker; the figures of the "
    "trade below only show what to expect where neither is known. They do not agree with one another."
)


@dataclass(frozen=True, slots=True)
class FinishRow:
    """What one source of the trade asks for; `against` says how the sheet's own figure lies to it."""

    gasket: str
    metal: str
    asked: str
    against: str
    source: str


@dataclass(frozen=True, slots=True)
class Finish:
    """The finish to ask for: the sheet's figure and its source, the rows of the trade, where they clash.

    `metal` says that the metal is not named, so that what is asked for one metal alone is left out.
    """

    asked: str
    source: str
    rows: tuple[FinishRow, ...]
    disagree: tuple[str, ...]
    metal: str = ""
    rule: str = RULE


def finish_of(bench: Bench, *, part: str = "head") -> Finish:
    """The finish to ask for on the head, or on a block, of whose face the sheet states none."""
    head = bench.sheet.head if part == "head" else None
    stated = head.finish if head is not None else None
    ends = (stated.value.low_in("µm"), stated.value.high_in("µm")) if stated is not None else (None, None)
    if stated is not None and stated.value.first.single:
        ends = (None, ends[1])
    wanted = metal_of(head.material) if head is not None else ""
    listed = [one for one in asked_finishes() if not one.metal or one.metal == wanted]
    cited = head.cited(stated) if head is not None else None
    note = f", {stated.note}" if stated is not None and stated.note else ""
    return Finish(
        f"{stated.value.text}{note}" if stated is not None else "",
        str(cited) if stated is not None and cited is not None else "",
        tuple(_row(one, ends, stated=stated is not None) for one in listed),
        tuple(_disagree(listed)),
        "" if wanted else NO_METAL.format(part=part),
    )


def metal_of(material: str | None) -> str:
    """`aluminum` or `iron`, where the words for the material leave no doubt; else nothing."""
    words = re.findall(r"[a-z]+", (material or "").lower())
    aluminum, iron = any(word.startswith("alumin") for word in words), "iron" in words
    if aluminum == iron:
        return ""
    return "aluminum" if aluminum else "iron"


def asked_words(one: AskedFinish) -> str:
    """`0.69–1.19 µm (27–47 µin) Ra`, an open end in words."""
    ends = [end for end in (one.least_um, one.most_um) if end is not None]
    bound = "" if len(ends) == 2 else "at most " if one.least_um is None else "not under "
    return f"{bound}{_ra(*ends)} Ra" + (f", {one.usually}" if one.usually else "")


def _ra(*ends_um: float) -> str:
    """In both systems, in whole microinches as the trade prints them."""
    inch = [convert(end, frm="µm", to="µin", kind="roughness") for end in ends_um]
    metric, others = (
        "–".join(number(end, decimals=decimals) for end in ends)
        for ends, decimals in ((ends_um, 2), (inch, 0))
    )
    return in_order(f"{metric} µm", inch=f"{others} µin")


def _row(one: AskedFinish, ends: tuple[float | None, float | None], *, stated: bool) -> FinishRow:
    return FinishRow(
        one.gasket, one.metal, asked_words(one), _against(one, ends) if stated else "", str(one.source)
    )


def _against(one: AskedFinish, ends: tuple[float | None, float | None]) -> str:
    """Whether a face that satisfies the sheet satisfies this source too."""
    low, high = ends
    if one.most_um is not None and (high is None or high > one.most_um + 1e-9):
        if low is not None and low > one.most_um + 1e-9:
            return "the sheet asks for a rougher face"
        return "the sheet lets the face be rougher"
    if one.least_um is not None and (low is None or low < one.least_um - 1e-9):
        if high is not None and high < one.least_um - 1e-9:
            return "the sheet asks for a smoother face"
        return "the sheet lets the face be smoother"
    return "agrees with the sheet"


def _disagree(listed: list[AskedFinish]) -> list[str]:
    """For each kind of gasket how far its sources differ, and which of them cannot both be met."""
    said = []
    for gasket in dict.fromkeys(one.gasket for one in listed):
        own = [one for one in listed if one.gasket == gasket]
        most = [one.most_um for one in own if one.most_um is not None]
        if len(most) > 1 and max(most) > min(most):
            said.append(
                f"{_named(gasket)}: the roughest that passes is {_ra(min(most))} Ra by one source, "
                f"{_ra(max(most))} Ra by another"
            )
    told: set[tuple[str, str, str, str]] = set()
    for index, one in enumerate(listed):
        for other in listed[index + 1 :]:
            both = (one.gasket, one.metal, other.gasket, other.metal)
            met = "not named" in (one.gasket, other.gasket) or one.gasket == other.gasket
            if not met or both in told or not one.clashes(other):
                continue
            told.add(both)
            said.append(
                f"no face satisfies both {_who(one)} ({asked_words(one)}) and {_who(other)} ({asked_words(other)})"
            )
    return said


def _named(gasket: str) -> str:
    return "Gasket not named" if gasket == "not named" else f"{gasket[0].upper()}{gasket[1:]} gasket"


def _who(one: AskedFinish) -> str:
    gasket = "any gasket" if one.gasket == "not named" else f"a {one.gasket} gasket"
    return f"what one source asks for {gasket}" + (f" on {one.metal}" if one.metal else "")
