"""The calculators of estimates, networks and wear: their inputs, results and sources. Nothing is computed here."""

from gudgeon.calc.calculator import Calculator, Parameter, Result
from gudgeon.calc.planning.supplies_catalog import SEALANT_BEAD
from gudgeon.calc.registration import text

_FORM = Parameter("form", None, None, "what is drawn between the ends: beta as the classical mean has it, or a "
                  "triangle, which weighs the ends more", "beta", choices=("beta", "triangular"))  # fmt: skip
_CURRENCY = text("currency", words="in which all money counts", example="USD", optional=True)
_LIFE = (
    Parameter("shape", "number", "1", "shape of the Weibull life: above 1 the part wears out, 1 fails by chance, "
              "below 1 early", optional=True, example="2.5"),
    text("characteristic_life", words="age by which 63.2 % have failed, from new or from the start; in km, mi, h, d, "
         "weeks, months or years", example="120000 km", optional=True),
    Parameter("start", None, None, "age before which none fails", "0"),
    text("fails_by", words="instead of both: how many have failed at two ages",
         example="10 % by 90000 km; 50 % by 150000 km", optional=True),
)  # fmt: skip
_LIFE_RESULTS = (
    Result("shape", "number", "1", "shape of the life", 2),
    Result("scale", None, None, "characteristic life above the start"),
    Result("mean_life", None, None, "mean life from new"),
)


def _money(
    name: str, words: str, *, example: str = "", default: str | None = None, optional: bool = False
) -> Parameter:
    return Parameter(name, "number", "1", words, default, optional=optional, example=example)


_THREE_POINT = Calculator(
    name="planning.three-point",
    title="What a task takes, from three estimates",
    module="gudgeon.calc.planning.network_forms:three_point",
    parameters=(
        text("optimistic", words="least that it can take", example="2 h"),
        text("likely", words="most likely", example="3 h"),
        text("pessimistic", words="most that it can take", example="7 h"),
        text("by", words="time within which it shall be done", example="4 h", optional=True),
        _FORM,
    ),
    results=(
        Result("mean", None, None, "mean, classical"),
        Result("deviation", None, None, "standard deviation, classical"),
        Result("beta_deviation", None, None, "standard deviation of the beta distribution"),
        Result("p10", None, None, "done by then with 10 %"),
        Result("p50", None, None, "done by then with 50 %"),
        Result("p90", None, None, "done by then with 90 %"),
        Result("chance", "ratio", "1", "chance to be done by the time given", 3),
        Result("chance_normal", "ratio", "1", "the same, classical (normally distributed)", 3),
    ),
    source="Malcolm, Roseboom, Clark and Fazar, Operations Research 7 (1959)",
    method="mean (a + 4 m + b) / 6, standard deviation (b − a) / 6; percentiles exact",
)  # fmt: skip

_NETWORK = Calculator(
    name="planning.critical-path",
    title="Critical path of tasks that wait for each other",
    module="gudgeon.calc.planning.network_forms:network",
    parameters=(
        text("network", words="tasks, each with its duration or three estimates, and what it comes after",
             example="A 3; B 2; C 5; D 1 after A; E 1 after B; F 3 after C, D, E"),
        text("by", words="time by which all shall be done, where there are three estimates", example="9",
             optional=True),
        Parameter("trials", "number", "1", "how many finishes are simulated", "10000"),
        _FORM,
    ),
    results=(
        Result("duration", None, None, "duration of the whole; of three estimates the classical mean"),
        Result("critical", None, None, "tasks without float"),
        Result("times", None, None, "when each task can begin and end, and its float"),
        Result("deviation", None, None, "standard deviation, classical"),
        Result("simulated_mean", None, None, "mean of the simulated finishes"),
        Result("simulated_deviation", None, None, "their standard deviation"),
        Result("merge_bias", None, None, "how much later it ends on the average because paths meet"),
        Result("p10", None, None, "done by then with 10 %"),
        Result("p50", None, None, "done by then with 50 %"),
        Result("p90", None, None, "done by then with 90 %"),
        Result("chance_normal", "ratio", "1", "chance to be done by the time given, classical", 3),
        Result("chance", "ratio", "1", "chance to be done by the time given, simulated", 3),
        Result("decides", None, None, "in how many of the trials each task decided the end"),
    ),
    source="Kelley and Walker, Eastern Joint Computer Conference (1959); Van Slyke, Operations Research 11 (1963)",
    method="forward and backward pass; with three estimates also simulated, with the same draws every time; a day is "
    "24 h, and nobody is taken to be busy elsewhere",
)  # fmt: skip

