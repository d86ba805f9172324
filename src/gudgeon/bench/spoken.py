"""What the next pull is called when it is read aloud: units, angles and fractions as they are said in English."""

import re

from gudgeon.bench.pull_figure import BigFigure

UNITS = {
    "N·m": ("newton meter", "newton meters"),
    "lbf·ft": ("pound-foot", "pound-feet"),
    "lbf·in": ("pound-inch", "pound-inches"),
    "kgf·m": ("kilogram-force meter", "kilogram-force meters"),
    "kgf·cm": ("kilogram-force centimeter", "kilogram-force centimeters"),
    "°": ("degree", "degrees"),
    "mm": ("millimeter", "millimeters"),
    "µm": ("micrometer", "micrometers"),
    "in": ("inch", "inches"),
    "min": ("minute", "minutes"),
    "h": ("hour", "hours"),
    "s": ("second", "seconds"),
    "%": ("percent", "percent"),
}
FRACTIONS = {"½": "one half", "¼": "one quarter", "¾": "three quarters"}
_AFTER_WHOLE = {"½": "a half", "¼": "a quarter", "¾": "three quarters"}
_SYMBOLS = "|".join(sorted((re.escape(one) for one in UNITS), key=len, reverse=True))
_FIGURE = re.compile(rf"(?P<number>\d[\d,]*(?:\.\d+)?)(?P<gap>[  ]?)(?P<unit>{_SYMBOLS})(?![\w·])")
_WHOLE_AND_FRACTION = re.compile(r"(\d+)([½¼¾])")


def spoken(text: str) -> str:
    """A text of the bench as it is said: `25.0 N·m` is `25 newton meters`, `1½ flats` is `1 and a half flats`.

    Example:
        >>> spoken("turn by 90° ± 5°"), spoken("12½")
        ('turn by 90 degrees plus or minus 5 degrees', '12 and a half')
    """
    said = _WHOLE_AND_FRACTION.sub(lambda found: f"{found[1]} and {_AFTER_WHOLE[found[2]]}", text)
    for sign, words in FRACTIONS.items():
        said = said.replace(sign, words)
    said = re.sub(r"(\d)\s*[–-]\s*(?=\d)", r"\1 to ", said)
    said = said.replace("±", " plus or minus ").replace("×", " times ")
    said = _FIGURE.sub(_with_unit, said)
    return " ".join(said.split())


def _with_unit(found: re.Match[str]) -> str:
    number = found["number"].replace(",", "")
    number = number.rstrip("0").rstrip(".") if "." in number else number
    one, many = UNITS[found["unit"]]
    return f"{number} {one if number == '1' else many}"


def pull_speech(*, place: str, doing: str, figure: BigFigure, through: str, mark: str) -> str:
    """One pull to be read aloud: the place, the figure twice, the adapter, where the paint mark goes."""
    said = spoken(figure.text)
    parts = [place, f"{doing}: {said}" if not figure.word else spoken(doing)]
    if not figure.word:
        parts.append(f"Again: {said}")
    parts += [
        f"With {spoken(through)}" if through else "",
        f"The paint mark goes {spoken(mark)}" if mark else "",
    ]
    return " ".join(f"{one[0].upper()}{one[1:].rstrip('.')}." for one in parts if one)
