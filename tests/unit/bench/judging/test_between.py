"""Places against each other, cylinders against each other, a part and another part, and what is renewed always.

Verdicts are HAND. A micrometer that may be off by ± 0.005 mm is uncertain by 0.005/√3 = 0.00289 mm. Of its error half of
the variance is the same all along its scale and cancels in a difference; the other half counts at both readings:
u = √2 · 0.00289/√2 = 0.00289 mm again, and 1.645 u = 0.00475 mm.
"""

import pytest

from gudgeon.book.state import Accepted
from tests.unit.bench.judging.judged import KIT, Read, bench_with, by_place, rows_of

JOURNAL = """\
  journal:
    name: Journal
    part: crankshaft
    places: {journal: [1, 2], plane: [front, rear]}
    source: manual p. 5
    limits: [{shape: difference between places, within: journal, limit: max 0.02 mm}]
"""


@pytest.mark.parametrize(
    ("front", "rear", "verdict"),
    [
        ("60.000", "60.015", "inside"), ("60.000", "60.016", "in doubt"), ("60.000", "60.024", "in doubt"),
        ("60.025", "60.000", "outside"),
    ],
)  # fmt: skip
def test_places_of_one_journal_are_compared_with_each_other(front: str, rear: str, verdict: str) -> None:
    read: Read = {("journal", "journal 1, front"): front, ("journal", "journal 1, rear"): rear}
    read |= {("journal", "journal 2, front"): "59.5", ("journal", "journal 2, rear"): "59.5"}
    found = by_place(bench_with(JOURNAL, read, gauge="micrometer"), "journal")
    assert found["journal 1"].verdict == verdict
    assert found["journal 2"].verdict == "inside", "another journal is not compared with it"
    assert found["journal 1"].criterion == "places within each journal differ by at most 0.02 mm"
    assert found["journal 1"].covers == ("journal 1, front", "journal 1, rear")


def test_a_place_that_is_not_read_is_named_unless_it_is_outside_already() -> None:
    item = JOURNAL.replace("[front, rear]", "[front, middle, rear]")
    read: Read = {("journal", "journal 1, front"): "60.000", ("journal", "journal 1, rear"): "60.010"}
    read |= {("journal", "journal 2, front"): "60.000", ("journal", "journal 2, rear"): "60.050"}
    found = by_place(bench_with(item, read, gauge="micrometer"), "journal")
    assert (found["journal 1"].verdict, found["journal 1"].reason) == (
        "not measured", "no reading: journal 1, middle",
    )  # fmt: skip
    assert found["journal 2"].verdict == "outside", "a third reading can only make it more"


def test_the_temperature_of_a_reading_does_not_turn_its_difference_into_a_temperature() -> None:
    item = (
        "  warm: {name: Exhaust warmth, part: engine, quantity: temperature, places: [a, b], source: manual p. 5, "
        "limits: [{shape: difference between places, limit: max 20 K}]}\n"
    )
    (row,) = rows_of(
        bench_with(item, {("warm", "a"): "300", ("warm", "b"): "350"}, unit="°C", gauge=""), "warm"
    )
    assert (row.place, row.verdict) == ("all places", "outside")
    assert row.reading.startswith("50 K (90 °F)")


COMPRESSION = """\
  compression:
    name: Compression, warm
    part: engine
    quantity: pressure_gauge
    places: {cylinder: [1, 2, 3, 4]}
    source: manual p. 2
    limits: [{shape: difference between cylinders, LIMIT}]
"""


def compression(limit: str, *kpa: str | None, error: str = "3 %") -> dict[str, tuple[str, str]]:
    kit = KIT.replace("error: 30 kPa", f"error: {error}")
    read: Read = {
        ("compression", f"cylinder {number}"): value for number, value in enumerate(kpa, start=1) if value
    }
    bench = bench_with(COMPRESSION.replace("LIMIT", limit), read, gauge="pressure", unit="kPa", kit=kit)
    return {row.place: (row.verdict, row.reading) for row in rows_of(bench, "compression")}


