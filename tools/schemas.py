"""Writes the JSON Schemas of data sheet and kit into docs/schema, from the models themselves.

Run: python -m tools.schemas
"""

import json
from pathlib import Path

from gudgeon.kit.schema import kit_schema
from gudgeon.sheet.schema import sheet_schema

FOLDER = Path(__file__).parent.parent / "docs" / "schema"


def texts() -> dict[str, str]:
    """File name to text."""
    made = {"data-sheet.schema.json": sheet_schema(), "kit.schema.json": kit_schema()}
    return {name: json.dumps(schema, ensure_ascii=False, indent=1) + "\n" for name, schema in made.items()}


if __name__ == "__main__":
    FOLDER.mkdir(parents=True, exist_ok=True)
    for name, text in texts().items():
        (FOLDER / name).write_text(text, encoding="utf-8")