_WEAR_OUT = Calculator(
    name="planning.wear-out",
    title="Keep a part or renew it while it is open",
    module="gudgeon.calc.planning.wear_forms:wear_out",
    parameters=(
        text("age", words="of the part now, since new", example="90000 km"),
        text("further", words="use until it will be open again anyway", example="60000 km"),
        *_LIFE,
        _money("price", "of the new part, fitted now", example="45", optional=True),
        _money("opening", "what it costs to open it again", example="600", optional=True),
        _money("part_later", "price of the part after a failure; as now where it is not given", example="45",
               optional=True),
        _money("consequence", "what a failure breaks and brings besides", default="0"),
        _CURRENCY,
    ),
    results=(
        Result("chance_kept", "ratio", "1", "chance that the part fails before the next opening", 3),
        Result("chance_new", "ratio", "1", "chance that a new one does", 3),
        Result("failure", "number", "1", "what a failure costs: opening, part, and what it brings", 2),
        Result("kept", "number", "1", "cost of keeping it, on the average: chance × failure", 2),
        Result("new", "number", "1", "what the new part may still bring, on the average", 2),
        Result("renewed", "number", "1", "cost of renewing it, on the average: price and that", 2),
        Result("saved", "number", "1", "what renewing saves on the average; − is what it costs more", 2),
        Result("break_even_price", "number", "1", "price of the part at which both cost the same", 2),
        Result("break_even_chance", "ratio", "1", "chance of failing at which both cost the same", 3),
        Result("break_even_failure", "number", "1", "cost of a failure at which both cost the same", 2),
        *_LIFE_RESULTS,
        Result("life_left", None, None, "mean further life at its age"),
    ),
    source="Weibull, Journal of Applied Mechanics 18 (1951); HAND: expected cost of two choices",
    method="chance = 1 − R(age + further) / R(age); the sums are told, what to do is left to you",
)  # fmt: skip

_REPLACEMENT = Calculator(
    name="planning.replacement-age",
    title="Age at which a part is best replaced",
    module="gudgeon.calc.planning.wear_forms:replacement_age",
    parameters=(
        _money("planned", "cost of replacing it in time", example="100"),
        _money("failed", "cost of a failure with all that it brings", example="600"),
        *_LIFE,
        text("at", words="another age, to compare", example="60000 km", optional=True),
        _CURRENCY,
    ),
    results=(
        Result("age", None, None, "best age"),
        Result("why", None, None, "what makes it, or why there is none"),
        Result("rate", "number", "1", "cost rate at that age; without one, when it runs until it fails", 6),
        Result("rate_to_failure", "number", "1", "cost rate when it runs until it fails", 6),
        Result("share", "ratio", "1", "the first as a share of the second", 3),
        Result("rate_at", "number", "1", "cost rate when it is replaced at the other age", 6),
        *_LIFE_RESULTS,
    ),
    source="Barlow and Hunter, Operations Research 8 (1960), policy I",
    method="cost of a cycle divided by its mean length; the one root of h ∫ R dt + R = failed / (failed − planned)",
)  # fmt: skip

CALCULATORS = (_THREE_POINT, _NETWORK, _WEAR_OUT, _REPLACEMENT, SEALANT_BEAD)
