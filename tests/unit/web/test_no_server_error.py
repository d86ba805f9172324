"""Whatever is asked of a page or written into a form: it is answered or refused in words, and nothing of ours fails."""

import re
from datetime import UTC, datetime
from pathlib import Path
from tempfile import mkdtemp
from urllib.parse import quote_from_bytes

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from starlette.testclient import TestClient

from gudgeon.bench.begin import open_demo
from gudgeon.bench.recordable import RECORDABLES
from gudgeon.book.address import BookAddress
from gudgeon.calc.calculator import calculator, names
from gudgeon.web.app import ADDRESSES
from gudgeon.web.desk import Address
from tests.odd_texts import ODD, encoded
from tests.paired import paired
from tests.unit.bench.benches import make_job

FIELDS = tuple(dict.fromkeys(one.named for of in RECORDABLES for one in of.inputs))
COMMON = (
    "back", "recorded", "page", "verify", "for", "item", "joint", "part", "off", "gasket", "left_in", "glycol", "seen", "what", "codes", "shells", "order", "at",
    "place", "code", "name", "who", "to", "path", "value", "again", "source", "why", "key", "decision", "made_from", "condition", "unit", "with_what", "loosening",
    "bolts_are", "stage", "bolt", "what_if", "trials", "seed", "from", "pull", "face", "lines", "scan", "units", "drawn", "task", "by", "shown", "before", "number",
    "basis", "chain", "entry", "knew", "ago", "outcome", "doubt", "how_many", "count", "text", "sheet", "kit", "layout", "cylinders", "drive", "valves", "cooling",
)  # fmt: skip
KNOWN = (
    "head",
    "cover",
    "bore",
    "deck_flatness",
    "1",
    "2",
    "note",
    "reading",
    "pull",
    "photo",
    "mine",
    "torque",
    "short-block",
    *names()[:6],
)
"""Keys that the small bench or the invented job have, so that odd things reach further than the first look."""


def texts() -> st.SearchStrategy[str]:
    return st.one_of(st.sampled_from(KNOWN), ODD)


def said(fields: tuple[str, ...]) -> st.SearchStrategy[dict[str, str]]:
    return st.dictionaries(st.one_of(st.sampled_from(fields), st.text(max_size=8)), ODD, max_size=6)


def written(one: dict[str, str]) -> str:
    """Fields as they stand in an address or in a body."""
    return "&".join(
        f"{quote_from_bytes(encoded(name))}={quote_from_bytes(encoded(value))}" for name, value in one.items()
    )


@st.composite
def requests(draw: st.DrawFn, address: Address) -> tuple[str, str, str]:
    """A method, an address with its question part, and a body."""
    path = re.sub(
        r"\{[^}]*\}", lambda _: quote_from_bytes(encoded(draw(texts())), safe="") or "x", address.path
    )
    asked = draw(said(COMMON))
    of = next((one for one in RECORDABLES if f"/record/{one.name}" == path), None)
    own = tuple(one.named for one in of.inputs) if of is not None else FIELDS
    form = draw(said((*own, *COMMON))) if "POST" in address.methods else {}
    return address.methods[0], f"{path}?{written(asked)}", written(form)


def tried(book: BookAddress, address: Address, *, most: int) -> list[int]:
    """What was answered to so many requests of a paired device."""
    answered: list[int] = []
    with paired(book) as client:

        @settings(
            max_examples=most,
            derandomize=True,
            deadline=None,
            database=None,
            suppress_health_check=list(HealthCheck),
        )
        @given(requests(address))
        def ask(one: tuple[str, str, str]) -> None:
            answered.append(status(client, *one))
            assert answered[-1] < 500, one

        ask()
    return answered


def status(client: TestClient, method: str, address: str, body: str) -> int:
    kind = {"Content-Type": "application/x-www-form-urlencoded"} if method == "POST" else {}
    return client.request(method, address, content=body, headers=kind, follow_redirects=False).status_code


@pytest.fixture(scope="module")
def small() -> BookAddress:
    """A small bench, whose answers come quickly; what was recorded stays, as in a real book."""
    job = make_job(Path(mkdtemp()))
    job.read_code()
    return job.book


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> BookAddress:
    return open_demo(
        tmp_path_factory.mktemp("demo") / "demo", now=datetime(2026, 3, 7, 10, 0, tzinfo=UTC)
    ).book


def named(one: Address) -> str:
    return f"{one.methods[0]} {one.path}"


@pytest.mark.parametrize("address", ADDRESSES, ids=named)
def test_nothing_of_ours_fails(small: BookAddress, address: Address) -> None:
    assert tried(small, address, most=3)


@pytest.mark.long
@pytest.mark.parametrize("address", ADDRESSES, ids=named)
def test_nothing_of_ours_fails_however_long_one_looks(demo: BookAddress, address: Address) -> None:
    assert tried(demo, address, most=4 if address.path.endswith((".pdf", ".png")) else 12)


@pytest.mark.parametrize("of", RECORDABLES, ids=lambda of: of.name)
def test_whatever_is_written_into_a_form_is_recorded_or_refused(small: BookAddress, of: object) -> None:
    """Every field of the form filled in, oddly."""
    one = next(kind for kind in RECORDABLES if kind is of)
    with paired(small) as client:

        @settings(
            max_examples=4,
            derandomize=True,
            deadline=None,
            database=None,
            suppress_health_check=list(HealthCheck),
        )
        @given(st.fixed_dictionaries({field.named: texts() for field in one.inputs}))
        def fill_in(form: dict[str, str]) -> None:
            assert status(client, "POST", f"/record/{one.name}", written(form)) < 500, form

        fill_in()


LONG = "9" * 5000
"""More figures than Python makes a number of by itself (4300, its documentation: “Integer string conversion length
limitation”)."""


@pytest.mark.parametrize(
    ("path", "form", "says"),
    [
        ("/record/note", {"text": "oil", "ago": LONG}, "The entry says that it waited `"),
        ("/record/pull", {"joint": "head", "stage": LONG}, "takes a whole number of at most 12 figures; `"),
        ("/good/row", {f"item.{LONG}": "bore"}, "“What was measured” is empty"),
        ("/record/photo", {f"number.{LONG}": "1"}, "“What it shows, in a few words” is empty"),
    ],
)
def test_a_number_without_end_is_refused_in_words(
    small: BookAddress, path: str, form: dict[str, str], says: str
) -> None:
    with paired(small) as client:
        answer = client.post(path, data=form, headers={"Accept": "application/json"})
    assert answer.status_code < 500
    assert says in answer.json()["said"]
    assert len(answer.text) < 500, "a refusal does not hand the number back"


@pytest.mark.parametrize("name", names())
def test_whatever_a_calculator_is_given_it_works_out_or_refuses(small: BookAddress, name: str) -> None:
    with paired(small) as client:

        @settings(
            max_examples=3,
            derandomize=True,
            deadline=None,
            database=None,
            suppress_health_check=list(HealthCheck),
        )
        @given(
            st.fixed_dictionaries(
                {one.name: st.one_of(st.just(one.example or "1"), ODD) for one in calculator(name).parameters}
            )
        )
        def give(inputs: dict[str, str]) -> None:
            plain = {key: encoded(value).decode(errors="replace") for key, value in inputs.items()}
            answer = client.post(f"/api/calculators/{name}", json={"inputs": plain})
            assert answer.status_code in (200, 413, 422), inputs

        give()
