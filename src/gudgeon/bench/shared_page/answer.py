"""The page to share: one operation or the whole job, step by step, with its evidence and without what stays his own."""

from collections.abc import Iterator, Mapping, Sequence

from gudgeon.bench.answer import RULES
from gudgeon.bench.context import Bench, entries_of
from gudgeon.bench.cut.case import case_of
from gudgeon.bench.cut.consequences import consequences_of
from gudgeon.bench.errors import CannotWorkOut
from gudgeon.bench.holds import standings
from gudgeon.bench.pictures.cut import picture_of
from gudgeon.bench.shared_page import readings
from gudgeon.bench.shared_page.choices import Choices
from gudgeon.bench.shared_page.days import Days, days_of
from gudgeon.bench.shared_page.deeds import NUMBERS, PLANS, PRICES
from gudgeon.bench.shared_page.errors import NotInIt, PhotoNotWhole
from gudgeon.bench.shared_page.hiding import hiding
from gudgeon.bench.shared_page.model import Day, Evidence, Rows, SharedPage, Step
from gudgeon.bench.shared_page.offered import inside, left_out
from gudgeon.bench.shared_page.pulls import joint_state
from gudgeon.bench.shared_page.scope import Scope, entries_in, photo_entries, scope_said
from gudgeon.bench.shared_page.steps import Telling
from gudgeon.bench.shared_page.tools import each_once, title_of
from gudgeon.book.entries import Entry
from gudgeon.errors import GudgeonError


def shared_page(bench: Bench, *, of: str, choices: Choices) -> SharedPage:
    """What is shared of `everything`, `cut`, `joint:KEY`, `reading:KEY` or `hold:KEY`.

    Errors: `Unknown` for what the book holds nothing of, `NotInIt` for words or a photo chosen that are not part of it,
    `PhotoNotWhole` for a photo whose file is missing or altered.
    """
    scope = scope_said(bench, of)
    every = entries_of(bench)
    belonging = _belonging(bench, every, scope, choices)
    told = tuple(one for one in belonging if _goes_in(one, choices))
    hidden = hiding(every, choices)
    days = days_of(every, choices)
    photos = _photos(bench, every, told, choices)
    _only_of_it(told, choices)
    made = Telling(bench, choices, hidden, days, photos).told(told)
    made = (*made, *_consequences(bench, scope, days))
    heading = bench.heading("What is shared?")
    return SharedPage(
        heading, scope.title, hidden.words(bench.sheet.engine.name), heading.notice,
        tuple(_found(bench, scope, made)), tuple(_cautions(bench, scope)), made,
        each_once(one for day in made for step in day.steps for one in _sources(step)),
        Evidence(
            len(told), len(every), days.now(bench.now, last=every[-1]),
            bench.state.head, bench.papers.sheet_sha, bench.papers.kit_sha,
        ),
        tuple(inside(made, choices)),
        tuple(left_out(bench, belonging, choices=choices, photos=photos)),
    )  # fmt: skip


def _sources(step: Step) -> Iterator[str]:
    for name, said in step.facts:
        if name in ("From", "Limits from"):
            yield from said.split("; ")


def _belonging(bench: Bench, every: Sequence[Entry], scope: Scope, choices: Choices) -> tuple[Entry, ...]:
    """The entries of the operation; and a plain note or a photo that he names, as those name no operation."""
    of_it = {one.id for one in entries_in(bench, every, scope)}
    named = {
        one.id
        for one in every
        if (one.kind == "note" and one.number in choices.notes)
        or (one.kind == "photo" and one.number in choices.photos)
    }
    return tuple(one for one in every if one.id in of_it | named)


def _goes_in(one: Entry, choices: Choices) -> bool:
    if one.kind in PRICES:
        return choices.prices
    if one.kind in NUMBERS:
        return choices.numbers
    if one.kind == "note":
        return one.number in choices.notes
    return one.kind not in PLANS and one.kind != "build-opened"


