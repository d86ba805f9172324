"""Sums as pages: every calculator has one, made from its registration, with the answers of the terminal."""

import json
from collections.abc import Iterator, Mapping
from html import unescape
from pathlib import Path
from urllib.parse import urlencode

import pytest
from starlette.testclient import TestClient

from gudgeon.calc.behind import SUBJECTS, behind
from gudgeon.calc.calculator import calculator, names, run
from gudgeon.cli.main import main
from gudgeon.web.sum_fields import UNIT, field_of, name_in_words
from tests.paired import paired
from tests.unit.bench.benches import KIT, make_job

EXACT = ("quantity.convert",)
"""Sums without a kernel: factors that are exact by definition."""

MORE: Mapping[str, Mapping[str, str]] = {
    "joint.assembly-preload": {"strength_class": "8.8", "bearing_diameter": "12.8 mm"},
    "joint.preload-from-torque": {"mu_thread": "0.12", "mu_head": "0.12", "bearing_diameter": "12.8 mm"},
    "joint.torque-from-preload": {"nut_factor": "0.2"},
    "joint.member-compliance": {"head_diameter": "18 mm"},
    "joint.turn": {"strength_class": "10.9", "bearing_diameter": "12.8 mm"},
    "joint.scatter": {"method": "torque wrench"},
    "engine.cut": {"ratio": "9.0", "bore": "86 mm", "stroke": "86 mm"},
    "engine.cam-shift": {"crank_radius": "30.32 mm", "cam_radius": "60.64 mm"},
    "engine.atmosphere": {"altitude": "500 m"},
    "engine.belt-length": {"teeth": "20; 40", "center_distance": "150 mm"},
    "engine.valve-events": {"opening": "12°", "closing": "48°"},
    "engine.coolant": {"fraction": "50 %"},
    "metrology.conformity": {"upper": "0.10 mm"},
    "metrology.size-at-20": {"material": "aluminum 356"},
    "planning.wear-out": {"fails_by": "10 % by 90000 km; 50 % by 150000 km"},
    "planning.sealant-bead": {"length": "1.2 m"},
    "planning.replacement-age": {"shape": "2.5", "characteristic_life": "120000 km"},
}
"""What a sum needs besides the inputs without which none of its ways can be gone: its own examples."""
POINTS = {
    "metrology.flatness": "x,y,z\n0,0,0\n100,0,0.02\n0,100,0\n100,100,0.05\n50,50,0.01\n",
    "metrology.roundness": "x,y\n10,0\n0,10.02\n-10,0\n0,-10\n7.07,7.07\n",
}


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    with paired(make_job(tmp_path_factory.mktemp("sums")).book) as client:
        yield client


@pytest.fixture
def bookless(tmp_path: Path) -> Iterator[TestClient]:
    with paired(tmp_path / "nothing" / "book.gudgeon") as client:
        yield client


def example(name: str) -> dict[str, str]:
    """The inputs that a calculator gives as its own examples, as far as one way of working it out needs them."""
    needed = {
        one.name: one.example
        for one in calculator(name).parameters
        if one.default is None and not one.optional
    }
    return {**needed, **MORE.get(name, {}), **({"file": POINTS[name]} if name in POINTS else {})}


def shown(pages: TestClient, name: str, inputs: Mapping[str, str]) -> tuple[int, str]:
    answer = pages.get(f"/sums/{name}?{urlencode(inputs)}")
    return answer.status_code, unescape(answer.text)


def test_every_calculator_stands_under_one_subject_and_is_listed(pages: TestClient) -> None:
    assert sorted(name for listed in SUBJECTS.values() for name in listed) == sorted(names())
    text = unescape(pages.get("/sums").text)
    for subject, listed in SUBJECTS.items():
        assert f"<h2>{subject}</h2>" in text
        for name in listed:
            title = calculator(name).title
            assert (
                f'<a class="row" href="/sums/{name}"><span class="row-name">{title[0].upper()}{title[1:]}<'
                in text
            )


@pytest.mark.parametrize("name", names())
def test_every_kernel_says_what_it_holds_for_and_leaves_out(name: str) -> None:
    told = behind(name)
    assert bool(told) == (name not in EXACT)
    for one in told:
        assert all((one.does, one.equation, one.valid_for, one.source, one.not_covered))


