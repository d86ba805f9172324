"""What stands on every printed page, and texts made fit for paper."""

import re
import unicodedata
from collections.abc import Mapping
from datetime import datetime
from typing import Any

from gudgeon.bench.answer import RULES, Heading
from gudgeon.bench.sheet_figures import SECTIONS

HEAD_DIGITS = 12
"""So many digits of the head of the chain match a print to its book; two books never share them by chance."""

SHORT = 40
"""So many letters of one name stand in head and foot of a page; the whole of it stands on top of the first page."""
LINE = 104
"""So many letters fit the line of the foot, of all its names together."""

NAME_BYTES = 80
"""So much of a build stands in the name of a file; common file systems take 255 bytes for all of it."""

_MONTHS = ("January", "February", "March", "April", "May", "June",
           "July", "August", "September", "October", "November", "December")  # fmt: skip
_COMMAND = re.compile(r"\s*\(gudgeon [^()]*\)")
_TYPED = re.compile(r"(?: When it is back)?: gudgeon [^…)]*(?:…|(?=\))|$)")
_IN_THE_SHEET = re.compile(
    rf"(?<=\()(?:{'|'.join(dict(SECTIONS))})(?:\.[a-z_.]+|(?:: [a-z_]+)+)(?:, line \d+ of the data sheet)?(?:, |(?=\)))"
)
_BELOW_NOTHING = re.compile(
    r"(?<![\w.,)–-])-(?=[\d.]+(?:(?: to |–)-?[\d.]+)? ?(?:mm|in\b|µm|µin|°|cm³|in³|N·m|lbf|%))"
)
"""The sign of a figure below nothing: a hyphen is easily overlooked on paper."""
_TO_GO = re.compile(r", (?:\d+ h )?\d+ min to go\b| \((?:\d+ h )?\d+ min to go\)")
"""How long something still takes: wrong as soon as it is printed, while the hour when it is over stays right."""
_BLANKS = re.compile(r"[^\S\u00a0]+")
"""White space of any kind; but not the one at which no line is broken."""
_EMPTY = re.compile(r" \(\)")
_SECTION = rf"(?:{'|'.join(dict(SECTIONS))})"
_PLACE = re.compile(rf"(?<=\(){_SECTION}\.[a-z_.]+(?:, line \d+ of the data sheet)?(?:, |(?=\)))")
_DOTTED = re.compile(rf"\b{_SECTION}\.([a-z_]+(?:\.[a-z_]+)*)")
_KEY = re.compile(r"`([a-z][a-z0-9_.]*)`")


def page_words(heading: Heading, *, about: str) -> dict[str, Any]:
    """The words in head and foot of a print: engine, build, job, what it is about, hour, head, notice, rule."""
    return {
        "engine": heading.engine,
        "build": heading.build,
        "job": heading.job,
        "about": about,
        "in_short": _in_a_line(heading.engine, heading.build, f"job: {heading.job}", about),
        "running": _in_a_line(heading.engine, about),
        "notice": heading.notice,
        "as_of": moment_words(dated(heading)),
        "head": heading.head[:HEAD_DIGITS] or "empty book",
        "remarks": [plain(one) for one in heading.remarks],
        "rules": RULES,
    }


def _in_a_line(*names: str) -> str:
    """Names side by side, the longest shortened until the line holds them all."""
    room = SHORT
    while sum(min(len(name), room) + 3 for name in names) > LINE:
        room -= 1
    return " · ".join(name if len(name) <= room else name[: room - 1].rstrip() + "…" for name in names)


def in_file_name(build: str) -> str:
    """As much of the name of a build as every file system takes with what is printed behind it: whole letters of it."""
    return build.encode()[:NAME_BYTES].decode(errors="ignore")


def dated(heading: Heading) -> str:
    """The hour that dates a print: that of the last entry, and in a book without one the hour of the question."""
    return heading.written or heading.asked


def moment_words(asked: str) -> str:
    """`November 25, 2026, 07:29 (UTC+00:00)`: an hour that is read the same everywhere."""
    moment = datetime.fromisoformat(asked)
    offset = moment.strftime("%z") or "+0000"
    day = f"{_MONTHS[moment.month - 1]} {moment.day}, {moment.year}"
    return f"{day}, {moment:%H:%M} (UTC{offset[:3]}:{offset[3:5]})"


def for_paper(value: Any) -> Any:
    """Data whose texts can be printed: a line each, nothing that counts down, no marks that control a device."""
    if isinstance(value, str):
        return _printable(value)
    if isinstance(value, Mapping):
        return {key: for_paper(inner) for key, inner in value.items()}
    if isinstance(value, list | tuple):
        return [for_paper(inner) for inner in value]
    return value


def _printable(text: str) -> str:
    line = _BELOW_NOTHING.sub("−", _TO_GO.sub("", _BLANKS.sub(" ", text).strip()))
    return "".join("·" if unicodedata.category(mark) in ("Cc", "Cf", "Cs") else mark for mark in line)


def without_commands(text: str) -> str:
    """Paper is read away from a terminal: what would be typed there is left out."""
    return _COMMAND.sub("", text)


def plain(text: str) -> str:
    """A text without what would be typed, and without places in the file of the sheet: `(head: datum)`."""
    return _EMPTY.sub("", _IN_THE_SHEET.sub("", _TYPED.sub("", without_commands(text)))).strip()


def without_keys(text: str) -> str:
    """A text in which a key of the sheet is said in words.

    Example:
        >>> without_keys("`valve_gear.intake.shim` in the sheet")
        'valve gear, intake, shim in the sheet'
    """
    return _KEY.sub(lambda key: key[1].replace(".", ", ").replace("_", " "), text)


def without_places(text: str) -> str:
    """A text without places in the file of the sheet; words of a person, in brackets or not, stay whole.

    Example:
        >>> without_places("piston height (cylinder.piston_height, line 16 of the data sheet, not stated)")
        'piston height (not stated)'
        >>> without_places("no limit is stated: valve_gear.intake.least_piston_margin")
        'no limit is stated: intake least piston margin'
    """
    told = _EMPTY.sub("", _PLACE.sub("", text))
    return _DOTTED.sub(lambda place: place[1].replace(".", " ").replace("_", " "), told)
