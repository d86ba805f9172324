"""Pages that the program writes from itself are up to date, and the published schema takes real sheets."""

import pytest
from ruamel.yaml import YAML

from gudgeon.web.app import ADDRESSES
from tools import commands, openapi, pages, schemas


def test_the_page_of_commands_is_up_to_date() -> None:
    assert commands.FILE.read_text(encoding="utf-8") == commands.text(), "run: python -m tools.commands"


def test_the_page_of_addresses_is_up_to_date() -> None:
    assert pages.FILE.read_text(encoding="utf-8") == pages.text(), "run: python -m tools.pages"


def test_the_description_for_programs_is_up_to_date() -> None:
    assert openapi.FILE.read_text(encoding="utf-8") == openapi.text(), "run: python -m tools.openapi"


def test_every_address_says_what_it_answers() -> None:
    silent = [one.path for one in ADDRESSES if not pages.first_sentence(one.handler.__doc__ or "")]
    assert silent == []


@pytest.mark.parametrize("name", schemas.texts())
def test_the_published_schemas_are_up_to_date(name: str) -> None:
    assert (schemas.FOLDER / name).read_text(encoding="utf-8") == schemas.texts()[name], (
        "run: python -m tools.schemas"
    )


@pytest.mark.parametrize(("name", "file"), [("data-sheet", "sheet"), ("kit", "kit")])
def test_the_published_schema_takes_the_invented_files(name: str, file: str) -> None:
    """What the loader takes an editor must not underline: checked with a general-purpose validator."""
    import json

    from jsonschema import Draft202012Validator

    demo = schemas.FOLDER.parent.parent / "src" / "gudgeon" / "demo" / f"{file}.yaml"
    data = YAML(typ="safe", pure=True).load(demo.read_text(encoding="utf-8"))
    schema = json.loads((schemas.FOLDER / f"{name}.schema.json").read_text(encoding="utf-8"))
    wrong = [
        f"{'/'.join(map(str, one.path))}: {one.message[:200]}"
        for one in Draft202012Validator(schema).iter_errors(_dates_as_text(data))
    ]
    assert wrong == []


def _dates_as_text(value: object) -> object:
    import datetime

    if isinstance(value, dict):
        return {str(key): _dates_as_text(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [_dates_as_text(inner) for inner in value]
    return value.isoformat() if isinstance(value, datetime.date) else value
