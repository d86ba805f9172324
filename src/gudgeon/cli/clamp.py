"""What limits the clamp, in the terminal."""

import sys
from argparse import Namespace
from typing import TYPE_CHECKING

from gudgeon.cli.progress import progress
from gudgeon.cli.questions import NO, YES, bench_of
from gudgeon.cli.show import as_json, closing, heading, say, table

if TYPE_CHECKING:
    from gudgeon.bench.clamp import Clamp


def clamp(chosen: Namespace) -> int:
    """Say how far the clamp of a joint scatters and where that comes from; 1 where it cannot be said."""
    from gudgeon.bench.clamp import clamp as ask

    bench = bench_of(chosen)
    with progress() as tell:
        answer = ask(
            bench,
            chosen.joint,
            what_if=tuple(chosen.what_if),
            trials=chosen.trials,
            seed=chosen.seed,
            bolts_are=chosen.bolts_are,
            tell=tell,
        )
    if chosen.picture is not None:
        _write(chosen, answer)
    code = YES if answer.stages or answer.what_ifs else NO
    if chosen.json:
        as_json(answer)
        return code
    heading(answer.heading)
    say(f"{answer.name}: {answer.said}")
    if answer.apart:
        say(answer.apart)
    print()
    if answer.stages:
        _stages(answer)
    if answer.what_ifs:
        _what_ifs(answer)
    _grounds(answer)
    closing(answer.heading)
    return code


def _write(chosen: Namespace, answer: "Clamp") -> None:
    """Write the drawing of the bands, and say where it lies."""
    from gudgeon.bench.pictures.clamp import clamp_picture
    from gudgeon.cli.picture import svg_file
    from gudgeon.paper.svg_clamp import clamp_svg

    path = svg_file(chosen.picture)
    path.write_text(clamp_svg(clamp_picture(answer)), encoding="utf-8")
    # With --json only the answer goes to the output.
    print(f"Picture: {path}", file=sys.stderr if chosen.json else sys.stdout)


def _what_ifs(answer: "Clamp") -> None:
    print("\nWhat if (after the last stage, on the same chances)")
    for said in dict.fromkeys(f"{one.words}. {one.unseen}" for one in answer.what_ifs if one.unseen):
        say(said[0].upper() + said[1:], lead="! ")
    table(
        ("what if", "clamp", "spread", "of yield", "against the program as written"),
        [
            (
                _of(one.words, one.family),
                one.clamp,
                one.band,
                one.of_yield,
                one.compared if one.clamp else one.said,
            )
            for one in answer.what_ifs
        ],
    )


def _of(words: str, family: str) -> str:
    return f"{words}; {family}" if family else words


def _stages(answer: "Clamp") -> None:
    say(
        f"After each stage: what half of the tightenings of a {answer.called} end above, from the lowest "
        f"{answer.called} to the highest; and the band of one {answer.called} that holds 90 of 100 tightenings"
    )
    table(
        (
            "stage",
            "what",
            f"clamp of a {answer.called}",
            "spread",
            f"95 of 100 times every {answer.called} has at least",
            "clicks at once",
        ),
        [
            (
                str(one.stage),
                _of(one.words, row.family) + ("" if row.pulled else ", not in this stage"),
                row.clamp,
                row.band,
                row.every_bolt,
                f"{100 * row.still:.0f} % of the pulls" if row.still > 0.005 else "",
            )
            for one in answer.stages
            for row in one.families
        ],
    )
    print("\nAfter the last of them, bolt by bolt")
    table(
        (answer.called, "place", "clamp", "from, to", "of yield", "stretch that stays"),
        [
            (
                one.bolt,
                ", ".join(filter(None, (one.where, one.family))),
                one.clamp,
                one.band,
                one.of_yield,
                one.stretch,
            )
            for one in answer.stages[-1].bolts
        ],
    )
    if answer.of_yield:
        say(answer.of_yield)
    print("\nWhat the spread comes from: " + "; ".join(f"{name} {share}" for name, share in answer.causes))


def _grounds(answer: "Clamp") -> None:
    for title, texts in (
        ("Not stated, so not said", [f"{one.what}: {one.therefore}" for one in answer.missing]),
        ("Taken", list(answer.taken)),
        ("What-ifs: --what-if", [f"{spec}  {words}" for spec, words in answer.offered]),
    ):
        if texts:
            print(f"\n{title}")
        for text in texts:
            say(text, lead="  - ")
    print(
        f"\n{answer.trials} tightenings, seed {answer.seed}."
        + (f" Source: {answer.source}" if answer.source else "")
    )
    say(answer.caution)
