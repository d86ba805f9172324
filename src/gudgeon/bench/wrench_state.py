"""What is to be said of a wrench itself: whether its check is due, and whether it was used where nothing proves it."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from gudgeon.bench.wrench_fit import share_of, usable, usable_words
from gudgeon.book.state import JointState
from gudgeon.calc.joint.wrench import permitted_deviation
from gudgeon.errors import InputError
from gudgeon.kit.model import Kit
from gudgeon.kit.torque import Wrench
from gudgeon.quantity.format import with_unit
from gudgeon.quantity.written import parse_amount
from gudgeon.sources.figures import Figure
from gudgeon.sources.tools import tool_figure


def check_due(wrench: Wrench, *, today: date) -> str:
    """Why the check of a wrench is due, by date, clicks or overload; empty where it is not, or nobody can say."""
    return "; ".join(_reasons(wrench, today))


def _reasons(wrench: Wrench, today: date) -> Iterator[str]:
    months, clicks = tool_figure("recheck_months"), tool_figure("recheck_cycles")
    if wrench.overloaded is not None and (wrench.checked is None or wrench.overloaded >= wrench.checked):
        yield f"check due: overloaded on {wrench.overloaded.isoformat()} and not checked since"
    if wrench.checked is not None and today >= (until := months_on(wrench.checked, int(months.value))):
        yield (
            f"check due since {until.isoformat()}: last checked on {wrench.checked.isoformat()}, "
            f"good for {months.value:g} months ({_by(months)})"
        )
    if wrench.clicks_since is not None and wrench.clicks_since >= clicks.value:
        yield (
            f"check due: {wrench.clicks_since:,} clicks since the last check, "
            f"good for {clicks.value:,.0f} ({_by(clicks)})"
        )


def _by(figure: Figure) -> str:
    return f"{figure.source.title}:{figure.source.edition}"


def not_said(wrench: Wrench) -> str:
    """What the kit leaves open about the check of a wrench; empty where it says enough."""
    if wrench.checked is None:
        return "no date of its last check: whether it is due cannot be said"
    return ""


def months_on(day: date, months: int) -> date:
    """The same day so many months later; the last of a month where it has no such day."""
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    for last in (day.day, 30, 29, 28):
        try:
            return date(year, month + 1, last)
        except ValueError:
            continue
    raise AssertionError("every month has 28 days")


class BeyondScale(InputError):
    """A setting that the wrench cannot have been set to."""

    def __init__(self, *, wrench: str, setting: str, end: str) -> None:
        super().__init__(
            f"{setting} cannot be the setting of the {wrench}: its scale ends at {end}, as your kit says. "
            "Read its scale again, or name the wrench that was used (--tool)."
        )


def setting_room(wrench: Wrench, setting: str) -> str:
    """How far a setting may lie from the one asked for: one step of the scale, or the permitted deviation if larger.

    What lies beyond the end of every scale of the wrench was not read off it, and is refused.
    """
    said = parse_amount(setting, kind="torque")
    scale = next((one for one in wrench.scales if one.unit == said.unit.symbol), wrench.scales[0])
    if all(said.to(one.unit) > one.high * (1 + 1e-6) for one in wrench.scales):
        end = " or ".join(f"{one.high:g} {one.unit}" for one in wrench.scales)
        raise BeyondScale(wrench=wrench.name, setting=setting, end=end)
    half = permitted_deviation(said.to(scale.unit), scale_max=scale.high, relative=share_of(wrench))
    return with_unit(max(scale.step.middle_in(scale.unit), half), scale.unit, decimals=scale.decimals + 2)


def override(kit: Kit, *, tool: str, setting: str) -> str:
    """That a recorded setting lies below the usable part of every scale of a wrench; empty where it does not.

    Nothing is refused: the pull was made. With its reason it stands in the book as an override.
    """
    wrench = kit.wrenches.get(tool)
    if wrench is None or not setting:
        return ""
    try:
        set_to = parse_amount(setting, kind="torque")
    except InputError:
        return ""  # what is no torque is told as such, by the joint itself
    if any(set_to.to(scale.unit) >= usable(scale)[0] * (1 - 1e-6) for scale in wrench.scales):
        return ""
    begins = " or ".join(f"{usable(scale)[0]:g} {scale.unit}" for scale in wrench.scales)
    return (
        f"{wrench.name} set to {setting}, below {begins}, where its usable part begins: "
        "how far it was off is not known"
    )


@dataclass(frozen=True, slots=True)
class Override:
    """Pulls of one stage that were made below the usable part of a wrench."""

    tool: str
    words: str


def overrides(kit: Kit, joint: JointState | None) -> dict[int, tuple[Override, ...]]:
    """By stage, the pulls of a joint that were made below the usable part of their wrench."""
    bolts: dict[tuple[int, str, str], list[str]] = {}
    for (stage, _, bolt), pull in joint.pulls.items() if joint is not None else ():
        if below := override(kit, tool=pull.tool, setting=pull.setting):
            why = f"why: {pull.why}" if pull.why else "no reason is recorded"
            bolts.setdefault((stage, pull.tool, f"{below}; {why}"), []).append(bolt)
    found: dict[int, tuple[Override, ...]] = {}
    for (stage, tool, words), names in bolts.items():
        once = sorted(set(names), key=lambda name: (not name.isdecimal(), name.zfill(4)))
        which = f"bolt{'s' if len(once) > 1 else ''} {', '.join(once)}"
        found[stage] = (*found.get(stage, ()), Override(tool, f"override on {which}: {words}"))
    return found


def used_words(wrench: Wrench) -> str:
    """The usable part of each scale."""
    return "; ".join(usable_words(scale) for scale in wrench.scales)
