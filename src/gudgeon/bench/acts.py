"""From what a person said to the fields of an entry: what he left out because the list knows it."""

from collections.abc import Mapping
from typing import Any

from gudgeon.bench.bodies import joint as joint_of
from gudgeon.bench.context import Bench
from gudgeon.bench.errors import GateRefuses, InDoubt
from gudgeon.bench.pull_list import JointCard, StageLine, card, loosening_card
from gudgeon.bench.recordable import DOUBTS, OUTCOMES
from gudgeon.bench.scale_read import READ_KINDS, SettingNotRead, scale_read
from gudgeon.bench.typed import with_a_point
from gudgeon.errors import InputError

_TYPED = {"setting": "torque", "angle_deg": "angle"}
"""Figures of a pull that may be typed with a decimal comma, and what they are."""


class ValueMissing(InputError):
    """A reading without a value."""

    def __init__(self, item: str) -> None:
        super().__init__(
            f"No value was given for {item}. Write it with its unit, like `81.65 mm`, or an interval of two blades: "
            "--enters `0.05 mm` --stops `0.06 mm`."
        )


class NothingNext(InputError):
    """Every pull of the joint is in the book."""

    def __init__(self, joint: str) -> None:
        super().__init__(
            f"Every pull of {joint} is in the book. Name --stage and --bolt to record one again."
        )


class HalfNamed(InputError):
    """A pull named by its bolt or its stage alone."""

    def __init__(self) -> None:
        super().__init__("Name both --bolt and --stage, or neither for the next pull of the list.")


def reading_fields(said: Mapping[str, Any]) -> dict[str, Any]:
    """With one place only, what stands where the place would is the value."""
    fields = dict(said)
    if not fields.get("repeats") and all(fields[name] is None for name in ("value", "low", "high")):
        if not fields["place"] or "unit" in fields:
            raise ValueMissing(fields["item"])
        fields["place"], fields["value"] = "", fields["place"]
    return fields


def pull_fields(bench: Bench, said: Mapping[str, Any]) -> dict[str, Any]:
    """The next pull of the list, unless bolt and stage are named; the tool from the list.

    The setting is never taken from the list: it is what was read off the scale for this pull, or for an earlier
    one of the stage.
    """
    fields = dict(said)
    joint_of(bench.sheet, fields["joint"])
    shown = card(bench, fields["joint"])
    fields |= {
        name: with_a_point(typed, kind=kind)
        for name, kind in _TYPED.items()
        if isinstance(typed := fields.get(name), str) and typed
    }
    fields["outcome"] = OUTCOMES.get(fields["outcome"], fields["outcome"])
    if fields.get("doubt"):
        fields["doubt"] = DOUBTS.get(fields["doubt"], fields["doubt"])
    if (fields["bolt"] is None) != (fields["stage"] is None):
        raise HalfNamed
    if fields["bolt"] is None:
        _next(fields, shown)
    fields["round"] = fields["round"] or 1
    line = next((one for one in shown.stages if one.stage == fields["stage"]), None)
    if line is None or line.kind not in READ_KINDS:
        fields["tool"] = fields["tool"] or (line.tool.tool if line is not None else "")
        fields["setting"] = fields["setting"] or ""
        return fields
    return fields | _as_read(bench, fields, line)


def _as_read(bench: Bench, fields: Mapping[str, Any], line: StageLine) -> dict[str, str]:
    """The wrench of a pull and what its scale was read to show."""
    read = scale_read(bench, fields["joint"], stage=line.stage, tool=fields["tool"])
    tool = read.tool or line.tool.tool
    listed = tool == line.tool.tool
    asked = line.tool.setting if listed else ""
    unfitted = "" if line.tool.found else "no torque wrench of the kit"
    kept = {
        "tool": tool,
        "unfitted": unfitted,
        "asked": asked,
        "adapter": line.tool.through if listed else "",
    }
    if fields["setting"]:
        return kept | {"setting": fields["setting"]}
    if tool and not read.setting and fields["outcome"] != "doubtful":
        wrench = bench.kit.wrenches.get(tool)
        raise SettingNotRead(
            tool=line.tool.name if listed else wrench.name if wrench is not None else tool,
            stage=line.stage,
            wanted=asked or line.figure,
            why=read.why,
        )
    return kept | {"setting": read.setting}


def loosened_fields(bench: Bench, said: Mapping[str, Any]) -> dict[str, Any]:
    """The next step of the loosening program, unless bolt and stage are named; the tool from its list."""
    fields = dict(said)
    joint_of(bench.sheet, fields["joint"])
    shown = loosening_card(bench, fields["joint"])
    if (fields["bolt"] is None) != (fields["stage"] is None):
        raise HalfNamed
    if fields["bolt"] is None:
        _next(fields, shown)
    fields["round"] = fields["round"] or 1
    line = next((one for one in shown.stages if one.stage == fields["stage"]), None)
    fields["tool"] = fields["tool"] or (line.tool.tool if line is not None else "")
    return fields


def _next(fields: dict[str, Any], shown: JointCard) -> None:
    if shown.doubts:
        raise InDoubt(shown.name, shown.doubts, shown.in_doubt)
    if shown.refused:
        raise GateRefuses(shown.name, ((one.why, one.way_out) for one in shown.refused))
    following = next((one for one in shown.pulls if one.number == shown.next_pull), None)
    if following is None:
        raise NothingNext(shown.name)
    fields["bolt"], fields["stage"] = following.bolt, following.stage
    fields["round"] = fields["round"] or following.round
