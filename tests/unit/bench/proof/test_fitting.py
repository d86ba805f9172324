"""Figures that cannot go together because of what they are, and the path of the drive over its wheels."""

from importlib.resources import files

import pytest

from gudgeon.bench.proof.findings import Finding
from gudgeon.bench.proof.run import proofread
from gudgeon.sheet.load import parse_sheet

TEXT = files("gudgeon.demo").joinpath("sheet.yaml").read_text(encoding="utf-8")
HEAD = """gudgeon: data sheet 1
engine: {name: E, codes: [E], code_is_read: on the pad, layout: inline, cylinders: 4, numbered_from: front}
sources: {manual: {title: Manual, edition: first}}
"""


def of(text: str) -> list[Finding]:
    loaded = parse_sheet(text, file="sheet.yaml")
    return [one for one in proofread(loaded.sheet, written=loaded.written) if one.counts]


def small(body: str) -> list[Finding]:
    return of(HEAD + body)


def changed(*changes: tuple[str, str]) -> list[Finding]:
    text = TEXT
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new)
    return of(text)


@pytest.mark.parametrize(
    ("body", "check", "path", "grade"),
    [
        # HAND: 70 / 2 = 35 mm, and 35.5 with the offset; a rod of 30, 35 or 35.3 mm does not pass.
        ("cylinder: {stroke: 70.00 mm, rod_length: 30.0 mm, source: manual p. 1}\n", "rod", "cylinder.rod_length", "error"),
        (
            "cylinder: {stroke: 70.00 mm, rod_length: 35.3 mm, pin_offset: 0.5 mm, source: manual p. 1}\n",
            "rod", "cylinder.rod_length", "error",
        ),
        (
            "characteristics:\n  lash: {name: Lash, part: Valves, method: gap, required: 0.15 mm, source: manual p. 1}\n",
            "lone-value", "characteristics.lash.required", "doubt",
        ),
        (
            "cylinder: {compression_ratio: 10.0:1, most_ratio: max 9.5:1, source: manual p. 1}\n",
            "most-ratio", "cylinder.most_ratio", "error",
        ),
        # HAND: 2.00 + 3 · 0.30 = 2.90 and 2.00 + 4 · 0.30 = 3.20: none ends at 3.00.
        (
            "valve_gear: {adjustment: shims, shim_thickness: 2.00–3.00 mm, shim_step: 0.30 mm, source: manual p. 1}\n",
            "shim-step", "valve_gear.shim_step", "doubt",
        ),
        (
            "valve_gear:\n  adjustment: shims\n  source: manual p. 1\n"
            "  intake: {piston_margin: 1.40 mm, least_piston_margin: min 1.90 mm}\n",
            "piston-margin", "valve_gear.intake.least_piston_margin", "error",
        ),
        (
            "cylinder:\n  source: manual p. 1\n  gaskets:\n    thin: {thickness: 0.90 mm, for_cut: 0.00–0.20 mm}\n"
            "    thick: {thickness: 1.10 mm, for_cut: 0.15–0.30 mm}\n",
            "gaskets", "cylinder.gaskets.thick.for_cut", "doubt",
        ),
        (
            "cylinder:\n  source: manual p. 1\n  gaskets:\n    thin: {thickness: 0.90 mm, for_cut: max 0.10 mm}\n"
            "    thick: {thickness: 1.10 mm, for_cut: 0.15–0.30 mm}\n",
            "gaskets", "cylinder.gaskets.thick.for_cut", "doubt",
        ),
    ],
)  # fmt: skip
def test_what_cannot_go_together(body: str, check: str, path: str, grade: str) -> None:
    (found,) = [one for one in small(body) if one.check == check]
    assert (found.path, found.grade) == (path, grade)
    assert found.source == "manual p. 1"
    assert found.line is not None


