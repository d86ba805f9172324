"""From what a person says to the body of an entry: names checked, targets and limits shown kept with it.

Nothing here looks at the book; what the history refuses is the recorder's business.
"""

import re
from collections.abc import Mapping
from typing import Any

from gudgeon.bench.codes import same_code
from gudgeon.bench.doubt_rules import DOUBT_WORDS, PRACTICE, order_words
from gudgeon.bench.errors import AngleRefused, NotThisStage, OutcomeRefused, Unknown
from gudgeon.bench.held_against import shown_with
from gudgeon.bench.holds import all_holds, basis_of, joints_of
from gudgeon.bench.made_against import pull_shown
from gudgeon.bench.network import JOB
from gudgeon.bench.progress import OUTCOMES
from gudgeon.bench.proof_value import check_value
from gudgeon.bench.wrench_state import setting_room
from gudgeon.kit.model import Kit
from gudgeon.quantity.kinds import KINDS
from gudgeon.quantity.written import Printed, parse_amount
from gudgeon.sheet.inspections import Characteristic
from gudgeon.sheet.joints import Joint, Stage
from gudgeon.sheet.model import DataSheet

BASE_UNIT = {name: kind.base for name, kind in KINDS.items()}


def characteristic(sheet: DataSheet, key: str) -> Characteristic:
    """A characteristic of the sheet by its key."""
    if key not in sheet.characteristics:
        raise Unknown("characteristic", key, sheet.characteristics)
    return sheet.characteristics[key]


def joint(sheet: DataSheet, key: str) -> Joint:
    """A joint of the sheet by its key."""
    return _joint_of(sheet, key)


def pull(
    sheet: DataSheet,
    kit: Kit,
    *,
    joint: str,
    stage: int,
    bolt: str,
    outcome: str,
    round: int = 1,
    angle_deg: str | None = None,
    tool: str = "",
    setting: str = "",
    asked: str = "",
    adapter: str = "",
    unfitted: str = "",
    why: str = "",
    doubt: str | None = None,
) -> dict[str, Any]:
    """One action on one bolt, with the target as the sheet shows it and what the list named: setting, adapter, none."""
    of = _joint_of(sheet, joint)
    wanted = _stage_of(of, of.program, stage=stage, bolt=bolt, round=round, outcome=outcome)
    known: Mapping[str, object] = (
        kit.wrenches if wanted.kind in ("torque", "verify") else {**kit.wrenches, **kit.turning}
    )
    if tool and tool not in known:
        raise Unknown(f"tool of the kit for a stage of the kind `{wanted.kind}`", tool, known)
    room = ""
    if setting and wanted.kind in ("torque", "verify"):
        parse_amount(setting, kind="torque")
        room = setting_room(kit.wrenches[tool], setting) if tool else ""
    if angle_deg is not None:
        _angle_between(angle_deg, wanted.figure)
    target = wanted.figure.text if wanted.figure is not None else str(wanted.loosen or "to contact")
    ordered = order_words(of, doubt, stage=stage) if doubt else ""
    listed = {"setting": asked, "adapter": adapter, "room": room, "unfitted": unfitted, "ordered": ordered}
    shown = {"stage": f"{stage} of {len(of.program)}", "kind": wanted.kind, "target": target}
    return {
        "joint": joint,
        "stage": stage,
        "round": round,
        "bolt": bolt,
        "outcome": outcome,
        "angle_deg": angle_deg,
        "tool": tool,
        "setting": setting,
        "shown": shown
        | {name: text for name, text in listed.items() if text}
        | pull_shown(of, wanted, kit, tool=tool, adapter=adapter),
        "why": why or (DOUBT_WORDS[doubt] if doubt in PRACTICE else ""),
        "doubt": doubt or None,
    }


def loosened(
    sheet: DataSheet,
    kit: Kit,
    *,
    joint: str,
    stage: int,
    bolt: str,
    outcome: str,
    round: int = 1,
    tool: str = "",
    why: str = "",
) -> dict[str, Any]:
    """One action on one bolt of the loosening program."""
    of = _joint_of(sheet, joint)
    wanted = _stage_of(of, of.loosening, stage=stage, bolt=bolt, round=round, outcome=outcome)
    if tool and tool not in kit.turning:
        raise Unknown("tool of the kit for loosening (a torque wrench is none)", tool, kit.turning)
    target = wanted.figure.text if wanted.figure is not None else str(wanted.loosen)
    return {
        "joint": joint,
        "stage": stage,
        "round": round,
        "bolt": bolt,
        "outcome": outcome,
        "tool": tool,
        "shown": {"stage": f"{stage} of {len(of.loosening)}", "kind": wanted.kind, "target": target},
        "why": why,
    }


def _joint_of(sheet: DataSheet, key: str) -> Joint:
    if key not in sheet.joints:
        raise Unknown("joint", key, sheet.joints)
    return sheet.joints[key]


