"""The shop order and the incoming check in the terminal."""

from argparse import Namespace
from collections.abc import Iterable, Sequence

from gudgeon.bench.shop.found import FoundLine
from gudgeon.bench.shop.incoming import IncomingCheck, incoming
from gudgeon.bench.shop.order import ShopOrder, shop_order
from gudgeon.cli.questions import NO, YES, bench_of
from gudgeon.cli.show import as_json, clean, closing, heading, point, say, table


def order(chosen: Namespace) -> int:
    """What is ordered at the machine shop."""
    answer = shop_order(bench_of(chosen), part=chosen.order)
    if chosen.json:
        return as_json(answer)
    show_order(answer)
    return 0


def back(chosen: Namespace) -> int:
    """What came back, against what was ordered; exit code 1 when it is more, or something is outside."""
    answer = incoming(bench_of(chosen), part=chosen.back)
    code = NO if answer.wrong else YES
    if chosen.json:
        as_json(answer)
        return code
    show_back(answer)
    return code


def show_order(answer: ShopOrder) -> None:
    """The order, in the order in which it stands on paper."""
    heading(answer.heading)
    print(f"{answer.part}{f', of {answer.material}' if answer.material else ''}; engine {answer.code}")
    _lines([answer.been], mark="!")
    room = answer.room
    print("\nMay come off")
    _lines(
        [room.at_most or "nothing before you have talked to the shop"],
        mark="!",
    )
    _lines([room.most_why, f"the least that cleans up: {room.least}" if room.least else "", room.least_why])
    _lines(room.assumes)
    print("\nThe work, in this order")
    for number, step in enumerate(answer.work, start=1):
        _lines([step.what], mark=f"{number}.")
        say(f"{step.why} ({step.basis})", lead=" " * 7)
    _found(f"{answer.face}, flatness" if answer.face else "Flatness", answer.flatness, answer.flatness_limit)
    _found("Height" if answer.kind == "head" else "Piston height", answer.heights, answer.heights_limit)
    if answer.straighten is not None:
        straight = answer.straighten
        print("\nStraighten it first?")
        _lines([f"{straight.due}: {straight.why}", *straight.tunnel])
    if room.bounds:
        print("\nWhat limits the cut")
        table(("limit", "lets come off", "source"), [(one.what, one.most, one.source) for one in room.bounds])
    _finish(answer)
    for name, texts in (
        ("Set it up from", [answer.datum + (f" ({answer.datum_source})" if answer.datum_source else "")]),
        ("What stays on it", answer.stays),
        ("What not to do", [f"{one.words} ({one.basis})" for one in answer.never]),
        ("Send back these figures", [_figure(one.what, one.how, one.places) for one in answer.send_back]),
        ("Not known", answer.missing),
    ):
        if texts:
            print(f"\n{name}")
            _lines(texts)
    print(
        "\nOn paper: gudgeon print shop-order" + ("" if answer.kind == "head" else f" --part {answer.kind}")
    )
    print(f"Once it is given away: {clean(answer.record)}")
    closing(answer.heading)


def show_back(answer: IncomingCheck) -> None:
    """What came back, line by line."""
    heading(answer.heading)
    print(answer.part + (f", from {answer.shop}" if answer.shop else ""))
    _lines([answer.standing], mark="!")
    _lines(
        [
            f"Ordered: {answer.ordered}" if answer.ordered else "",
            f"Found by the shop: {answer.said}" if answer.said else "",
        ]
    )
    print()
    for text in answer.plain:
        _lines([text])
    print()
    table(
        ("what", "asked", "came back", "verdict", "what follows", "source"),
        [(one.what, one.asked, one.got, one.verdict, one.follows, one.source) for one in answer.lines],
    )
    if answer.places:
        print("\nHeight by height")
        table(
            ("place", "before", "after", "came off", "U (k = 2)"),
            [(one.place, one.before, one.after, one.off, one.uncertainty) for one in answer.places],
        )
    if answer.askew is not None:
        print(f"\nDoes the face lie even?  {answer.askew.verdict.upper()}")
        _lines([answer.askew.words, *answer.askew.follows])
    if answer.after.lines:
        print("\nThe engine now")
        table(
            ("what", "before", "now", "limit", "verdict", "source"),
            [
                (one.what, one.before, one.after, one.limit, one.verdict, one.source)
                for one in answer.after.lines
            ],
        )
    _lines(answer.accepted, mark="accepted:")
    if answer.not_back:
        print("\nNot in the book since it came back")
        _lines(
            [
                f"{one.what}: {one.why}" + (f": {one.command}" if one.command else "")
                for one in answer.not_back
            ],
            mark="?",
        )
    print()
    say(answer.basis)
    print("On paper: gudgeon print shop-back" + ("" if answer.kind == "head" else f" --part {answer.kind}"))
    closing(answer.heading)


def _lines(texts: Iterable[str], *, mark: str = "-") -> None:
    for text in texts:
        if text:
            point(text, mark=mark)


def _found(name: str, lines: Sequence[FoundLine], limit: str) -> None:
    """What was read, under its name and its limit."""
    if lines:
        print(f"\nFound: {clean(name)}" + (f" ({clean(limit)})" if limit else ""))
        table(
            ("place", "read", "gauge", "U (k = 2)", "state"),
            [(one.place, one.reading, one.gauge, one.uncertainty, one.condition) for one in lines],
        )


def _finish(answer: ShopOrder) -> None:
    finish = answer.finish
    print("\nThe finish of the face")
    asked = f"{finish.asked} ({finish.source})" if finish.asked else "not in the sheet (head: finish)"
    _lines([asked], mark="!")
    _lines([finish.rule, finish.metal])
    table(
        ("gasket", "metal", "asked for", "against the sheet", "source"),
        [(one.gasket, one.metal or "any", one.asked, one.against, one.source) for one in finish.rows],
    )
    _lines(finish.disagree)


def _figure(what: str, how: str, places: Sequence[str]) -> str:
    where = f" ({', '.join(places)})" if places else ""
    return f"{what}, {how}{where}" if how else f"{what}{where}"