def test_a_share_of_the_highest() -> None:
    """COMMON PRACTICE: the lowest cylinder at least 75 % of the highest.

    HAND: u = 3 %/√3 = 1.73 %; half of the variance cancels in the share, so that u = 0.0173 · share: at 80 % 1.645 u is
    2.3 %, at 70 % 2.0 %, at 76 % 2.2 %.
    """
    found = compression("percent_of_highest: min 75 %", "1000", "800", "700", "760")
    assert {place: verdict for place, (verdict, _) in found.items()} == {
        "cylinder 1": "inside", "cylinder 2": "inside", "cylinder 3": "outside", "cylinder 4": "in doubt",
    }  # fmt: skip
    assert found["cylinder 2"][1] == "800 kPa (116.0 psi), 80.0 % of the highest (cylinder 1)"


@pytest.mark.parametrize("limit", ["75 %", "min 75 %", "max 25 %", "25 %"])
def test_a_share_may_be_what_is_reached_or_what_is_lacking(limit: str) -> None:
    found = compression(f"percent_of_highest: {limit}", "1000", "800", "700", "990")
    assert [verdict for verdict, _ in found.values()] == ["inside", "inside", "outside", "inside"]


def test_below_the_mean() -> None:
    """COMMON PRACTICE: within 10 % of the mean. HAND: the mean of 1000, 1000, 1000 and 840 is 960; 840 is 12.5 % below.

    u of a share of the mean is at most that of one reading, 1.73 %, so that 1.645 u < 2.85 %: 4 % below is inside. And
    12.5 − 10 = 2.5 % needs u < 1.52 %: half the variance, 1.22 %, cancels; of the other half the cylinder counts with
    0.875 · 3/4 and each of the others with 0.875/4 · 1000/840: 1.22 % · √(0.656² + 3 · 0.260²) = 0.97 %.
    """
    found = compression("percent_below_mean: max 10 %", "1000", "1000", "1000", "840")
    assert [verdict for verdict, _ in found.values()] == ["inside", "inside", "inside", "outside"]
    assert found["cylinder 4"][1] == "840 kPa (121.8 psi), 12.5 % below the mean of 4"


def test_an_absolute_difference() -> None:
    """HAND: u = 30/√3 = 17.3 kPa, of the difference as much, 1.645 u = 28.5 kPa."""
    found = compression("limit: max 100 kPa", "1000", "930", "920", "860", error="30 kPa")
    assert [verdict for verdict, _ in found.values()] == ["inside", "inside", "in doubt", "outside"]
    assert found["cylinder 3"][1] == "920 kPa (133.4 psi), 80 kPa (11.6 psi) below the highest (cylinder 1)"


def test_the_highest_is_as_uncertain_as_it_was_read() -> None:
    """HAND: it differs from itself by nothing, but U of its reading is 2 · 30/√3 = 34.6 kPa; of a share 2 · 3 %/√3."""
    for limit, error, told in (
        ("limit: max 100 kPa", "30 kPa", "± 34.6 kPa (5.0 psi)"), ("percent_of_highest: min 75 %", "3 %", "± 3.5 %"),
    ):  # fmt: skip
        kit = KIT.replace("error: 30 kPa", f"error: {error}")
        read: Read = {("compression", f"cylinder {at}"): kpa for at, kpa in ((1, "1000"), (2, "980"))}
        read |= {("compression", "cylinder 3"): "970", ("compression", "cylinder 4"): "960"}
        item = COMPRESSION.replace("LIMIT", limit)
        found = by_place(bench_with(item, read, gauge="pressure", unit="kPa", kit=kit), "compression")
        assert (found["cylinder 1"].verdict, found["cylinder 1"].uncertainty) == ("inside", told)


