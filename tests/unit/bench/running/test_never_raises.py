"""Sheets with figures left out, absurd or against each other: every other part is still answered."""

import random
from dataclasses import replace
from pathlib import Path

from gudgeon.bench.context import Bench
from gudgeon.bench.running.question import running
from gudgeon.errors import GudgeonError
from gudgeon.kit.load import parse_kit
from gudgeon.sheet.load import parse_sheet
from tests.unit.bench.running.engines import ENGINE, KIT, engine, read

CASES = 200

STATED = (
    ("stroke: 86.0 mm", ("0 mm", "-86 mm", "8600 m", "max 86 mm", "0.001 mm")),
    ("bore: 86.0 mm", ("0 mm", "-1 mm", "min 3 mm")),
    ("rod_length: 143.0 mm", ("30 mm", "0 mm", "-5 mm", "43 mm", "9e9 mm", "min 100 mm")),
    ('compression_ratio: "9.0"', ('"1.0"', '"0"', '"-9"', '"100000"')),
    ("closes: 60°", ("180°", "-30°", "500°", "max 60°")),
    ("new_range: 11.0–12.5 bar", ("0 bar", "-3 bar", "max 12 bar", "5–900000 bar")),
    ("wear_limit: min 9.0 bar", ("min 0 bar", "max 9 bar", "min 99999 bar")),
    ("percent_of_highest: min 75 %", ("min 0 %", "min 100 %")),
    ("quantity: pressure_gauge", ("length", "ratio", "angle")),
    ("cranking_speed: 250 r/min", ("0 r/min", "max 1 r/min")),
    ("leak_down_supply: 80 psi", ("0 psi", "-80 psi", "1e7 psi", "max 80 psi")),
    ("orifice: 0.040 in", ("0 in", "-1 mm", "900 mm", "min 1 mm")),
    ("least: min 1.0 bar", ("0 bar", "max 1 bar")),
    ("guards_to: -30 °C", ("30 °C", "-270 °C", "0 °C", "max -30 °C")),
    ("capacity: 8.5 L", ("0 L", "-8 L", "9e9 L", "min 8 L")),
    ("cap: 1.1 bar", ("0 bar", "-1 bar")),
    ("wet: cranking_wet", ("cranking", "oil_idle")),
    ("cranking_pressure: cranking", ("oil_idle", "leak")),
    ("leak_down: leak", ("cranking", "oil_idle")),
    ("measured_as: oil_idle", ("leak",)),
)
"""Each statement of the sheet, and what may stand there instead."""
ALTITUDES = ("0 m", "1200 m", "-9000 m", "900000 m", None)


def spoiled(chance: random.Random) -> str:
    """The sheet with some figures left out and some absurd."""
    text = ENGINE
    for stated, absurd in STATED:
        if chance.random() < 0.12:
            name = stated.partition(":")[0]
            text = text.replace(stated, f"{name}: {chance.choice(absurd)}")
        elif chance.random() < 0.06 and f"  {stated}\n" in text:
            text = text.replace(f"  {stated}\n", "  \n")
    return text


def benches(folder: Path) -> list[Bench]:
    """The engine with nothing read, with sound readings, and with wild ones."""
    found = []
    for name, values in (
        ("none", ()),
        ("sound", ("11.6", "11.5", "6.0", "11.4")),
        ("wild", ("0", "90", "0.01", "7")),
    ):
        own = folder / name
        own.mkdir()
        job = engine(own)
        if values:
            for key in ("cranking", "cranking_wet", "leak"):
                read(job, key, *values, gauge="gauge" if name == "sound" else "")
            read(job, "oil_idle", values[0], gauge="oil")
        found.append(job.bench())
    return found


def with_papers(bench: Bench, sheet: str, altitude: str | None) -> Bench | None:
    """The same book with another sheet and kit; nothing where the sheet is refused as a whole."""
    try:
        loaded = parse_sheet(sheet, file="sheet.yaml")
        kit = KIT.replace("altitude: ALTITUDE\n", f"altitude: {altitude}\n" if altitude is not None else "")
        papers = replace(
            bench.papers, sheet=loaded.sheet, written=loaded.written, kit=parse_kit(kit, file="kit.yaml").kit
        )
    except GudgeonError:
        return None
    return replace(bench, papers=papers)


def test_whatever_is_left_out_or_absurd_the_rest_is_answered(tmp_path: Path) -> None:
    # HAND: nothing of the coolant rests on the cylinders, nor the leaks, nor the oil: none may take the others with it
    chance, asked = random.Random(20261128), 0
    read_engines = benches(tmp_path)
    for _ in range(CASES):
        sheet, altitude = spoiled(chance), chance.choice(ALTITUDES)
        bench = with_papers(chance.choice(read_engines), sheet, altitude)
        if bench is None:
            continue
        asked += 1
        answer = running(bench)
        assert answer.coolant is not None, sheet
        assert "half and half" in answer.coolant.half_and_half
        assert answer.leak_down.words
        assert answer.oil.stop
        assert all(str(one).strip() for one in answer.missing)
    assert asked > CASES / 4
