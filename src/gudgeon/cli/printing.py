"""Answers on paper: PDF files to print and to hang on the engine."""

from argparse import Namespace
from functools import partial
from pathlib import Path

from gudgeon.cli.paper_files import file_name, printed, refuse_existing, size_of, told, write_file
from gudgeon.cli.questions import bench_of
from gudgeon.errors import InputError


class NoJoints(InputError):
    """A sheet without a joint has no card."""

    def __init__(self, engine: str) -> None:
        super().__init__(f"The data sheet of {engine} holds no joint, so there is no card to print.")


def card(chosen: Namespace) -> int:
    """The card of one joint."""
    from gudgeon.bench.pull_list import card as ask
    from gudgeon.bench.pull_list import loosening_card
    from gudgeon.paper.card import card_pdf

    bench = bench_of(chosen)
    answer = (loosening_card if chosen.loosening else ask)(bench, chosen.joint)
    what = f"card-{chosen.joint}" + ("-loosening" if chosen.loosening else "")
    make = partial(card_pdf, answer, size=size_of(chosen, bench))
    return printed(chosen, answer.heading, what, make=make)


def cards(chosen: Namespace) -> int:
    """The cards of all joints: in one file, or in a folder one by one."""
    from gudgeon.bench.pull_list import card as ask
    from gudgeon.paper.card import card_pdf, cards_pdf

    bench = bench_of(chosen)
    bench.unlock()
    answers = [ask(bench, key) for key in bench.sheet.joints]
    if not answers:
        raise NoJoints(bench.sheet.engine.name)
    heading = answers[0].heading
    if chosen.folder is None:
        make = partial(cards_pdf, answers, size=size_of(chosen, bench))
        return printed(chosen, heading, "cards", make=make)
    folder = Path(chosen.folder)
    paths = [folder / file_name(heading, f"card-{answer.joint}") for answer in answers]
    refuse_existing(chosen, *paths)
    folder.mkdir(parents=True, exist_ok=True)
    for path, answer in zip(paths, answers, strict=True):
        write_file(chosen, path, card_pdf(answer, size=size_of(chosen, bench)))
    return told(chosen, heading, *paths)


def shims(chosen: Namespace) -> int:
    """Which shim goes where."""
    from gudgeon.bench.shims.shims import shims as ask
    from gudgeon.paper.shims import shims_pdf

    bench = bench_of(chosen)
    answer = ask(bench)
    make = partial(shims_pdf, answer, size=size_of(chosen, bench))
    return printed(chosen, answer.heading, "shims", make=make)


def buy(chosen: Namespace) -> int:
    """The shopping list, by supplier."""
    from gudgeon.bench.buying.ask import buy as ask
    from gudgeon.paper.shopping import shopping_pdf

    bench = bench_of(chosen)
    answer = ask(bench, no_delay=chosen.no_delay)
    make = partial(shopping_pdf, answer, size=size_of(chosen, bench))
    return printed(chosen, answer.heading, "shopping-list", make=make)


def estimate(chosen: Namespace) -> int:
    """The estimate for the owner, or the closing account."""
    from gudgeon.bench.costs.costs import costs
    from gudgeon.paper.estimate import estimate_pdf

    bench = bench_of(chosen)
    answer = costs(bench, closing=chosen.closing)
    make = partial(estimate_pdf, answer, size=size_of(chosen, bench))
    return printed(chosen, answer.heading, "closing-account" if answer.closed else "estimate", make=make)


def why_not(chosen: Namespace) -> int:
    """The list of what is open before a milestone."""
    from gudgeon.bench.ready import ready as ask
    from gudgeon.paper.why_not import why_not_pdf

    bench = bench_of(chosen)
    answer = ask(bench, milestone=chosen.milestone)
    make = partial(why_not_pdf, answer, size=size_of(chosen, bench))
    return printed(chosen, answer.heading, f"why-not-{answer.milestone}", make=make)


def shop_order(chosen: Namespace) -> int:
    """The order that leaves with a part."""
    from gudgeon.bench.shop.order import shop_order as ask
    from gudgeon.paper.order import order_pdf

    bench = bench_of(chosen)
    answer = ask(bench, part=chosen.part)
    make = partial(order_pdf, answer, size=size_of(chosen, bench))
    return printed(chosen, answer.heading, f"shop-order-{answer.kind}", make=make)


def shop_back(chosen: Namespace) -> int:
    """What came back of a part, against what was ordered."""
    from gudgeon.bench.shop.return_sheet import return_sheet
    from gudgeon.paper.shop_back import shop_back_pdf

    bench = bench_of(chosen)
    answer = return_sheet(bench, part=chosen.part)
    make = partial(shop_back_pdf, answer, size=size_of(chosen, bench))
    return printed(chosen, answer.heading, f"shop-back-{answer.check.kind}", make=make)
