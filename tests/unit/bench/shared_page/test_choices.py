"""What is let in is named; words that are let in lose what was not."""

import pytest

from gudgeon.bench.shared_page.choices import Choices, NoSuchChoice, NotOneByOne, choices_said
from gudgeon.bench.shared_page.hiding import hiding
from gudgeon.book.entries import Entry


def entry(kind: str, **body: object) -> Entry:
    return Entry(
        "0" * 32, 1, kind, 1, body, "mine", "Ada Byron", "bench computer", "2026-03-07T10:00:00+01:00", "", "", "", "",
        "", "",
    )  # fmt: skip


BOOK = (
    entry("shop-out", part="head", shop="Miller & Sons", ordered="cut it", most_off=None),
    entry("identity-read", code="TW 44-Q", read_from="pad", matches=True, why_not=None),
    entry("turned", by="hand", seen="free"),
    entry("signed-off", by="owner", words="as it is", milestone="crank"),
)


@pytest.mark.parametrize(
    ("said", "kept"),
    [
        ("ADA said: mark it by hand", "(name) said: mark it by hand"),
        ("Byrons is no Byron", "Byrons is no (name)"),
        ("brought back by Miller & Sons, the owner agreed", "brought back by (name), the owner agreed"),
        ("stamped TW 44-Q beside the pad", "stamped (number) beside the pad"),
        ("typed on the bench computer", "typed on the (device)"),
        ("at 10:30, 2026-03-07; again at 9 am on 3/7/2026", "at (hour), (date); again at (hour) on (date)"),
        ("44.50 EUR, then $12 and 30 dollars", "(price), then (price) and (price)"),
        ("25 N·m, 1:4 of a turn, 0.05 mm", "25 N·m, 1:4 of a turn, 0.05 mm"),
    ],
)
def test_words_lose_what_was_not_let_in(said: str, kept: str) -> None:
    assert hiding(BOOK, Choices()).words(said) == kept


NARROW, THIN = "\u202f", "\u2009"


@pytest.mark.parametrize(
    "said",
    [
        "EUR 350", "350 EUR", "350EUR", "EUR350", "€350", "350 €", "€ 1,200.50", "1.200,50 €", "1 200 EUR", "EUR 1 200",
        f"1{NARROW}200 EUR", f"1{THIN}200 €", "CHF 40.-", "40.- CHF", "CHF 1'200.–", "SEK 900", "900 SEK", "900 kr", "kr 900",
        "US$ 40", "$12", "12 dollars", "5 cents", "£7.50", "7.50 GBP", "EUR 350-400", "350 to 400 EUR", "2k EUR", "Fr. 40.-",
        "EUR: 350", "eur 350", "40.-", "900:-", "350,- €",
    ],
)  # fmt: skip
def test_a_price_as_people_write_it(said: str) -> None:
    assert hiding(BOOK, Choices()).words(f"paid {said} for it") == "paid (price) for it"
    assert hiding(BOOK, Choices()).words(f"paid {said}.").startswith("paid (price)")
    assert hiding(BOOK, Choices(prices=True)).words(f"paid {said} for it") == f"paid {said} for it"


@pytest.mark.parametrize(
    "said",
    [
        "May 3, 2026", "May 3", "May 3rd, 2026", "May 3 2026", "3 May 2026", "3 May", "3rd of May 2026", "3. May 2026",
        "3-May-2026", "Sun, 3 May 2026", "Sunday, May 3, 2026", "Sunday May 3", "Sun Oct 25", "Oct 25", "Oct. 25, 2026",
        "25 Oct 2026", "25 October", "OCTOBER 25", "october 25, 2026", "3 may 2026", "may 3, 2026", "Sept 9", "March 2026",
        "October 2026", "2026-10-25", "2026/10/25", "2026.10.25", "25.10.2026", "25. 10. 2026", "25.10.26", "10/25/2026",
        "25-10-2026", "Thu Dec 31, 2026",
    ],
)  # fmt: skip
def test_a_date_as_people_write_it(said: str) -> None:
    assert hiding(BOOK, Choices()).words(f"it came on {said} by post") == "it came on (date) by post"
    assert (
        hiding(BOOK, Choices(dates=True)).words(f"it came on {said} by post") == f"it came on {said} by post"
    )


@pytest.mark.parametrize(
    "said", ["15:37", "9:05", "9:05:30", "9:05 am", "9 p.m.", "9.05 pm", "14h30", "14H30", "14.30 Uhr"]
)
def test_an_hour_as_people_write_it(said: str) -> None:
    assert hiding(BOOK, Choices()).words(f"done at {said} by lamp") == "done at (hour) by lamp"


