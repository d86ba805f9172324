"""The published JSON Schema of a data sheet."""

from typing import Any

from gudgeon.sheet.model import DataSheet


def sheet_schema() -> dict[str, Any]:
    """JSON Schema (2020-12) that editors use to complete and check a sheet."""
    schema = DataSheet.model_json_schema(mode="validation")
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", "title": "Gudgeon data sheet"} | schema
