"""What is outside its limit, was done against a gate, or is open, and who answers for it."""

from gudgeon.bench.closed.model import Row, Section
from gudgeon.bench.closed.told import Told, hour, table
from gudgeon.bench.ready import Readiness
from gudgeon.bench.things import thing_words
from gudgeon.book.entries import Entry
from gudgeon.book.gates import RULES

KINDS = ("accepted", "inspected")


def let_pass(told: Told, before: Readiness) -> Section:
    """Every acceptance and override with its name and reason, those that lapsed, and acts against a gate."""
    bench = told.bench
    rows = (
        Row(
            (
                f"{one.act[0].upper()}{one.act[1:]}",
                one.why,
                f"{hour(one.time)}, {one.who}",
                f"inspected by {one.inspected_by}: {one.found}"
                if one.found
                else f"let pass by {one.passed_by}"
                if one.passed_by
                else "NOT INSPECTED",
            ),
            (one.order,),
            "" if one.found else "outside",
        )
        for one in bench.state.breaches
    )
    kept = [one for one in told.of("part-disposition") if one.body["decision"] == "accept"]
    overrides = (
        told.row(
            one, _about(told, one), one.body["by"], one.body["why"], hour(one.device_time), one.body["shown"]
        )
        for one in told.of("override")
    )
    sections = (
        *told.listed("Accepted and inspected, as it was said", told.of(*KINDS)),
        *table("Overridden", ("What", "By", "Why", "When", "What was open then"), overrides),
        *told.listed("Parts accepted as they are", kept),
        *table("Done against a gate", ("What was done", "Although", "When, who", "What became of it"), rows),
        *told.listed("Struck entries are struck by", told.of("strike")),
    )
    said = [f"Stands today: {one}." for one in before.accepted]
    said += [f"Stands no more: {one}." for one in before.earlier]
    return Section(
        "accepted",
        "Accepted outside limit, and by whom",
        said=tuple(said),
        tables=sections,
        missing=()
        if said or sections
        else ("Nothing was accepted outside a limit, and no gate was overridden.",),
    )


def _about(told: Told, one: Entry) -> str:
    """What an override is about, by its name."""
    family, _, key = str(one.body["about"]).partition(":")
    rule = next((rule for gate, rule in RULES.items() if gate == key), None)
    if family == "gate" and rule is not None:
        return f"one act although {rule.why}"
    return thing_words(told.bench, str(one.body["about"]))
