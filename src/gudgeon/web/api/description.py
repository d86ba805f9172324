"""How the interface for programs describes itself."""

import json
from typing import Any

from gudgeon.bench.answer import RULES

ABOUT = f"""\
The bench book for programs: every question that the terminal answers, and recording into the book.

An answer has the shape that the terminal gives with `--json`: its keys are stable, its texts are for a person and in
both systems of units. Whoever writes is paired once: `gudgeon devices --invite` makes a code, `/api/pair` takes it.
Reading is open on the machine itself and closed from the network. Whatever is refused or fails answers
`{{"error": {{"kind", "message", "where"}}}}`; nothing was written then, unless the message says otherwise.

{RULES}
"""
TAGS = [
    {
        "name": "Questions",
        "description": "What the book, the sheet and the readings say. Nothing is written.",
    },
    {"name": "The book", "description": "What was done, and writing it down."},
    {"name": "Sums", "description": "The calculators by themselves. Nothing is written."},
    {"name": "Devices", "description": "Who may write."},
]
_WAYS_IN: dict[str, Any] = {
    "secret": {
        "type": "http",
        "scheme": "bearer",
        "description": "The secret of a paired program, as `/api/pair` gave it.",
    },
    "cookie": {
        "type": "apiKey",
        "in": "cookie",
        "name": "gudgeon-device",
        "description": "The cookie of a paired browser (over HTTPS __Host-gudgeon-device); to write, also its seal.",
    },
    "seal": {
        "type": "apiKey",
        "in": "header",
        "name": "Gudgeon-Seal",
        "description": "The seal that the pages of a paired browser carry in their forms.",
    },
}
_ASKED = ("Sent", "Inputs", "Asks")
"""What is sent to us, where something may be left out; an answer has all of its keys."""


def in_plain_words(made: dict[str, Any]) -> dict[str, Any]:
    """The description as the library makes it, with what it cannot know."""
    found = _short_names(made)
    found["components"]["securitySchemes"] = _WAYS_IN
    for name, schema in found["components"]["schemas"].items():
        if name not in _ASKED and "properties" in schema:
            schema["required"] = list(schema["properties"])
    for operations in found["paths"].values():
        for one in operations.values():
            one["summary"] = one["description"].partition("\n\n")[0].replace("\n", " ")
            for said in one["responses"].values():
                if said["description"] == "Successful Response":
                    said["description"] = "The answer."
    return found


def _short_names(made: dict[str, Any]) -> dict[str, Any]:
    """Two answers of one name are told apart by what they belong to, not by where they stand in the program."""
    text = json.dumps(made)
    for name in made["components"]["schemas"]:
        if "__" in name:
            words = [word for word in name.split("__")[-2:] for word in word.split("_")]
            text = text.replace(name, "".join(word[:1].upper() + word[1:] for word in words))
    found: dict[str, Any] = json.loads(text)
    return found
