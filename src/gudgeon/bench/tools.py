"""Which of his tools does a stage, what to set on its own scale, and what to do when none does."""

import re
from dataclasses import dataclass
from datetime import date

from gudgeon.bench.context import clock
from gudgeon.bench.ways_out import ways_out
from gudgeon.bench.wrench_fit import Fit, Wanted, fits, fits_with_adapter, serves, usable, wanted
from gudgeon.bench.wrench_state import check_due
from gudgeon.kit.model import Kit
from gudgeon.quantity.units import convert
from gudgeon.quantity.written import Printed
from gudgeon.sheet.joints import Joint, Stage

NO_BAR = (
    "your kit has no bar and no ratchet, and a torque wrench is none: it is never used for loosening",
    "borrow or buy a bar (a breaker bar with the right socket); a torque wrench does not come back true from loosening",
)
NO_ARM = (
    "a turn may end far above the range of a torque wrench, and your kit has no bar and no ratchet to turn with",
    "borrow or buy a bar (a breaker bar with the right socket), and turn to a painted mark or by an angle gauge",
)
NO_GAUGE = "no angle gauge in the kit: mark the head and turn to the mark"


@dataclass(frozen=True, slots=True)
class Choice:
    """A tool for a stage: what to set on it, and how far off it may be.

    `name` is what he takes into his hand: of a wrench that takes an adapter both, as the setting is wrong without it.
    `note` says in words all that has to be known with it; the last fields say the same one by one.
    """

    tool: str
    name: str
    setting: str
    exact: str
    rounding: str
    error: str
    note: str
    ways_out: tuple[str, ...]
    adapter: str = ""
    """The adapter to put on, by its key in the kit; the setting is then lower than the torque."""
    through: str = ""
    """The adapter in words, with how it stands: `15 mm crow-foot, straight out`."""
    driver: str = ""
    """What to turn with, where the tool only measures the angle."""
    check_due: str = ""
    """Why the wrench should be checked before it is trusted."""
    override: str = ""
    """Which wrench would show the torque below its usable part, and how that would be recorded."""

    @property
    def found(self) -> bool:
        """Whether one of his tools does it."""
        return bool(self.tool)


def choose(kit: Kit, stage: Stage, *, today: date | None = None, left_hand: bool = False) -> Choice:
    """The tool for a stage: the torque wrench with the least total error, an angle gauge, a bar, or none."""
    if stage.kind in ("torque", "verify") and stage.figure is not None:
        return _torque(kit, stage.figure, today or clock().astimezone().date(), left_hand=left_hand)
    if stage.kind == "draw down":
        return _first(kit, ("ratchet", "bar")) or _plain("a ratchet, by hand")
    if stage.kind == "turn":
        return _turn(kit)
    if stage.kind == "loosen":
        return _first(kit, ("bar", "ratchet")) or _none(*NO_BAR)
    words = {"hand-run": "by hand", "wait": "a clock", "stretch": "a micrometer over the bolt"}[stage.kind]
    return _plain(words)


def is_left_hand(joint: Joint) -> bool:
    """Whether the sheet calls a thread of the joint left-hand: `M10x1.25 LH`, `M16 left-hand`."""
    fasteners = [one for one in (joint.fastener, *joint.families.values()) if one is not None]
    return any(re.search(r"\b(LH|left[- ]hand)\b", one.thread or "") for one in fasteners)


def _plain(words: str, note: str = "", *, driver: str = "") -> Choice:
    return Choice("", words, "", "", "", "", note, (), driver=driver)


def _none(note: str, way: str) -> Choice:
    return Choice("", "", "", "", "", "", note, (way,))


def _first(kit: Kit, kinds: tuple[str, ...]) -> Choice | None:
    """The first tool for turning of the kinds wanted, the best kind first."""
    for kind in kinds:
        for key, tool in kit.turning.items():
            if tool.kind == kind:
                error = f"± {tool.error.text.lstrip('± ')}" if tool.error is not None else ""
                return Choice(key, tool.name, "", "", "", error, "", ())
    return None


def _turn(kit: Kit) -> Choice:
    """What measures the angle, and the bar that turns: a torque wrench may be past its range before the mark."""
    measure, bar = _first(kit, ("angle gauge", "paint marks")), _first(kit, ("bar", "ratchet"))
    if bar is None:
        if measure is None:
            return _none(*NO_ARM)
        return Choice(measure.tool, measure.name, "", "", "", measure.error, NO_ARM[0], ())
    note = f"turn with the {bar.name}, not with a torque wrench"
    if measure is None:
        return _plain(NO_GAUGE, note, driver=bar.name)
    return Choice(measure.tool, measure.name, "", "", "", measure.error, note, (), driver=bar.name)


