"""Devices that may write: each is paired once with a code that is used up, and can be taken off the list again.

A device is a file of its own, so that two programs never write one file: taking it off removes the file, and the
next request of that device is a stranger's. Neither the secret of a device nor a code is kept, only their hashes.
"""

import hmac
import json
import os
import re
import secrets
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from hashlib import sha256
from pathlib import Path
from typing import Any

from gudgeon.errors import InputError

SIGNS = "23456789ABCDEFGHJKMNPQRSTUVWXYZ"
"""What a code is made of: nothing that is read as something else."""
CODE_SIGNS = 8
ADDRESS_SIGNS = 26
VALID = timedelta(minutes=10)
NAME_SIGNS = 60
_KEY = re.compile(r"[0-9a-f]{12}")
_SEEN_EVERY = timedelta(minutes=1)


class CodeRefused(InputError):
    """A pairing code that is not, or no longer, waited for."""

    def __init__(self) -> None:
        super().__init__(
            "This pairing code is not known here: it was mistyped, used before, or is older than "
            f"{VALID.seconds // 60} minutes. Nothing was paired. Ask for a new one: gudgeon devices --invite, or the "
            "page Devices of one that is paired."
        )


class NoName(InputError):
    """A device, or who writes with it, without a name."""

    def __init__(self, what: str, said: str) -> None:
        super().__init__(
            f"“{what}” takes 1 to {NAME_SIGNS} signs, not {len(said)}. Every entry of the device carries it: write a "
            "short name."
        )


class NoSuchDevice(InputError):
    """A device that is not on the list."""

    def __init__(self, said: str, known: tuple[str, ...]) -> None:
        listed = ", ".join(known) or "none is paired"
        super().__init__(
            f"No device is called `{said}`. Paired: {listed}. Name one of them, or its key in brackets."
        )


@dataclass(frozen=True, slots=True)
class Device:
    """A paired device: the name that its entries carry, whose hand holds it, and when it was last heard of."""

    key: str
    name: str
    who: str
    paired: datetime
    seen: datetime


@dataclass(frozen=True, slots=True)
class Holder:
    """A request's device, with the seal that its own forms carry: no other page can know it."""

    device: Device
    seal: str