def _photos(
    bench: Bench, every: Sequence[Entry], told: Sequence[Entry], choices: Choices
) -> Mapping[str, int]:
    """The photos chosen, by their hash, each with the entry at which it is shown."""
    by_number = {one.number: one for one in every if one.kind == "photo"}
    standing = {one.body["sha"] for one in photo_entries(bench, every)}
    shown: dict[str, int] = {}
    for number in sorted(choices.photos):
        one = by_number.get(number)
        if one is None or one.body["sha"] not in standing:
            raise NotInIt(number, "photo")
        sha = one.body["sha"]
        if sha in bench.state.photos_wrong:
            raise PhotoNotWhole(number, bench.state.photos_wrong[sha])
        first = next(it for it in told if it.kind == "photo" and it.body["sha"] == sha)
        shown.setdefault(sha, first.number)
    return shown


def _only_of_it(told: Sequence[Entry], choices: Choices) -> None:
    numbers = {one.number for one in told}
    for number in sorted(choices.notes):
        if number not in numbers:
            raise NotInIt(number, "entry")


def _found(bench: Bench, scope: Scope, days: Sequence[Day]) -> Iterator[str]:
    """What came out, in a few lines: how far the joints are, the verdicts, the proofs that stand."""
    tables = [step.rows for day in days for step in day.steps if step.rows is not None]
    judged = [table for table in tables if table.columns == readings.COLUMNS]
    if scope.family == "joint":
        yield joint_state(bench, scope.key)
    elif scope.family == "everything":
        yield from (joint_state(bench, key) for key in bench.sheet.joints if key in bench.state.joints)
    counted = readings.counted_words(bench, judged)
    if counted:
        yield f"Verdicts on readings, as found and as left together: {counted}"
    holds = standings(bench.sheet, bench.state)
    if scope.family == "everything":
        yield f"Proofs that stand: {sum(one.stands for one in holds)} of {len(holds)}"
    for one in holds:
        if scope.family == "hold" and one.hold.id == scope.key:
            yield f"{one.hold.name}: {'it stands' if one.stands else 'it does not stand now'}"


def _cautions(bench: Bench, scope: Scope) -> Iterator[str]:
    told = {"joint": {scope.key}, "everything": set(bench.state.joints)}.get(scope.family, set())
    yield from each_once(
        one for key, joint in bench.sheet.joints.items() if key in told for one in joint.cautions
    )
    if scope.family == "everything":
        yield from (f"{one.text} ({one.basis})" for one in bench.sheet.cautions)
    yield f"This tells what was done to one engine. It is no instruction for another. {RULES}"


def _consequences(bench: Bench, scope: Scope, days: Days) -> tuple[Day, ...]:
    """What the cut that was made does, worked out from the figures as they are now."""
    if scope.family not in ("cut", "everything") or not bench.state.shop or bench.locked is not None:
        return ()
    try:
        case = case_of(bench)
        answer, drawn = consequences_of(bench, case), picture_of(case)
    except (CannotWorkOut, GudgeonError):
        return ()
    steps: list[Step] = []
    columns = ("What", "Before", "After", "Limit", "Verdict", "From")
    for one in answer.tables:
        rows = tuple((it.what, it.before, it.after, it.limit, it.verdict, it.source) for it in one.lines)
        what = f"Worked out: what a cut of {one.cut} does"
        keys = [key for key in bench.sheet.sources if any(f"{key} p" in it.source for it in one.lines)]
        facts = [("Counted from", one.cut_from)] if one.cut_from else []
        facts += [("From", "; ".join(f"{key}: {title_of(bench, key)}" for key in keys))] if keys else []
        shown = None if steps else drawn
        steps.append(Step((), what, tuple(facts), Rows("What it does", columns, rows), drawn=shown))
    return (Day("At the end", tuple(steps)),) if steps else ()