@pytest.mark.parametrize(
    "body",
    [
        "cylinder: {stroke: 70.00 mm, rod_length: 120.0 mm, pin_offset: 0.5 mm, source: manual p. 1}\n",
        "characteristics:\n  lash: {name: Lash, part: Valves, method: gap, required: 0.15 ± 0.05 mm, source: manual p. 1}\n",
        "characteristics:\n  lash: {name: Lash, part: Valves, method: gap, required: min 0.15 mm, source: manual p. 1}\n",
        "cylinder: {compression_ratio: 10.0:1, most_ratio: max 10.4:1, source: manual p. 1}\n",
        # HAND: 20 steps of 0.05 mm; in inches 0.0787–0.1181 by 0.0020 is 19.7 steps, and conversion explains it not.
        "valve_gear: {adjustment: shims, shim_thickness: 2.00–3.00 mm, shim_step: 0.05 mm, source: manual p. 1}\n",
        "cylinder:\n  source: manual p. 1\n  gaskets:\n    thin: {thickness: 0.90 mm, for_cut: max 0.10 mm}\n"
        "    mid: {thickness: 1.00 mm, for_cut: 0.10–0.20 mm}\n    thick: {thickness: 1.10 mm, for_cut: 0.21–0.30 mm}\n",
    ],
)
def test_what_goes_together_raises_nothing(body: str) -> None:
    mine = ("rod", "lone-value", "most-ratio", "shim-step", "gaskets")
    assert [one for one in small(body) if one.check in mine] == []


def test_a_bolt_that_would_stand_on_the_bottom_of_its_hole() -> None:
    # HAND: 152.0 − 119.0 = 33.0 mm below the face; the hole is 30 mm deep.
    body = (
        "joints:\n  head:\n    name: Head bolts\n    role: cylinder head\n    bolts: 4\n    order: [1, 2, 3, 4]\n"
        '    fastener: {thread: M10x1.25, strength_class: "10.9", free_length: 152.0 mm, grip: 119.0 mm, hole_depth: HOLE}\n'
        "    program: [torque: 40 N·m]\n    thread_state: oil\n    reuse: {rule: always new}\n    due_before: crank\n"
        "    source: manual p. 16\n"
    )
    (found,) = [one for one in small(body.replace("HOLE", "30.0 mm")) if one.check == "hole-depth"]
    assert (found.path, found.grade) == ("joints.head.fastener.hole_depth", "error")
    assert "reaches 33.0 mm below the face" in found.why
    assert [one for one in small(body.replace("HOLE", "38.0 mm")) if one.check == "hole-depth"] == []


def test_a_path_over_a_wheel_that_is_not_there() -> None:
    found = [one for one in changed(("  path: [crank, ", "  path: [crank, jockey, ")) if one.check == "path"]
    assert [(one.path, one.printed, one.grade) for one in found] == [("drive.path.2", "jockey", "doubt")]


def test_a_camshaft_that_the_path_leaves_out_is_named() -> None:
    line = next(one for one in TEXT.splitlines() if one.startswith("  path: ["))
    found = [one for one in changed((line, line.replace("exhaust, ", "", 1))) if one.check == "path"]
    assert [(one.path, one.grade) for one in found] == [("drive.wheels.exhaust", "doubt")]
    assert found[0].why == (
        "Exhaust camshaft sprocket is among the wheels and turns the camshaft, and `path` leaves it out."
    )


def test_a_chain_of_an_odd_number_of_links() -> None:
    chain = "drive: {kind: timing chain, belt_teeth: LINKS, source: manual p. 4}\n"
    (found,) = [one for one in small(chain.replace("LINKS", "113")) if one.check == "links"]
    assert (found.path, found.printed, found.agrees) == ("drive.belt_teeth", "113", "112 or 114")
    assert [one for one in small(chain.replace("LINKS", "114")) if one.check == "links"] == []
    belt = chain.replace("LINKS", "113").replace("timing chain", "timing belt")
    assert [one for one in small(belt) if one.check == "links"] == []
