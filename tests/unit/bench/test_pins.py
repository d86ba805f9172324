"""Pins on photos: set with the photo or later, pieces that came off under them, and counts that add up."""

import uuid
from collections.abc import Callable
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest

from gudgeon.bench.context import Bench, open_bench
from gudgeon.bench.open_lists import open_lists
from gudgeon.bench.photo_counts import count_in_photo
from gudgeon.bench.photo_look import photo_look
from gudgeon.bench.photos import Sent, photos_report, record_photo
from gudgeon.bench.pin_errors import (
    CountedByHand,
    NoSuchPhoto,
    NoSuchPin,
    NotCounted,
    PinNumberTwice,
    PinNumberUnread,
    PinOffThePhoto,
    PinStillOff,
    PinWithoutWords,
    TooManyPins,
)
from gudgeon.bench.pins import PinSaid, group_for, pins_said, take_off, write_pins
from gudgeon.bench.record import record
from gudgeon.book.pictures import clean_picture
from gudgeon.errors import GudgeonError
from tests.unit.bench.benches import Job, make_job
from tests.unit.book.photos import JPEG, PNG

SHA, OTHER = clean_picture(JPEG).sha, clean_picture(PNG).sha
STRAP = PinSaid("3", "12.5", "40", "ground strap, goes to 3 on the block")
PLUG = PinSaid("4", "80", "100", "plug of the knock sensor")


@pytest.fixture
def job(tmp_path: Path) -> Job:
    made = make_job(tmp_path)
    made.read_code()
    return made


def do(job: Job, act: Callable[[Bench], Any]) -> Any:
    job.now += timedelta(minutes=1)
    bench = open_bench(job.book, now=job.now)
    try:
        return act(bench)
    finally:
        bench.store.close()


def take(job: Job, *pins: PinSaid, content: bytes = JPEG, caption: str = "front of the block") -> None:
    do(job, lambda bench: record_photo(bench, Sent("a.jpg", content), caption=caption, pins=pins))


def test_pins_are_kept_with_the_photo_in_thousandths(job: Job) -> None:
    take(job, PLUG, STRAP)
    # HAND: 12.5 % = 125, 40 % = 400, 80 % = 800, 100 % = 1000 thousandths; in the order of their numbers.
    assert job.bench().state.photos[-1].pins == (
        {"number": 3, "x": 125, "y": 400, "text": "ground strap, goes to 3 on the block"},
        {"number": 4, "x": 800, "y": 1000, "text": "plug of the knock sensor"},
    )


def test_pins_set_later_are_a_second_entry_about_the_same_photo(job: Job) -> None:
    take(job)
    done = do(job, lambda bench: write_pins(bench, SHA, [STRAP], caption="front, named"))
    assert done.said == "photo: front, named"
    look = do(job, lambda bench: photo_look(bench, SHA))
    assert [(one.number, one.x, one.y, one.text) for one in look.pins] == [
        (3, 125, 400, "ground strap, goes to 3 on the block")
    ]
    assert look.words == "front, named. 1 pins: 3: ground strap, goes to 3 on the block (middle, left)"
    first, second = do(job, photos_report).photos
    assert (first.anew, second.anew) == (second.number, 0)
    assert second.pins == ("3: ground strap, goes to 3 on the block",)


def test_striking_the_second_entry_brings_the_first_one_back(job: Job) -> None:
    take(job, STRAP)
    done = do(job, lambda bench: write_pins(bench, SHA, [PLUG]))
    job.record("strike", entry=done.entry, why="wrong photo")
    assert [one.number for one in do(job, lambda bench: photo_look(bench, SHA)).pins] == [3]


def test_the_same_photo_sent_once_more_keeps_its_pins(job: Job) -> None:
    take(job, STRAP)
    take(job, caption="the same again")
    look = do(job, lambda bench: photo_look(bench, SHA))
    assert look.photo.caption == "the same again"
    assert [one.number for one in look.pins] == [3]


