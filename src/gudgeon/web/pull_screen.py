"""What do I set, at the wrench: one pull at a time on a whole screen, and the plan of what comes after it as data."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Any
from urllib.parse import urlencode

from markupsafe import Markup
from starlette.responses import JSONResponse, Response

from gudgeon.bench.always import always
from gudgeon.bench.asking import choices
from gudgeon.bench.bodies import joint as joint_of
from gudgeon.bench.context import Bench
from gudgeon.bench.doubt_rules import DOUBT_WORDS
from gudgeon.bench.pattern import Pattern, pattern
from gudgeon.bench.plan import Plan, Shown, plan
from gudgeon.bench.pull_list import JointCard
from gudgeon.bench.pull_words import as_called, bolt_words, set_otherwise
from gudgeon.book.state import JointState
from gudgeon.errors import GudgeonError
from gudgeon.sheet.joints import Joint
from gudgeon.web.desk import Asked, Desk, carried
from gudgeon.web.dial import dial, digits
from gudgeon.web.sketch import Circle, Sketch, again, sketch

_SITTING = timedelta(minutes=10)


def pull_page(
    desk: Desk,
    asked: Asked,
    bench: Bench,
    *,
    joint: str,
    error: GudgeonError | None = None,
    loosening: bool = False,
) -> Response:
    """The screen of a joint; with what was refused, and what was said kept in its form."""
    of = _planned(asked, bench, joint=joint, loosening=loosening, most=1, error=error)
    filled = _screen(desk, asked, bench, of)
    if of.pulls and of.pulls[0].paint is not None:
        filled |= _to_paint(asked, of.pulls[0], of.card)
    elif of.pulls:
        filled |= Parts(desk, of, {**filled, "asked": asked}).filled(of.pulls[0])
    return desk.page(
        "set.html",
        bench=bench,
        asked=asked,
        status=200 if error is None else 422,
        error=error,
        seen=_seen(asked, error=error),
        **filled,
    )


def pull_plan(desk: Desk, asked: Asked, bench: Bench, *, joint: str, loosening: bool) -> Response:
    """What a device may show without asking again, each pull as it stands on the page."""
    of = _planned(asked, bench, joint=joint, loosening=loosening, most=None, error=None)
    filled = _screen(desk, asked, bench, of)
    common = {
        **filled,
        "asked": asked,
        "carry": carried(bench, asked),
        "error": None,
        "here": filled["place"],
    }
    common["seen"] = _seen(asked, error=None)
    render = desk.templates.get_template
    recorded = desk.said.of(asked.query.get("recorded", ""))
    then, parts, in_sight = render("_pull_state.html"), Parts(desk, of, common), always(bench)
    return JSONResponse(
        {
            "basis": common["carry"].basis,
            "chain": common["carry"].chain,
            "head": bench.state.head,
            "place": filled["place"],
            "counts": in_sight.counts,
            "state": render("_marks.html").module.state(of.card.state),  # type: ignore[attr-defined]
            "notes": [*in_sight.heading.remarks, *filter(None, (of.card.look_first, of.card.provisional))],
            "before": render("_pull_remarks.html").render(**common, recorded=recorded)
            if recorded is not None and recorded.remarks and of.pulls
            else "",
            "pulls": [
                _as_data(shown, parts.pull(shown))
                | (
                    {"paint": then.render({**common, **_to_paint(asked, shown, of.card)})}
                    if shown.paint
                    else {}
                )
                for shown in of.pulls
            ],
            "then": then.render(**{**common, "after": of.then}),
        }
    )


@dataclass(slots=True)
class Parts:
    """The pulls of a plan as they stand on the page; what is alike in them is made once."""

    desk: Desk
    of: Plan
    common: Mapping[str, Any]
    alike: dict[tuple[int, bool, bool], Markup] = field(default_factory=dict)
    marks: dict[Circle, Markup] = field(default_factory=dict)
    drawing: Sketch | None = None

    def pull(self, shown: Shown) -> str:
        """One pull."""
        template = self.desk.templates.get_template("_pull.html")
        return template.render({**self.common, **self.filled(shown)})

    def filled(self, shown: Shown) -> dict[str, Any]:
        """What its template needs besides what every part of the screen has."""
        told = _drawn(self.of, shown)
        stand = Pattern(self.of.viewed_from, shown.spots, self.of.card.called)
        if self.drawing is None:
            self.drawing = sketch(stand)
        drawing = self.drawing and again(self.drawing, stand)
        if drawing is not None:
            self._mark(drawing)
        key = (shown.stage.stage, bool(shown.asks), bool(told["line"]))
        if key not in self.alike:
            template = self.desk.templates.get_template("_pull_otherwise.html")
            self.alike[key] = Markup(template.render({**self.common, **told}))
        return {**told, "drawing": drawing, "marks": self.marks, "otherwise": self.alike[key]}

    def _mark(self, drawing: Sketch) -> None:
        draw: Any = self.desk.templates.get_template("_sketch.html").module
        for one in drawing.circles:
            if one not in self.marks:
                self.marks[one] = Markup(draw.spot(one, drawing.radius))


def _as_data(shown: Shown, html: str) -> dict[str, Any]:
    pull = shown.pull
    return {
        "stage": pull.stage,
        "round": pull.round,
        "bolt": pull.bolt,
        "words": shown.words,
        "html": html,
        "speech": shown.speech,
        "outcomes": shown.outcomes,
        "goes_on": shown.goes_on,
        "deliberate": bool(shown.deliberate),
        "asks_setting": bool(shown.asks),
        "reads": shown.reads,
    }


def _planned(
    asked: Asked, bench: Bench, *, joint: str, loosening: bool, most: int | None, error: GudgeonError | None
) -> Plan:
    said = asked.form if asked.posted else asked.query
    bolts_are = said["bolts_are"] if said.get("bolts_are") in ("new", "used") else ""
    go_on = said.get("go_on") == "yes" or error is not None
    painted = said.get("painted", "")
    if error is not None:
        painted = said.get("stage", "")
    stage = int(painted) if painted.isdecimal() and len(painted) < 4 else 0
    return plan(bench, joint, bolts_are=bolts_are, loosening=loosening, go_on=go_on, painted=stage, most=most)


def _screen(desk: Desk, asked: Asked, bench: Bench, of: Plan) -> dict[str, Any]:
    """What every part of the screen may need."""
    answer, apart = of.card, of.card.program == "loosening"
    joint = joint_of(bench.sheet, answer.joint)
    place = f"/set/{answer.joint}{'/loosening' if apart else ''}"
    first = of.pulls[0] if of.pulls else None
    return {
        "shown": first,
        "answer": answer,
        "apart": apart,
        "kind": "loosened" if apart else "pull",
        "place": place,
        "next": f"{place}#next",
        "after": "",
        "in_doubt": [as_called(joint, said) for said in answer.doubts],
        "paint": None,
        "sources": bench.sheet.sources,
        "doubt_reasons": DOUBT_WORDS,
        "tools": choices(bench, kind="pull", field="tool"),
        "pulled": _pulled(desk, asked, joint, bench.state.joints.get(answer.joint)),
        "same_sitting": _same_sitting(desk, asked, bench, joint=answer.joint),
        **({} if first is not None else _undrawn(asked, bench, answer)),
    }


def _drawn(of: Plan, shown: Shown) -> Mapping[str, Any]:
    """One pull, and the drawings beside it."""
    turned = shown.turned
    line = [one for one in of.card.datums if one.before_stage == shown.stage.stage]
    return {
        "shown": shown,
        "digits": None if shown.figure.word else digits(shown.figure.number),
        "dial": dial(turned, words=f"The paint mark goes {shown.pull.mark}") if turned is not None else None,
        "line": line[0].words if line else "",
        "pause": _pause(of.card, shown),
    }


def _to_paint(asked: Asked, shown: Shown, of: JointCard) -> Mapping[str, Any]:
    """The line to paint before a pull, and the way on: the same screen, for the same bolts, told that it is painted."""
    said = {"go_on": "yes"} if asked.query.get("go_on") == "yes" else {}
    if of.bolts_are:
        said["bolts_are"] = of.bolts_are
    if asked.query.get("recorded"):
        said |= {"recorded": asked.query["recorded"], "seen": "yes"}
    painted = urlencode({**said, "painted": str(shown.pull.stage)})
    return {"shown": None, "drawing": None, "paint": shown.paint, "painted": painted}


def _undrawn(asked: Asked, bench: Bench, answer: JointCard) -> Mapping[str, Any]:
    """No pull to be shown: the bolts where they stand."""
    found = pattern(bench, answer.joint, bolts_are=answer.bolts_are, loosening=answer.program == "loosening")
    return {"shown": None, "drawing": sketch(found)}


def _seen(asked: Asked, *, error: GudgeonError | None) -> bool:
    """Whether what is to be said of the entry that was just recorded has been seen: it stands before the next pull."""
    return error is not None or asked.query.get("seen") == "yes"


def _pulled(desk: Desk, asked: Asked, of: Joint, state: JointState | None) -> str:
    """The pull that was just recorded, as short as it can be said; empty where it was none of this joint."""
    said = desk.said.of(asked.query.get("recorded", ""))
    done = [*state.pulls.items(), *state.loosened.items()] if state is not None else []
    for (stage, _, bolt), pull in done:
        if said is not None and pull.entry == said.entry:
            name = bolt_words(of, bolt)
            angle = f" {pull.angle_deg}°" if pull.angle_deg else ""
            set_to = f", the wrench set to {pull.setting}" if set_otherwise(pull) else ""
            return f"{name[0].upper()}{name[1:]}, stage {stage}{set_to}: {pull.outcome}{angle}."
    return ""


def _same_sitting(desk: Desk, asked: Asked, bench: Bench, *, joint: str) -> bool:
    """Whether he recorded a pull of this joint a moment ago, or looked at it: he need not look for it again."""
    if asked.posted:
        return True
    said, state = desk.said.of(asked.query.get("recorded", "")), bench.state.joints.get(joint)
    last = state.last_pull if state is not None else None
    looked = state.looked if state is not None else None
    if last is not None and looked is not None and looked.entry == last.entry:
        return bench.now - datetime.fromisoformat(looked.time) < _SITTING
    if said is None or last is None or said.entry != last.entry:
        return False
    return bench.now - datetime.fromisoformat(last.time) < _SITTING


def _pause(answer: JointCard, shown: Shown) -> str:
    """What comes next, as a person would say it to himself when he stops."""
    pull = shown.pull
    where = f" ({pull.where})" if pull.where else ""
    return f"{answer.name}: {shown.name}{where}, stage {pull.stage}, {pull.action}"