def _stage_of(
    of: Joint, program: tuple[Stage, ...], *, stage: int, bolt: str, round: int, outcome: str
) -> Stage:
    """The stage of a program that is spoken of, where it has this bolt, this pass and this outcome."""
    if not 1 <= stage <= len(program):
        known = f"It has stages 1 to {len(program)}." if program else "The sheet states none."
        raise NotThisStage(of.name, f"Stage {stage}", known)
    wanted = program[stage - 1]
    bolts = of.stage_bolts(wanted) if wanted.kind != "wait" else ("all",)
    if bolt not in bolts:
        raise NotThisStage(
            of.name, f"Bolt {bolt} in stage {stage}", f"That stage has bolts {', '.join(bolts)}."
        )
    if not 1 <= round <= wanted.repeat:
        raise NotThisStage(of.name, f"Pass {round} of stage {stage}", f"It has {wanted.repeat}.")
    if outcome not in OUTCOMES[wanted.kind]:
        raise OutcomeRefused(outcome, wanted.kind, OUTCOMES[wanted.kind])
    return wanted


def _angle_between(said: str, wanted: Printed | None) -> None:
    """An angle at which a turn stopped lies between nothing and what the stage asks for."""
    most = (wanted.high_in("°") if wanted is not None else None) or 360.0
    angle = parse_amount(said, kind="angle", default_unit="°").to("°")
    if not 0 <= angle <= most:
        raise AngleRefused(said, f"{most:g}°")


def hold_proved(
    sheet: DataSheet, *, hold: str, value: str = "", photo: str | None = None, job: str = JOB
) -> dict[str, Any]:
    """A hold proved with the value seen or with a photo: what that rests on, and the figures it is held against."""
    holds = all_holds()
    if hold not in holds:
        raise Unknown("hold", hold, holds)
    of = holds[hold]
    check_value(of, value or "")
    return {
        "hold": hold,
        "value": value or "",
        "photo": photo or None,
        "rests_on": list(basis_of(of, sheet, job)),
        "shown": shown_with(sheet, of.held_against, joints=joints_of(of, sheet)),
    }


def new_bolt(sheet: DataSheet, *, joint: str, bolt: str, why: str, **said: Any) -> dict[str, Any]:
    """A new fastener in hand, for one place of a joint or for all."""
    of = _joint_of(sheet, joint)
    if bolt != "all" and bolt not in of.bolt_names:
        raise Unknown(f"{of.called} of {of.name}", bolt, (*of.bolt_names, "all"))
    name = f"{of.name}, {'all' if bolt == 'all' else f'{of.called} {bolt}'}"
    return {"part": name, "decision": "renew", "why": why, "joint": joint, "bolt": bolt}


def identity(
    sheet: DataSheet, *, code: str, read_from: str = "", why_not: str | None = None
) -> dict[str, Any]:
    """The code as read off the engine, compared with the sheet's, spaces and dashes aside."""
    matches = same_code(code, sheet.engine.codes)
    return {
        "code": code,
        "read_from": read_from or sheet.engine.code_is_read,
        "matches": matches,
        "why_not": None if matches else why_not,
    }


_TORQUE = re.compile(r"flywheel|\bholder\b|\bholding tool\b|counter-?hold", re.IGNORECASE)
_TIMING = re.compile(
    r"timing pin|\block(s|ed|ing)?\b|cam(shaft)? (bar|pin|stop)|crank(shaft)? (pin|stop)", re.IGNORECASE
)


def held_by(name: str) -> str:
    """What a thing that is left in holds, by its name: torque, the timing, or nothing."""
    name = name.replace("_", " ")
    if _TORQUE.search(name):
        return "torque"
    return "timing" if _TIMING.search(name) else "nothing"


def body(
    sheet: DataSheet, kit: Kit, *, kind: str, fields: Mapping[str, Any], job: str = JOB
) -> dict[str, Any]:
    """The body of an entry of any kind, from the fields a person gave; what a proof rests on depends on the job."""
    if kind in ("reading", "face-scanned"):
        from gudgeon.bench.reading_body import face, reading

        return reading(sheet, kit, **fields) if kind == "reading" else face(sheet, kit, **fields)
    if kind == "pull":
        return pull(sheet, kit, **fields)
    if kind == "bolt-loosened":
        return loosened(sheet, kit, **fields)
    if kind == "hold-proved":
        return hold_proved(sheet, **fields, job=job)
    if kind == "identity-read":
        return identity(sheet, **fields)
    if kind == "part-disposition" and fields.get("joint"):
        return new_bolt(sheet, **fields)
    if kind == "shop-out" and fields.get("most_off"):
        parse_amount(fields["most_off"], kind="length_difference")
    if kind == "left-in":
        said = str(fields.get("holds") or "") or held_by(f"{fields['name']} {fields['item']}")
        return {**fields, "holds": said}
    if kind in ("joint-marked", "joint-witnessed", "joint-disturbed"):
        joint(sheet, fields["joint"])
    return dict(fields)