@pytest.mark.parametrize("name", names())
def test_every_calculator_has_its_form(pages: TestClient, name: str) -> None:
    one = calculator(name)
    status, text = shown(pages, name, {})
    assert status == 200
    assert f"<title>{one.title[0].upper()}{one.title[1:]} ·" in text
    assert one.method in text
    assert f"Source: {one.source}" in text
    for of in one.parameters:
        assert f'name="{of.name}"' in text
        label = name_in_words(of.name)
        optional = ' <span class="soft">(may stay empty)</span>'
        assert f"{label}{'' if of.default is None and not of.optional else optional}" in text or of.choices
        for choice in of.choices:
            assert f'<option value="{choice}"' in text
    for kernel in behind(name):
        assert kernel.valid_for in text
        assert kernel.not_covered in text


@pytest.mark.parametrize("name", names())
def test_it_gives_the_answer_of_the_terminal(
    pages: TestClient, name: str, capsys: pytest.CaptureFixture[str]
) -> None:
    inputs = example(name)
    assert main(["calc", name, *(f"{key}={value}" for key, value in inputs.items()), "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    status, text = shown(pages, name, inputs)
    assert status == 200
    for result in calculator(name).results:
        if result.name in told["shown"]:
            assert f"<dt>{result.text[0].upper()}{result.text[1:]}</dt>" in text
            assert told["shown"][result.name] in text
    for flag in told["flags"]:
        assert flag in text


def test_a_number_counts_in_the_unit_chosen_beside_it(pages: TestClient) -> None:
    """HAND: 95 lbf·ft at a wrench of 16 in with 2 in more: 95 · 16 / 18 = 84.44 lbf·ft = 114.5 N·m."""
    inputs = {"torque": "95", "torque.unit": "lbf·ft", "wrench_length": "16", "wrench_length.unit": "in"}
    _, text = shown(
        pages, "joint.wrench-adapter", {**inputs, "adapter_length": "2", "adapter_length.unit": "in"}
    )
    assert "114.5 N·m (84.4 lbf·ft)" in text
    assert "<option selected>lbf·ft</option>" in text
    assert 'value="95"' in text


def test_a_unit_typed_with_the_number_overrules_the_one_beside_it(pages: TestClient) -> None:
    inputs = {"torque": "40 N·m", "torque.unit": "lbf·ft", "wrench_length": "400", "adapter_length": "0"}
    _, text = shown(pages, "joint.wrench-adapter", inputs)
    assert "<dt>Torque</dt><dd>40 N·m (29.5 lbf·ft)</dd>" in text


def test_a_decimal_comma_is_read_as_at_a_reading(pages: TestClient) -> None:
    """HAND: 12.5 N·m at a wrench of 400 mm with 100 mm more: 12.5 · 400 / 500 = 10 N·m; a typed unit may follow."""
    inputs = {"torque": "12,5", "torque.unit": "N·m", "wrench_length": "400,0 mm", "adapter_length": "100"}
    status, text = shown(pages, "joint.wrench-adapter", inputs)
    assert status == 200
    assert "10 N·m" in text.replace("10.0 N·m", "10 N·m")
    assert "<dt>Torque</dt><dd>12.5 N·m" in text
    assert 'value="12,5"' in text


def test_a_comma_that_may_part_thousands_is_not_guessed_at(pages: TestClient) -> None:
    inputs = {"torque": "1,250 N·m", "wrench_length": "400", "adapter_length": "100"}
    status, text = shown(pages, "joint.wrench-adapter", inputs)
    assert status == 422
    assert 'value="1,250"' in text


def test_a_refusal_stands_above_the_form_in_its_words_and_the_inputs_are_kept(pages: TestClient) -> None:
    status, text = shown(
        pages, "joint.assembly-preload", {"thread": "M10", "mu_thread": "0.13", "mu_head": "0.12"}
    )
    assert status == 422
    said = "This sum needs “Strength class” or “Yield strength”, which is not given. Add it, like “Strength class” = 8.8."
    assert f'role="alert" id="answer">{said}<' in text
    assert text.index('role="alert"') < text.index("<form")
    assert 'value="0.13"' in text


def test_a_unit_that_is_none_is_refused_by_the_name_of_its_field(pages: TestClient) -> None:
    status, text = shown(
        pages, "joint.wrench-adapter", {"torque": "95 kg", "wrench_length": "400", "adapter_length": "50"}
    )
    assert status == 422
    assert 'role="alert" id="answer">“Torque”: ' in text
    assert 'value="95 kg"' in text


def test_what_is_no_input_is_refused(pages: TestClient) -> None:
    status, text = shown(pages, "engine.pin-for-hole", {"hole": "6 mm", "speed": "3"})
    assert status == 422
    assert "`speed` is no input of This sum. It takes: hole." in text


@pytest.mark.parametrize("path", ["/etc/hostname", "bore.csv", "bore.csv\n"])
def test_no_file_of_this_machine_is_read(
    pages: TestClient, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, path: str
) -> None:
    (tmp_path / "bore.csv").write_text(POINTS["metrology.roundness"], "utf-8")
    monkeypatch.chdir(tmp_path)
    status, text = shown(pages, "metrology.roundness", {"file": path})
    assert status == 422
    said = f"the points, line 1: The header has no column `x`; it has `{path.strip()}`. Name it so, or leave the header out."
    assert said in text


def test_points_typed_in_are_those_of_a_file(pages: TestClient, tmp_path: Path) -> None:
    file = tmp_path / "bore.csv"
    file.write_text(POINTS["metrology.roundness"], "utf-8")
    _, text = shown(
        pages, "metrology.roundness", {"file": POINTS["metrology.roundness"].replace("\n", "\r\n")}
    )
    for one in run("metrology.roundness", {"file": str(file)}).results:
        assert one.shown in text


def test_sums_are_found_by_word(pages: TestClient) -> None:
    text = unescape(pages.get("/sums?find=ring+gap").text)
    assert f"3 of {len(names())} for “ring gap”." in text
    assert 'href="/sums/engine.ring-gap"' in text
    assert 'href="/sums/joint.thread"' not in text
    assert 'value="ring gap"' in text


def test_nothing_found_is_said(pages: TestClient) -> None:
    text = unescape(pages.get("/sums?find=%3Cb%3Enothing").text)
    assert f"None of {len(names())} has “<b>nothing” in its words. Try another word, or fewer." in text


def test_a_sum_that_is_not_there_is_said_above_the_list(pages: TestClient) -> None:
    answer = pages.get("/sums/engine.horsepower")
    assert answer.status_code == 404
    assert "There is no sum `engine.horsepower`. Find the one you want here." in unescape(answer.text)
    assert 'href="/sums/engine.cut"' in answer.text


def test_it_works_without_a_book(bookless: TestClient) -> None:
    assert bookless.get("/sums").status_code == 200
    status, text = shown(bookless, "joint.wrench-adapter", example("joint.wrench-adapter"))
    assert status == 200
    assert "84.4 N·m (62.3 lbf·ft)" in text


def test_the_units_of_the_kit_come_first(tmp_path: Path) -> None:
    job = make_job(tmp_path, kit=KIT.replace("gudgeon: kit 1\n", "gudgeon: kit 1\nunits: inch\n"))
    with paired(job.book) as client:
        _, text = shown(client, "joint.wrench-adapter", example("joint.wrench-adapter"))
        assert "62.3 lbf·ft (84.4 N·m)" in text
        _, text = shown(client, "joint.wrench-adapter", {})
        assert "<option>lbf·ft</option><option>N·m</option>" in text


def test_what_holds_without_an_input_stands_in_its_field_with_its_unit() -> None:
    modulus = next(one for one in calculator("joint.bolt-compliance").parameters if one.name == "modulus")
    found = field_of(modulus, {})
    assert (found.value, found.unit, found.needed) == ("205", "GPa", False)
    assert found.units == ("GPa", "MPa", "ksi")
    assert field_of(modulus, {"modulus": "30000", f"modulus{UNIT}": "ksi"}).unit == "ksi"


def test_telephones_show_the_keys_that_a_figure_needs() -> None:
    torque, *_ = calculator("joint.wrench-adapter").parameters
    assert field_of(torque, {}).keys == "decimal"
    height = next(
        one for one in calculator("engine.compression-ratio").parameters if one.name == "piston_height"
    )
    assert field_of(height, {}).keys == "text", "it may be minus"
    spread = next(one for one in calculator("joint.scatter").parameters if one.name == "tool")
    assert field_of(spread, {}).keys == "text", "it may have a percent sign"
