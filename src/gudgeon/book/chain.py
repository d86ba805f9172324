"""The chain: what is hashed of an entry, and whether a row of entries holds together."""

import json
from collections.abc import Iterator, Sequence
from typing import Any

from gudgeon.book.bodies import valid_time, validated
from gudgeon.book.canonical import canonical, sha256
from gudgeon.book.entries import Draft, Entry
from gudgeon.book.errors import BodyRefused

SENT = ("id", "kind", "build", "who", "device", "device_time", "basis", "sheet", "kit")


def content_of(draft: Draft, *, number: int, prev: str, server_time: str) -> dict[str, Any]:
    """What goes into the book for a draft, its body validated."""
    version, body = validated(draft.kind, draft.body)
    if not valid_time(draft.device_time):
        raise BodyRefused(draft.kind, [f"the time `{draft.device_time}` has no offset from UTC"])
    lacking = [name for name in ("id", "build", "who", "device") if not getattr(draft, name).strip()]
    if lacking:
        raise BodyRefused(draft.kind, [f"{name} is empty" for name in lacking])
    sent = {name: getattr(draft, name) for name in SENT}
    return sent | {
        "version": version,
        "body": body,
        "number": number,
        "prev": prev,
        "server_time": server_time,
    }


def entry_of(content: str, *, digest: str) -> Entry:
    """An entry from its stored text and hash."""
    return Entry(**json.loads(content), hash=digest)


def same(entry: Entry, draft: Draft) -> bool:
    """Whether a draft is the entry that is in the book already."""
    _, body = validated(draft.kind, draft.body)
    return body == entry.body and all(
        getattr(entry, name) == getattr(draft, name) for name in SENT if name != "basis"
    )


def broken(build: str, rows: Sequence[tuple[int, str, str, str]]) -> Iterator[str]:
    """What is wrong with the chain of one build; rows are (number, id, text, hash)."""
    prev = ""
    for place, (number, entry_id, text, digest) in enumerate(rows, start=1):
        where = f"build {build}, entry {number} ({entry_id[:8]})"
        if number != place:
            yield f"{where}: entry {place} is missing"
            return
        if sha256(text) != digest:
            yield f"{where}: its content does not match its hash"
            return
        content = json.loads(text)
        if canonical(content) != text:
            yield f"{where}: its text is not in canonical form"
        if content["prev"] != prev:
            yield f"{where}: it is not chained to the entry before it"
            return
        if (content["id"], content["number"], content["build"]) != (entry_id, number, build):
            yield f"{where}: it stands in another place than it says"
        prev = digest