@pytest.mark.parametrize(
    ("said", "kept"),
    [
        ("EUR 350, CHF 40.-", "(price), (price)"),
        ("since Sun Oct 25, 15:37", "since (date), (hour)"),
        ("since Sun Oct 25, 2026, 15:37.", "since (date), (hour)."),
        ("2026-10-25T15:37:00+01:00", "(date)T(hour)"),
        ("3 May 2026 EUR 350", "(date) (price)"),
        ("gasket set, 2 EUR 350", "gasket set, (price)"),
    ],
)
def test_what_stands_together_goes_out_together(said: str, kept: str) -> None:
    assert hiding(BOOK, Choices()).words(said) == kept


@pytest.mark.parametrize(
    "said",
    [
        "84120",
        "84,120 km",
        "84 120 km",
        "84.120 km",
        f"84{NARROW}120{NARROW}km",
        "84'120",
        "84120km",
        "84,120.5 mi",
    ],
)
def test_the_odometer_however_it_is_written(said: str) -> None:
    for book in (
        entry("odometer-read", value="84120", unit="km"),
        entry("timer-started", name="run in", odometer="84120", unit="km"),
    ):
        assert hiding((book,), Choices()).words(f"at {said}, by hand") == "at (number), by hand"
        assert hiding((book,), Choices(numbers=True)).words(f"at {said}, by hand") == f"at {said}, by hand"


def test_a_new_odometer_hides_no_figure_of_the_engine() -> None:
    hidden = hiding((entry("odometer-read", value="12", unit="km"),), Choices())
    assert hidden.words("12 studs, M12, seen at 12 km") == "12 studs, M12, seen at (number)"


@pytest.mark.parametrize(
    "said",
    [
        "25 N·m, then 90°, then 90° again; 18 ft-lb with oil",
        "M10 x 1.25, 84.5 mm long, class 12.9; 7/16-20 UNF, 3/8 in drive",
        "Bolt 3 may be used once more, bolts 9, 10 and 11 may not",
        "Loose at bolt 3. May be the thread, I shall look again",
        "Bolts 1 to 10 by hand, 11-14 with 25 Nm",
        "Firing order 1-5-3-6-2-4, compression 10.5:1, ratio 4:1",
        "Bore 84.120 mm, 84.12 mm at B, out of round 0.012; 3.3071 in",
        "5W-30, 1 200 rpm for 20 min, 2,000 rpm after, 1.5 bar, 14 h under water",
        "Gap 0.20-0.25 mm, 0.008-0.010 in, step 2.- no step felt",
        "A mar 2 mm deep, mar 3 is shallow; Mar 2 mm deep at journal 4",
        "2.- Clean the face. Sunday work: sun gear 25 teeth, sat 30 min",
        "Dec. part of the fraction, second 10, sector 3, decked by 0.10 mm",
        "Piston crown 4 up, 2 x 350 mm of hose, 1,200 g, 84 mm stroke, 184 120 strokes",
        "Marks at 12 o'clock, cam 3 teeth off, 50 Hz, 220 V, 0.5 % of 1,000",
    ],
)
def test_figures_of_an_engine_stay_whole(said: str) -> None:
    odometer = entry("odometer-read", value="84120", unit="km")
    assert hiding((*BOOK, odometer), Choices()).words(said) == said


def test_what_was_let_in_stays() -> None:
    said = "Ada, 10:30 on 2026-03-07, 44 EUR, TW 44-Q, bench computer"
    everything = Choices(names=True, dates=True, hours=True, prices=True, numbers=True, devices=True)
    assert hiding(BOOK, everything).words(said) == said


def test_choices_as_they_are_said() -> None:
    assert choices_said("") == Choices()
    assert choices_said("hours, notes=12,15 photos=3,names") == Choices(
        names=True, hours=True, notes=frozenset({12, 15}), photos=frozenset({3})
    )


@pytest.mark.parametrize("said", ["notes", "notes=all", "photos=", "notes=12,photos=x"])
def test_words_and_photos_go_in_one_by_one(said: str) -> None:
    with pytest.raises(NotOneByOne, match="go in one by one"):
        choices_said(said)


@pytest.mark.parametrize("said", ["everything", "names=yes", "12", "names,12"])
def test_a_word_that_lets_nothing_in(said: str) -> None:
    with pytest.raises(NoSuchChoice) as refused:
        choices_said(said)
    assert str(refused.value).startswith(
        f"“{said.split(',')[-1]}” is nothing that can be let into a shared page."
    )
