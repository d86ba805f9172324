"""“Does it run right?” in the terminal."""

from argparse import Namespace
from typing import TYPE_CHECKING

from gudgeon.cli.show import as_json, closing, heading, say

if TYPE_CHECKING:
    from gudgeon.bench.running.answers import Compression, CoolantMix, LeakDown, Oil, Running


def running(chosen: Namespace) -> int:
    """Answer “Does it run right?”."""
    from gudgeon.bench.running.question import running as ask
    from gudgeon.cli.questions import bench_of

    answer = ask(bench_of(chosen), left_in=chosen.left_in or "", glycol_in_it=chosen.glycol or "")
    if chosen.json:
        return as_json(answer)
    heading(answer.heading)
    for text in answer.cautions:
        _say(text, "! ")
    _say(answer.air.words[0].upper() + answer.air.words[1:])
    _compression(answer.compression)
    _leak_down(answer.leak_down)
    _oil(answer.oil)
    if answer.coolant is not None:
        _coolant(answer.coolant)
    _later(answer)
    if answer.missing:
        _title("Not known")
        for one in answer.missing:
            _say(str(one), "? ")
    closing(answer.heading)
    return 0


def _say(text: str, mark: str = "") -> None:
    say(text, lead=f"  {mark}")


def _title(words: str) -> None:
    print(f"\n{words}")


def _compression(found: "Compression") -> None:
    _title("Cranking pressure")
    _say(found.how)
    band = found.expected
    if band is not None:
        _say(f"EXPECTED {band.text}")
        _say(f"ratio {band.ratio}: {band.ratio_from}")
        _say(f"intake closes {band.closing}: {band.dynamic_ratio} from there; {band.source}")
    for one in found.limits:
        _say(f"{one.what}: {one.printed} as printed, {one.source}", "- ")
        if one.by_pressure:
            _say(f"here: {one.by_pressure} by the pressure of the air, {one.by_density} by its density", "  ")
    for line in found.cylinders:
        said = [f"{line.place}: {line.dry}, {line.share} of the highest", line.expected, line.verdict.upper()]
        _say("; ".join(filter(None, said)), "- ")
        if line.wet:
            _say(f"with oil {line.wet}{', ' if line.rise else ''}{line.rise}", "  ")
        if line.why:
            _say(line.why, "  ")
    for rule in found.balance:
        told = f": {rule.found}" if rule.found else ""
        _say(f"{rule.rule} – {rule.verdict.upper()}{told} ({rule.source})", "- ")
    for advice in found.says:
        _say(advice.words, "> ")
        _say(f"next: {advice.do}", "  ")
    for note in found.notes:
        _say(note, "* ")


def _leak_down(found: "LeakDown") -> None:
    _title("Leak-down test")
    if found.orifice or found.supply:
        _say(f"orifice {found.orifice or 'not known'}, supply {found.supply or 'not known'}")
    for one in found.lines:
        lost = f"{one.lost} lost, " if one.lost else ""
        _say(f"{one.place}: {one.reading}; {lost}{one.verdict}", "- ")
        if one.hole:
            _say(
                f"a hole of {one.hole}; with an orifice of {found.other_orifice} it shows {one.on_other}",
                "  ",
            )
    _say(found.words)
    _say("Where the air is heard:")
    for heard in found.heard:
        _say(f"{heard.where}: {heard.means}; {heard.do}", "- ")
    for note in found.notes:
        _say(note, "* ")


def _oil(found: "Oil") -> None:
    _title("Oil pressure")
    _say(found.stop, "! ")
    for one in found.lines:
        read = f"; read {one.measured}" if one.measured else ""
        _say(f"at {one.at}: least {one.least}{read} – {one.verdict.upper()} ({one.source})", "- ")
    for note in found.notes:
        _say(note, "* ")


def _coolant(found: "CoolantMix") -> None:
    _title("Coolant")
    asked = ", ".join(
        filter(None, [found.glycol, f"down to {found.guards_to}" if found.guards_to else "", found.share])
    )
    if asked:
        _say(asked)
    if found.left_in:
        _say(f"still in it: {found.left_in}")
    if found.drain:
        _say(f"DRAIN {found.drain} first")
    if found.concentrate:
        _say(f"POUR IN {found.concentrate} of concentrate and {found.water} of clean water")
        _say(f"(holds {found.capacity})")
    _say(f"{found.half_and_half}; source: {found.source}")
    for number, step in enumerate(found.bleed, start=1):
        _say(step, f"{number}. ")
    _say(f"tight? {found.cap_test}", "- ")
    for note in found.notes:
        _say(note, "* ")


def _later(answer: "Running") -> None:
    if answer.again:
        _title("Tighten again")
        for one in answer.again:
            _say(f"{one.what}: {one.when} – {one.state} ({one.basis})", "- ")
            if one.do:
                _say(one.do, "  ")
    if answer.later:
        _title("Look again")
        for one in answer.later:
            _say(f"{one.when}: {one.what} – {one.state} ({one.basis})", "- ")
            if one.do:
                _say(one.do, "  ")
