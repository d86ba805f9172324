"""Writes docs/openapi.json, the description of the interface for programs, so that it can be read without a server.

Run: python -m tools.openapi
"""

import json
from pathlib import Path

from gudgeon.web.api.application import described

FILE = Path(__file__).parent.parent / "docs" / "openapi.json"


def text() -> str:
    """The whole description, as /api/openapi.json gives it."""
    return json.dumps(described(None).openapi(), ensure_ascii=False, indent=1) + "\n"


if __name__ == "__main__":
    FILE.write_text(text(), encoding="utf-8")