@dataclass(frozen=True, slots=True)
class Devices:
    """The devices of this user on this machine, in a folder that only he can read."""

    folder: Path

    @property
    def _codes(self) -> Path:
        return self.folder / "codes"

    def all(self) -> tuple[Device, ...]:
        """Every paired device, the first one first."""
        return tuple(sorted((device for device, _ in self._read()), key=lambda one: (one.paired, one.key)))

    def invite(self, *, now: datetime, signs: int = CODE_SIGNS, here: bool = False, by: str = "") -> str:
        """A new code, good once; `here` for one that the browser of this machine is opened with.

        `by` is the device that asks for it: once that is off the list its code lets nobody in.
        """
        code = "".join(secrets.choice(SIGNS) for _ in range(signs))
        self._tidy(now)
        self.folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        _write(
            self._codes, f"{_hashed(code)}.json", {"until": (now + VALID).isoformat(), "here": here, "by": by}
        )
        return code

    def waits_for(self, code: str, *, now: datetime) -> tuple[bool, bool]:
        """Whether a code would be taken now, and whether it was made for the browser of this machine."""
        said = _load(self._codes / f"{_hashed(plain_code(code))}.json")
        good = said is not None and now <= datetime.fromisoformat(said["until"]) and self._stands(said)
        return good, bool(good and said and said["here"])

    def _stands(self, code: Mapping[str, Any]) -> bool:
        """Whether the device that asked for a code is still on the list; a code from the terminal needs none."""
        by = str(code.get("by", ""))
        return not by or self._one(by) is not None

    def pair(self, code: str, *, name: str, who: str, now: datetime) -> tuple[Device, str]:
        """Take a code and put a device on the list; what the device has to keep comes back once, here."""
        name, who = name.strip(), who.strip()
        for what, said in (("What is this device called?", name), ("Who writes with it?", who)):
            if not 0 < len(said) <= NAME_SIGNS or not said.isprintable():
                raise NoName(what, said)
        if not self.waits_for(code, now=now)[0]:
            raise CodeRefused
        try:
            (self._codes / f"{_hashed(plain_code(code))}.json").unlink()  # whoever removes it has it
        except FileNotFoundError:
            raise CodeRefused from None
        name = self._own_name(name)
        key, secret = secrets.token_hex(6), secrets.token_urlsafe(32)
        kept = {"name": name, "who": who, "paired": now.isoformat(), "secret": _hashed(secret)}
        _write(self.folder, f"{key}.json", kept)
        return Device(key, name, who, now, now), f"{key}.{secret}"

    def _own_name(self, name: str) -> str:
        """No two devices have one name: their entries could not be told apart."""
        taken = {one.name for one in self.all()}
        later = (f"{name} ({number})" for number in range(2, len(taken) + 3))
        return name if name not in taken else next(one for one in later if one not in taken)

    def holder(self, kept: str, *, now: datetime) -> Holder | None:
        """The device that keeps this secret; nothing for anybody else."""
        key, _, secret = kept.partition(".")
        if not _KEY.fullmatch(key):
            return None
        found = self._one(key)
        if found is None or not hmac.compare_digest(found[1].encode(), _hashed(secret).encode()):
            return None
        self._seen(found[0], now)
        return Holder(found[0], hmac.new(secret.encode(), b"form", sha256).hexdigest()[:32])

    def remove(self, said: str) -> Device:
        """Take a device off the list, by its key or a name that only one has."""
        known = self.all()
        found = [one for one in known if said in (one.key, one.name)]
        if len(found) != 1:
            raise NoSuchDevice(said, tuple(f"{one.name} [{one.key}]" for one in known))
        (self.folder / f"{found[0].key}.json").unlink(missing_ok=True)
        return found[0]

    def _read(self) -> Iterator[tuple[Device, str]]:
        try:
            names = sorted(os.listdir(self.folder))
        except FileNotFoundError:
            return
        for name in names:
            key, dot, rest = name.partition(".")
            if not _KEY.fullmatch(key) or dot + rest != ".json":
                continue
            found = self._one(key)
            if found is not None:
                yield found

    def _one(self, key: str) -> tuple[Device, str] | None:
        said = _load(self.folder / f"{key}.json")
        if said is None:
            return None
        try:
            seen, paired = (
                datetime.fromtimestamp(said["changed"], UTC),
                datetime.fromisoformat(said["paired"]),
            )
            return Device(key, str(said["name"]), str(said["who"]), paired, seen), str(said["secret"])
        except (KeyError, ValueError):  # a file that is none of ours
            return None

    def _seen(self, device: Device, now: datetime) -> None:
        """The hour of its file is when it was heard of last, to the minute."""
        if abs(now - device.seen) > _SEEN_EVERY:
            try:
                os.utime(self.folder / f"{device.key}.json")
            except OSError:  # taken off the list just now
                return

    def _tidy(self, now: datetime) -> None:
        """Codes that nobody used are thrown away."""
        for file in self._codes.glob("*.json"):
            said = _load(file)
            if said is None or now > datetime.fromisoformat(said["until"]):
                file.unlink(missing_ok=True)


def plain_code(said: str) -> str:
    """A code as it was made, however it was typed."""
    return "".join(sign for sign in said.upper() if sign.isalnum())


def spaced(code: str) -> str:
    """A code as it is read aloud and typed: in fours."""
    return " ".join(code[at : at + 4] for at in range(0, len(code), 4))


def _hashed(secret: str) -> str:
    return sha256(secret.encode()).hexdigest()


def _load(file: Path) -> dict[str, Any] | None:
    """What a file of ours says, and when it was changed; nothing where it is gone or is none of ours."""
    try:
        with file.open("rb") as opened:
            said = json.loads(opened.read(4096))
            return {**said, "changed": os.fstat(opened.fileno()).st_mtime}
    except (OSError, ValueError, TypeError):
        return None


def _write(folder: Path, name: str, said: dict[str, Any]) -> None:
    """A file that only this user can read; it is there whole, or not at all."""
    folder.mkdir(parents=True, exist_ok=True, mode=0o700)
    half = folder / f".{secrets.token_hex(6)}"
    with os.fdopen(os.open(half, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "w", encoding="utf-8") as file:
        json.dump(said, file)
    half.replace(folder / name)