@pytest.mark.parametrize(
    ("said", "kind", "words"),
    [
        (
            [PinSaid("3", "1", "1", " ")],
            PinWithoutWords,
            "Pin 3 has no words: say what is there and where it goes, like “ground strap, goes to 3 on the block”, or "
            "take the pin away. Nothing was written.",
        ),
        (
            [PinSaid("three", "1", "1", "x")],
            PinNumberUnread,
            "A pin has the number `three`; whole numbers from 1 to 999 are taken, as they stand on a tag. Write it "
            "anew. Nothing was written.",
        ),
        (
            [PinSaid("0", "1", "1", "x")],
            PinNumberUnread,
            "A pin has the number `0`; whole numbers from 1 to 999 are taken, as they stand on a tag. Write it anew. "
            "Nothing was written.",
        ),
        (
            [PinSaid("0000019999", "1", "1", "x")],
            PinNumberUnread,
            "A pin has the number `0000019999`; whole numbers from 1 to 999 are taken, as they stand on a tag. Write it "
            "anew. Nothing was written.",
        ),
        (
            [PinSaid("2", "1", "1", "hose"), PinSaid("2", "5", "5", "strap")],
            PinNumberTwice,
            "Number 2 is set twice on this photo: “hose” and “strap”. Each place has a number of its own: change one "
            "of them. Nothing was written.",
        ),
        (
            [PinSaid("2", "100.1", "1", "hose")],
            PinOffThePhoto,
            "Pin 2 lies at `100.1` across; percent of the picture from 0 to 100 are taken. Tap the picture, or write "
            "the percent. Nothing was written.",
        ),
        (
            [PinSaid("2", "1", "NaN", "hose")],
            PinOffThePhoto,
            "Pin 2 lies at `NaN` down; percent of the picture from 0 to 100 are taken. Tap the picture, or write the "
            "percent. Nothing was written.",
        ),
        (
            [PinSaid(str(number), "1", "1", "x") for number in range(1, 62)],
            TooManyPins,
            "61 pins are set on one photo; at most 60 can be told apart on it. Take a second photo for the others. "
            "Nothing was written.",
        ),
    ],
    ids=["no words", "no number", "nought", "zeros before", "twice", "beside", "no place", "too many"],
)
def test_what_is_refused_of_pins(said: list[PinSaid], kind: type[GudgeonError], words: str) -> None:
    with pytest.raises(kind) as refused:
        pins_said(said)
    assert str(refused.value) == words


def test_a_refused_pin_keeps_no_photo(job: Job) -> None:
    with pytest.raises(PinWithoutWords):
        take(job, PinSaid("1", "1", "1", ""))
    assert not job.book.with_name("book.gudgeon.photos").exists()


def test_commas_and_percent_signs_are_read() -> None:
    assert pins_said([PinSaid(" 7 ", "12,34", "50 %", "x")]) == [
        {"number": 7, "x": 123, "y": 500, "text": "x"}
    ]


def test_what_came_off_under_pins_is_on_the_list_and_leads_back(job: Job) -> None:
    take(job, STRAP, PLUG)
    done = do(job, lambda bench: take_off(bench, SHA, ["3", "4"], groups={"4": "connector"}))
    assert done.said == "taken off: connector, plug of the knock sensor, 4"
    found = next(one for one in do(job, open_lists).lists if one.name == "left over")
    assert [(one.name, one.where, one.photo, one.pin) for one in found.items] == [
        ("ground strap, goes to 3 on the block", "3", SHA, 3),
        ("plug of the knock sensor", "4", SHA, 4),
    ]
    counts = job.bench().state.counts
    assert {group: (one.off, one.on) for group, one in counts.items()} == {
        "connector": (1, 0),
        "strap": (1, 0),
    }
    item = found.items[0].item
    job.record("refitted", item=item, place="3")
    states = [one.state for one in do(job, lambda bench: photo_look(bench, SHA)).pins]
    assert states == ["back", "off"]


def test_all_pieces_come_off_or_none(job: Job) -> None:
    take(job, STRAP)
    before = job.bench().state.count
    with pytest.raises(NoSuchPin) as refused:
        do(job, lambda bench: take_off(bench, SHA, ["3", "9"], groups={}))
    assert str(refused.value) == (
        "“front of the block” has no pin 9 that could have come off; there are: 3. Look at the photo, then choose "
        "again. Nothing was written."
    )
    assert job.bench().state.count == before


def test_a_piece_sent_off_twice_counts_once(job: Job) -> None:
    take(job, STRAP, PLUG)
    entry = uuid.uuid4().hex
    for _ in range(2):
        do(job, lambda bench: take_off(bench, SHA, ["3", "4"], groups={}, entry_id=entry))
    assert job.bench().state.counts["strap"].off == 1


