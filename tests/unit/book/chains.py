"""Chains of entries made in memory, so that a test says only what its entries state.

Nothing is refused here that a body allows: the fold must bear what no recorder would write.
"""

import hashlib
import json
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from typing import Any

from gudgeon.book.bodies import validated
from gudgeon.book.entries import Entry
from gudgeon.book.fold import fold
from gudgeon.book.state import State

START = datetime(2026, 3, 7, 10, 0, tzinfo=UTC)


@dataclass
class Chain:
    """One build; each entry is recorded a minute after the one before, by someone who has seen it."""

    entries: list[Entry] = field(default_factory=list)

    @property
    def head(self) -> str:
        return self.entries[-1].hash if self.entries else ""

    @property
    def state(self) -> State:
        return fold(self.entries)

    def add(self, kind: str, *, basis: str | None = None, who: str = "Ada", **body: Any) -> Entry:
        """Record something; the sender had seen the head, unless another basis is given."""
        version, checked = validated(kind, body)
        number = len(self.entries) + 1
        at = (START + timedelta(minutes=number)).isoformat()
        content: dict[str, Any] = {
            "id": f"{number:032x}", "number": number, "kind": kind, "version": version, "body": checked,
            "build": "van", "who": who, "device": "bench", "device_time": at, "server_time": at,
            "basis": self.head if basis is None else basis, "sheet": "", "kit": "", "prev": self.head,
        }  # fmt: skip
        digest = hashlib.sha256(json.dumps(content, sort_keys=True).encode()).hexdigest()
        self.entries.append(Entry(**content, hash=digest))
        return self.entries[-1]

    def pull(self, stage: int, bolt: str = "1", outcome: str = "clicked while turning", **more: Any) -> Entry:
        """A pull on the head joint."""
        fields: dict[str, Any] = {
            "joint": "head",
            "stage": stage,
            "round": 1,
            "bolt": bolt,
            "outcome": outcome,
        } | more
        return self.add("pull", **fields)

    def prove(self, hold: str, *rests_on: str, **more: Any) -> Entry:
        """A hold proved with a value."""
        return self.add("hold-proved", hold=hold, value="2 turns by hand", rests_on=list(rests_on), **more)

    def strike(self, entry: Entry, why: str = "wrong bolt") -> Entry:
        """Strike an entry."""
        return self.add("strike", entry=entry.id, why=why)

    def disturb(self, joint: str = "head", why: str = "gasket slipped", **more: Any) -> Entry:
        """A joint slackened."""
        return self.add("joint-disturbed", joint=joint, why=why, **more)


def begun() -> Chain:
    """A build with its first entry."""
    chain = Chain()
    chain.add("build-opened", name="van", engine="invented", sheet_path="sheet.yaml", kit_path="kit.yaml")
    return chain


def reasons(state: State) -> dict[str, str]:
    """What is in doubt, by entry."""
    return dict(state.doubtful)
