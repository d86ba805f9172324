"""The interface for programs is asked what its description allows, and what it does not: it answers as described."""

import json
import re
from collections.abc import Iterator
from pathlib import Path
from tempfile import mkdtemp
from typing import Any
from urllib.parse import quote_from_bytes
from uuid import uuid4

import pytest
import schemathesis
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from schemathesis import GenerationMode
from schemathesis.checks import not_a_server_error
from schemathesis.specs.openapi.checks import (
    content_type_conformance,
    response_schema_conformance,
    status_code_conformance,
)
from starlette.testclient import TestClient

from gudgeon.bench.recordable_inputs import Input
from gudgeon.web.api.application import described
from gudgeon.web.api.kinds import KINDS
from tests.odd_texts import ODD, encoded
from tests.paired import paired
from tests.unit.bench.benches import make_job

DESCRIPTION = described(None).openapi()
SCHEMA = schemathesis.openapi.from_dict(DESCRIPTION)
CHECKS: list[Any] = [
    not_a_server_error,
    status_code_conformance,
    content_type_conformance,
    response_schema_conformance,
]
JSON = {"Content-Type": "application/json"}
KNOWN = (
    "head",
    "cover",
    "bore",
    "1",
    "1 top across",
    "30 N·m",
    "81.65 mm",
    "done",
    "clicked",
    "half",
    "caliper",
    "a word",
    "deck rag",
)
"""Keys, places and figures that the small bench has, so that odd things reach further than the first look."""
OPERATIONS = [(path, method) for path, every in DESCRIPTION["paths"].items() for method in every]


@pytest.fixture(scope="module")
def program() -> Iterator[TestClient]:
    """A paired program at a small bench; whatever it writes stays there, as in a real book."""
    job = make_job(Path(mkdtemp()))
    job.read_code()
    with paired(job.book) as client:
        yield client


def asked(program: TestClient, path: str, method: str, *, mode: GenerationMode, most: int) -> list[int]:
    """What was answered to so many requests; each answer is checked against the description."""
    answered: list[int] = []

    @settings(
        max_examples=most,
        derandomize=True,
        deadline=None,
        database=None,
        suppress_health_check=list(HealthCheck),
    )
    @given(data=st.data())
    def ask(data: st.DataObject) -> None:
        case = data.draw(SCHEMA[path][method].as_strategy(generation_mode=mode))
        said = case.as_transport_kwargs(base_url="http://127.0.0.1")
        said = {
            name: said[name]
            for name in ("method", "url", "params", "json", "data", "headers")
            if name in said
        }
        content = said.pop("data", None)
        if isinstance(content, bytes | str):
            said["content"] = content
        answer = program.request(**said)
        answered.append(answer.status_code)
        case.validate_response(answer, checks=CHECKS)

    ask()
    return answered


def named(one: object) -> str:
    return str(one).strip("/").replace("/", " ")


@pytest.mark.parametrize(("path", "method"), OPERATIONS, ids=named)
def test_what_is_asked_is_answered_as_described(program: TestClient, path: str, method: str) -> None:
    """What the description allows, and what it does not."""
    assert asked(program, path, method, mode=GenerationMode.POSITIVE, most=5)
    if negatable(path, method):
        assert asked(program, path, method, mode=GenerationMode.NEGATIVE, most=3)


@pytest.mark.long
@pytest.mark.parametrize(("path", "method"), OPERATIONS, ids=named)
def test_however_long_one_asks_it_is_answered_as_described(
    program: TestClient, path: str, method: str
) -> None:
    assert asked(program, path, method, mode=GenerationMode.POSITIVE, most=12)
    if negatable(path, method):
        assert asked(program, path, method, mode=GenerationMode.NEGATIVE, most=12)


def negatable(path: str, method: str) -> bool:
    """Whether there is anything that could be asked against the description: any text is a name or a figure."""
    one = DESCRIPTION["paths"][path][method]
    return "requestBody" in one or any(
        {"enum", "minimum", "maximum"} & said["schema"].keys() or said["schema"].get("type") == "boolean"
        for said in one.get("parameters", ())
    )


NAMES = {one.name: one for one in KINDS}


@pytest.mark.parametrize("kind", NAMES)
def test_whatever_is_said_of_an_entry_is_recorded_or_refused(program: TestClient, kind: str) -> None:
    assert entries(program, kind, most=4)


@pytest.mark.long
@pytest.mark.parametrize("kind", NAMES)
def test_whatever_is_said_of_an_entry_however_often(program: TestClient, kind: str) -> None:
    assert entries(program, kind, most=15)


def entries(program: TestClient, kind: str, *, most: int) -> list[int]:
    """What was answered to so many entries of a kind; one that was taken counts once when it is sent again."""
    answered: list[int] = []
    case = SCHEMA["/api/entries"]["post"].Case(media_type="application/json")

    @settings(
        max_examples=most,
        derandomize=True,
        deadline=None,
        database=None,
        suppress_health_check=list(HealthCheck),
    )
    @given(fields=st.fixed_dictionaries({}, optional={one.field: values(one) for one in NAMES[kind].inputs}))
    def write(fields: dict[str, Any]) -> None:
        sent = {"id": uuid4().hex, "kind": kind, "fields": fields}
        body = json.dumps(sent)  # half signs too, as a program may write them
        first = program.post("/api/entries", content=body, headers=JSON)
        answered.append(first.status_code)
        assert first.status_code in (201, 400, 409, 422), sent
        case.validate_response(first, checks=CHECKS)
        if first.status_code == 201:
            assert program.post("/api/entries", content=body, headers=JSON).status_code in (200, 409), sent

    write()
    return answered


def values(one: Input) -> st.SearchStrategy[Any]:
    """What a program may say in a field: something that fits it, and anything else."""
    fitting = [*one.choices, *KNOWN, None, True, False, 0, 1, 2, 10**12]
    return st.one_of(st.sampled_from(fitting), ODD, st.lists(ODD, max_size=3))


@pytest.mark.parametrize(("path", "method"), [one for one in OPERATIONS if one[1] == "get"], ids=named)
def test_odd_figures_in_a_question_are_answered_or_refused(
    program: TestClient, path: str, method: str
) -> None:
    asked_for = [one["name"] for one in DESCRIPTION["paths"][path][method].get("parameters", ())]

    @settings(
        max_examples=5,
        derandomize=True,
        deadline=None,
        database=None,
        suppress_health_check=list(HealthCheck),
    )
    @given(said=st.fixed_dictionaries({name: st.one_of(st.sampled_from(KNOWN), ODD) for name in asked_for}))
    def ask(said: dict[str, str]) -> None:
        case = SCHEMA[path][method].Case(
            path_parameters={name: said[name] or "x" for name in said if f"{{{name}}}" in path}
        )
        plain = {name: quote_from_bytes(encoded(value), safe="") for name, value in said.items()}
        address = re.sub(r"{(\w+)}", lambda one: plain.pop(one[1]) or "x", path)
        query = "&".join(f"{name}={value}" for name, value in plain.items())
        case.validate_response(program.get(f"{address}?{query}"), checks=CHECKS)

    ask()