def test_a_pin_whose_piece_is_off_stays(job: Job) -> None:
    take(job, STRAP, PLUG)
    do(job, lambda bench: take_off(bench, SHA, ["3"], groups={}))
    with pytest.raises(PinStillOff) as refused:
        do(job, lambda bench: write_pins(bench, SHA, [PLUG]))
    assert str(refused.value) == (
        "Pin 3, “ground strap, goes to 3 on the block”, cannot be taken away: that piece is on the list of what came "
        "off and is not back yet. Put it back in the book first, or leave the pin. Nothing was written."
    )
    do(job, lambda bench: write_pins(bench, SHA, [STRAP]))
    assert [one.number for one in do(job, lambda bench: photo_look(bench, SHA)).pins] == [3]


def test_a_photo_about_a_piece_is_linked_without_a_pin(job: Job) -> None:
    job.record("taken-off", item="pump", group="part", name="water pump", due_before="crank")
    do(
        job,
        lambda bench: record_photo(bench, Sent("a", PNG), caption="pump", about=["item:left over:pump"]),
    )
    found = next(one for one in do(job, open_lists).lists if one.name == "left over")
    assert [(one.photo, one.pin) for one in found.items] == [(OTHER, 0)]


def test_no_photo_of_that_name(job: Job) -> None:
    with pytest.raises(NoSuchPhoto) as refused:
        do(job, lambda bench: write_pins(bench, "0" * 40, [STRAP]))
    assert str(refused.value) == (
        f"The book holds no photo `{'0' * 40}` that stands: none was written under that name, or its entry was struck. "
        "All of them stand under Photos. Nothing was written."
    )


@pytest.mark.parametrize(
    ("text", "group"),
    [
        ("Earth strap, left", "strap"), ("plugs of the injectors", "connector"), ("M8 bolts", "bolt"),
        ("heater hose bracket", "hose"), ("water pump", "part"), ("timing cover", "cover"),
    ],
)  # fmt: skip
def test_the_kind_of_thing_comes_from_its_words(text: str, group: str) -> None:
    assert group_for(text) == group


def counted(job: Job, sha: str, count: str, *, when: str = "off") -> Any:
    return do(job, lambda bench: count_in_photo(bench, sha, group="bolt", when=when, count=count))


def test_counts_of_photos_add_up_and_are_compared_at_the_refit(job: Job) -> None:
    take(job)
    take(job, content=PNG, caption="the rear")
    counted(job, SHA, "17")
    counted(job, OTHER, "9")
    assert job.bench().state.tallies["bolt"].off == 26  # HAND: 17 + 9
    counted(job, SHA, "16")  # counted once more: it takes the place of 17
    assert job.bench().state.tallies["bolt"].off == 25  # HAND: 16 + 9
    counted(job, SHA, "16", when="back")
    counted(job, OTHER, "8", when="back")
    look = do(job, lambda bench: photo_look(bench, OTHER))
    assert [(one.words, one.here, one.all) for one in look.counts] == [
        ("as they came off", 9, 25),
        ("as they went back", 8, 24),
    ]
    assert "25 bolts were counted as they came off, 24 as they went back: 1 is missing" in look.differs


def test_a_count_without_a_photo_is_not_added_to(job: Job) -> None:
    take(job)
    record_by_hand = {"group": "bolt", "when": "off", "count": 30, "note": ""}
    do(job, lambda bench: record(bench, "counted", record_by_hand))
    with pytest.raises(CountedByHand) as refused:
        counted(job, SHA, "17")
    assert str(refused.value) == (
        "30 bolts were counted as they came off without a photo, so what one photo shows cannot be added to it: nobody "
        "knows whether it is in that count. Write the whole count down under “Write down a count”. Nothing was written."
    )


@pytest.mark.parametrize("said", ["17.5", "000000199999"])
def test_a_count_is_a_whole_number(job: Job, said: str) -> None:
    take(job)
    with pytest.raises(NotCounted) as refused:
        counted(job, SHA, said)
    assert str(refused.value) == (
        f"`{said}` was counted in the photo; a whole number from 0 to 10000 is taken. Count them once more. Nothing was "
        "written."
    )