def test_a_pressure_is_shown_in_the_unit_it_was_read_in() -> None:
    """HAND: 10.0 bar are 1000 kPa, and 1000/6.894757 = 145.0 psi."""
    read: Read = {("compression", f"cylinder {at}"): "10.0" for at in (1, 2, 3, 4)}
    item = COMPRESSION.replace("LIMIT", "limit: max 1 bar")
    found = by_place(bench_with(item, read, gauge="pressure", unit="bar"), "compression")
    assert found["cylinder 1"].reading == "10.0 bar (1000 kPa, 145.0 psi), the highest"


def test_a_cylinder_that_is_not_read_may_be_the_highest() -> None:
    found = compression("percent_of_highest: min 75 %", "1000", "800", "600", None)
    assert {place: verdict for place, (verdict, _) in found.items()} == {
        "cylinder 1": "not measured", "cylinder 2": "not measured",
        # A higher one would only make it worse.
        "cylinder 3": "outside", "cylinder 4": "not measured",
    }  # fmt: skip


def test_a_missing_cylinder_leaves_the_mean_open() -> None:
    found = compression("percent_below_mean: max 10 %", "1000", "800", "600", None)
    assert {verdict for verdict, _ in found.values()} == {"not measured"}


def test_two_low_neighbors_point_at_the_gasket_between_them() -> None:
    """COMMON PRACTICE: two cylinders beside each other are low, and the others are not."""
    item = COMPRESSION.replace("LIMIT", "percent_of_highest: min 75 %")
    for kpa, told in ((("1000", "600", "600", "1000"), 2), (("600", "1000", "600", "1000"), 0)):
        read: Read = {("compression", f"cylinder {at}"): one for at, one in enumerate(kpa, start=1)}
        found = rows_of(bench_with(item, read, gauge="pressure", unit="kPa"), "compression")
        assert sum("look at the gasket between them" in " ".join(row.notes) for row in found) == told


STEM = """\
  stem: {name: Stem wear, part: valves, method: gap, places: [1, 2], source: manual p. 5,
    limits: [{shape: sum with another part, with: guide, limit: max 0.10 mm}]}
  guide: {name: Guide wear, part: head, method: gap, places: [1, 2], wear_limit: max 0.10 mm, source: manual p. 5}
"""


def test_two_parts_are_added_place_by_place() -> None:
    """HAND: the dial errs by ± 0.01: of each reading u = 0.00577. It reads both at one spot within 1 mm, where all that
    it errs is one and the same error: it adds, u = 0.01155 and 1.645 u = 0.019 mm."""
    read: Read = {
        ("stem", "1"): "0.03",
        ("guide", "1"): "0.04",
        ("stem", "2"): "0.06",
        ("guide", "2"): "0.07",
    }
    found = by_place(bench_with(STEM, read, gauge="dial"), "stem")
    assert (found["1"].verdict, found["2"].verdict) == ("inside", "outside")
    assert found["1"].reading == "0.07 mm (0.0028 in): 0.03 mm (0.0012 in) and 0.04 mm (0.0016 in)"
    assert found["1"].criterion == "together, with Guide wear (head), at most 0.10 mm"
    del read[("guide", "2")]
    assert by_place(bench_with(STEM, read, gauge="dial"), "stem")["2"].reason == "no reading: Guide wear"


ALWAYS = "  bolts: {name: Head bolts, part: bolts, source: manual p. 8, limits: [{shape: replace always}]}\n"


def test_what_is_replaced_always_needs_no_reading() -> None:
    (row,) = rows_of(bench_with(ALWAYS, {}), "bolts")
    assert (row.verdict, row.reason, row.source) == (
        "outside", "the manual has it renewed every time, whatever it measures", "manual p. 8",
    )  # fmt: skip
    accepted = (Accepted("e", "bolts", "Kim", "no new ones to be had"),)
    (row,) = rows_of(bench_with(ALWAYS, {}, accepted=accepted), "bolts")
    assert (row.verdict, row.accepted) == ("outside", "accepted by Kim, because no new ones to be had")
