"""The clamp of a joint as a picture: the band of each bolt after the last stage, against where it yields."""

from collections.abc import Sequence
from dataclasses import dataclass

from gudgeon.bench.clamp import BoltClamp, Clamp
from gudgeon.bench.clamp_words import force
from gudgeon.errors import InputError


class NoClampToDraw(InputError):
    """A joint whose clamp cannot be said."""

    def __init__(self, said: str) -> None:
        super().__init__(f"No clamp is drawn. {said}")


@dataclass(frozen=True, slots=True)
class ClampBar:
    """One bolt: the ends and the middle of the band that holds 90 of 100 tightenings, and its words."""

    bolt: str
    where: str
    low_n: float
    middle_n: float
    high_n: float
    clamp: str
    band: str
    of_yield: str


@dataclass(frozen=True, slots=True)
class ClampPicture:
    """All bolts of a joint on one scale of force; `least` says what every bolt of a family has."""

    joint: str
    name: str
    called: str
    stage: str
    bars: tuple[ClampBar, ...]
    most_n: float
    most: str
    least: tuple[str, ...]
    of_yield: str
    words: str


def clamp_picture(answer: Clamp) -> ClampPicture:
    """The last stage of an answer, bolt by bolt; refused where the clamp cannot be said."""
    if not answer.stages:
        raise NoClampToDraw(answer.said)
    last = answer.stages[-1]
    bars = tuple(_bar(one) for one in last.bolts)
    most = _round_up(max((one.high_n for one in bars), default=0.0))
    least = tuple(
        f"{row.family + ': ' if row.family else ''}every {answer.called} has at least {row.every_bolt}, "
        "95 of 100 times"
        for row in last.families
        if row.every_bolt
    )
    return ClampPicture(
        answer.joint, answer.name, answer.called, f"After stage {last.stage}: {last.words}", bars, most, force(most),
        least, answer.of_yield, _words(answer, bars, least),
    )  # fmt: skip


def _bar(one: BoltClamp) -> ClampBar:
    where = ", ".join(filter(None, (one.where, one.family)))
    return ClampBar(one.bolt, where, one.low_n, one.clamp_n, one.high_n, one.clamp, one.band, one.of_yield)


def _round_up(most_n: float) -> float:
    """The next of 1, 2, 3, 4, 5, 6, 8, 10 times a power of ten: where the scale ends."""
    power = 1.0
    while 10 * power < most_n:
        power *= 10
    return next((step * power for step in (1, 2, 3, 4, 5, 6, 8, 10) if step * power >= most_n), 10 * power)


def _words(answer: Clamp, bars: Sequence[ClampBar], least: Sequence[str]) -> str:
    said = [
        f"{answer.called} {one.bolt}: {one.clamp}"
        + (f", from {one.band}" if one.band else "")
        + (f", {one.of_yield} of yield" if one.of_yield else "")
        for one in bars
    ]
    return ". ".join([f"Clamp of {answer.name}", "; ".join(said), *least]) + "."
