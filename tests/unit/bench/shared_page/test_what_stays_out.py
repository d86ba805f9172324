"""Nothing of his own is in a shared page unless he named it: every text of every kind of entry is looked for."""

import re
from collections.abc import Iterator
from html import unescape

import pytest

from gudgeon.bench.context import Bench
from gudgeon.bench.shared_page.answer import shared_page
from gudgeon.bench.shared_page.choices import Choices, choices_said
from gudgeon.bench.shared_page.deeds import OWN, PLANS, PRICES
from gudgeon.bench.shared_page.offered import photos_offered, words_offered
from gudgeon.bench.shared_page.scope import scopes
from gudgeon.book.bodies import BODIES
from gudgeon.web.shared_file import shared_html, shared_name
from tests.unit.bench.shared_page.told import (
    CODE,
    DEVICE,
    ODOMETER,
    PRICE,
    TOOLS,
    WHO,
    Told,
    bench_at,
    photographed,
    told,
)

WORD = re.compile(r"zq\d+qz")


@pytest.fixture(scope="module", params=[True, False], ids=["known things", "unknown things"])
def of(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Told:
    made = told(tmp_path_factory.mktemp("told"), keys=request.param)
    photographed(made.job)
    return made


@pytest.fixture(scope="module")
def bench(of: Told) -> Iterator[Bench]:
    with bench_at(of.job) as opened:
        yield opened


def text(bench: Bench, scope: str = "everything", said: str = "") -> str:
    return unescape(shared_html(bench, shared_page(bench, of=scope, choices=choices_said(said))).decode())


def test_every_kind_of_entry_is_in_the_book(of: Told, bench: Bench) -> None:
    assert {one.kind for one in bench.store.entries("mine")} == set(BODIES)
    assert len(of.words) > 100


def test_no_word_of_his_is_in_any_page(of: Told, bench: Bench) -> None:
    for scope in scopes(bench):
        page = text(bench, scope.said)
        assert [of.words[one] for one in WORD.findall(page)] == []
        for own in (WHO, "Quentin", "Abernathy", DEVICE, "telephone", CODE, PRICE, ODOMETER, *TOOLS, "mine"):
            assert own not in page
        assert not re.search(r"2026-\d\d|\b\d\d:\d\d\b", page)
        assert "Timing end" not in page
        assert "image/jpeg" not in page


def test_words_come_one_by_one_and_no_other(of: Told, bench: Bench) -> None:
    offered = [one for one in words_offered(bench, "everything", Choices()) if WORD.search(one.words)]
    assert len(offered) > 30
    one = offered[7]
    found = set(WORD.findall(text(bench, said=f"notes={one.number}")))
    assert found == set(WORD.findall(one.words))


def test_everything_that_is_written_freely_is_offered(of: Told, bench: Bench) -> None:
    """What `OWN` does not name would neither be told nor be asked for."""
    offered = words_offered(bench, "everything", Choices(prices=True))
    within = set(WORD.findall(" ".join(one.words for one in offered)))
    meant = {
        word
        for word, where in of.words.items()
        if (kind := where.split()[0]) in OWN and where.split()[1] in OWN[kind] and kind not in PLANS
    }
    assert meant - within == set()


@pytest.mark.parametrize(
    ("let_in", "seen"),
    [("names", WHO), ("devices", DEVICE), ("prices", PRICE), ("numbers", "187 654"), ("hours", "2026-03-07"), ("dates", "2026-03-07")],
)  # fmt: skip
def test_what_is_let_in_is_there(of: Told, bench: Bench, let_in: str, seen: str) -> None:
    said = text(bench, said=let_in)
    assert seen.replace(" ", "") in re.sub(r"[\s,\u2009\u202f\xa0]", "", said)
    assert re.search(r"\b\d\d:\d\d\b", said) is None or let_in == "hours"


def test_prices_and_plans_stay_out_as_a_whole(of: Told, bench: Bench) -> None:
    page = shared_page(bench, of="everything", choices=Choices())
    shown = {number for step in page.steps for number in step.numbers}
    kinds = {one.kind for one in bench.store.entries("mine") if one.number in shown}
    assert kinds & (PRICES | PLANS) == set()
    assert any("prices and sums (" in one for one in page.left_out)


def test_the_name_of_the_file_says_what_is_shared() -> None:
    assert shared_name("joint:head") == "shared-joint-head.html"
    assert shared_name("../../x y") == "shared-x-y.html"


def test_a_chosen_photo_is_pixels_alone_and_its_words_lose_names(of: Told, bench: Bench) -> None:
    import base64
    import io

    from PIL import Image

    photo = next(one for one in photos_offered(bench, "everything") if "Quentin" in one.words)
    page = text(bench, "everything", f"photos={photo.number}")
    assert "Timing end" in page
    assert "hose of (name)" in page
    assert "Quentin" not in page
    found = re.findall(r"data:image/jpeg;base64,([A-Za-z0-9+/=]+)", page)
    assert len(found) == 1
    content = base64.b64decode(found[0])
    assert b"Exif" not in content
    assert b"Quentin" not in content
    with Image.open(io.BytesIO(content)) as image:
        assert max(image.size) == 1280
        assert image.getexif() == {}
        assert set(image.info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density"}