def _torque(kit: Kit, printed: Printed, today: date, *, left_hand: bool) -> Choice:
    asked = wanted(printed)
    turning = {key: one for key, one in kit.wrenches.items() if serves(one, left_hand=left_hand)}
    able = kit.model_copy(update={"wrenches": turning})
    near = fits(able, asked)
    good = [fit for fit in near if fit.inside]
    if not good:
        good = [fit for fit in fits_with_adapter(able, asked) if fit.inside]
    if not good:
        return _no_wrench(kit, able, asked, near)
    return _shown(kit, min(good, key=lambda fit: _least_error(fit, today)), asked, today)


def _least_error(fit: Fit, today: date) -> tuple[float, float, bool, str]:
    """Least total error; of two equal ones the nearer mark, then the one whose check is not due."""
    due = bool(check_due(fit.wrench, today=today))
    return round(fit.error_nm, 9), round(abs(fit.rounding_nm), 9), due, fit.key


def _shown(kit: Kit, fit: Fit, asked: Wanted, today: date) -> Choice:
    due, through = check_due(fit.wrench, today=today), _through(kit, fit)
    target_nm = asked.target_nm
    rounding = ""
    if abs(fit.rounding_nm) > 1e-6:
        share = f"{100 * fit.rounding_nm / target_nm:+.1f} %"
        rounding = f"the scale rounds by {asked.in_words(fit.rounding_nm)} ({share})"
    return Choice(
        tool=fit.key,
        name=f"{fit.wrench.name} with {through}" if through else fit.wrench.name,
        setting=fit.setting,
        exact=asked.in_words(target_nm),
        rounding=rounding,
        error=f"± {asked.in_words(fit.error_nm)}, {100 * fit.error_nm / target_nm:.1f} %",
        note="; ".join(filter(None, (_adapter_words(kit, fit), due, fit.wrench.note))),
        ways_out=(),
        adapter=fit.adapter,
        through=through,
        check_due=due,
    )


def _through(kit: Kit, fit: Fit) -> str:
    if not fit.adapter:
        return ""
    adapter = kit.adapters[fit.adapter]
    at = f"at {adapter.angle_deg:g}° to the wrench" if adapter.angle_deg else "straight out"
    return f"{adapter.name}, {at}"


def _adapter_words(kit: Kit, fit: Fit) -> str:
    if not fit.adapter:
        return ""
    adapter, length = kit.adapters[fit.adapter], fit.wrench.length
    assert length is not None  # without it no adapter is offered
    return (
        f"with the {_through(kit, fit).replace(',', '')} it pulls more than it shows: T · L / (L + E), "
        f"L = {length.text}, E = {adapter.length.text}; pull at the middle of the grip"
    )


def _no_wrench(kit: Kit, able: Kit, asked: Wanted, near: list[Fit]) -> Choice:
    """Say plainly that none fits, and the real ways out; never round a guess."""
    over = _override_words(able, asked)
    return Choice(
        tool="",
        name="",
        setting="",
        exact=asked.in_words(asked.target_nm),
        rounding="",
        error="",
        note=_why_none(kit, able, asked, near),
        ways_out=(*ways_out(able, asked), *filter(None, (over,))),
        override=over,
    )


def _why_none(kit: Kit, able: Kit, asked: Wanted, near: list[Fit]) -> str:
    if not kit.wrenches:
        return f"your kit has no torque wrench for {asked.text}"
    if not able.wrenches:
        return f"no torque wrench of your kit is said to be good in this direction, for {asked.text}"
    if near:
        best = min(near, key=lambda fit: fit.error_nm)
        return (
            f"{best.wrench.name} reaches it, but may be off by {asked.in_words(best.error_nm)}: "
            f"that does not stay inside {asked.text}"
        )
    number = len(able.wrenches)
    does = (
        f"none of your {number} torque wrenches reaches"
        if number > 1
        else "your only torque wrench does not reach"
    )
    return f"{does} {asked.text} in the usable part of its scale"


def _override_words(able: Kit, asked: Wanted) -> str:
    """The wrench that shows the torque below its usable part: not offered, and said how its use is recorded."""
    below = [
        (usable(scale)[0], scale, wrench.name)
        for wrench in able.wrenches.values()
        for scale in wrench.scales
        if scale.low <= convert(asked.target_nm, frm="N·m", to=scale.unit, kind="torque") < usable(scale)[0]
    ]
    if not below:
        return ""
    _, scale, name = min(below, key=lambda one: one[0])
    return (
        f"not offered: the {name} shows it, but below {usable(scale)[0]:g} {scale.unit}, a fifth of its end, nothing "
        f"proves it; who uses it all the same records the override: this wrench, its setting and the reason"
    )
