"""How people write prices, dates, hours and large numbers: what of it has to be found in a text of theirs.

Common practice, no source. An engine's own figures stand in the same texts and are none of these: a torque, a size, a
ratio, an order of cylinders. Where a text can be read either way, it is taken for what stays out.
"""

import re

_SUM = r"\d+(?:[.,'’]\d+|\s\d{3}(?!\d)){0,5}(?:[.,:][-–—]+)?"
"""`350`, `1,200.50`, `1 200` with any blank, `40.-`; no mark that ends a sentence."""
_SUMS = rf"{_SUM}(?:(?:[-–—]|\sto\s){_SUM})?"
_CURRENCY = (
    r"(?:(?:(?<!\w)(?:US|CA|AU|NZ|C|A))?[$€£¥₣₹]|(?<![^\W\d_])(?:"
    "EUR|USD|GBP|CHF|CAD|AUD|NZD|SEK|NOK|DKK|ISK|PLN|CZK|HUF|RON|JPY|CNY|INR|BRL|MXN|ZAR|KRW|"
    r"euros?|cents?|dollars?|bucks|quid|francs?|yen|kron[eo]r|s?fr|kr|zł|kč)(?![^\W\d_])\.?)"
)
PRICE = re.compile(
    rf"(?:(?<!\w)|(?<=\d[x×]))(?<!\d[.,:]){_SUMS}(?:\s?k)?\s?{_CURRENCY}(?:\s?{_SUMS})?"
    rf"|{_CURRENCY}[\s:=]{{0,3}}{_SUMS}"
    r"|(?<=\S\s)\d[\d.,'’]+[.,:][-–—]+(?=[\s.,;:!?)]|$)",
    re.IGNORECASE,
)
"""A currency with a sum at either side of it; and `40.-` alone, but where it may number a line."""

_DAY, _YEAR = "(?:0?[1-9]|[12][0-9]|3[01])", r"(?:19|20)\d\d"
_DAYTH = rf"{_DAY}(?:st|nd|rd|th)?"
_MONTHS = (
    "Jan(?:uary)?|Feb(?:ruary)?|Apr(?:il)?|June?|July?|Aug(?:ust)?|Sept?(?:ember)?|Oct(?:ober)?|Nov(?:ember)?"
    "|Dec(?:ember)?"
)
_MONTH = rf"\b(?:{_MONTHS}|(?-i:M(?:ar(?:ch)?|ay|AR(?:CH)?|AY)))\b\.?"
"""May and March only with a capital where no year follows: a bolt may be loose, a mar may be deep."""
_THEN_YEAR = rf"[\s.,/-]{{1,2}}{_YEAR}(?!\d)"
_WITH_YEAR = rf"\b(?:{_MONTHS}|Mar(?:ch)?|May)\b\.?"
_WEEKDAY = r"(?:\b(?:Mon|Tues?|Wed(?:nes)?|Thu(?:rs?)?|Fri|Sat(?:ur)?|Sun)(?:day)?[.,]{0,2}\s)?"
_NO_SIZE = r"(?!\d|[.:]\d|\s?(?:mm|µm|N·?m)\b)"
DATE = re.compile(
    rf"(?<!\d){_YEAR}([-/.])\d{{1,2}}\1\d{{1,2}}(?!\d)"
    r"|\b\d{1,2}([/.])\s?\d{1,2}\2\s?(?:\d{4}|\d{2})\b"
    rf"|\b\d{{1,2}}-\d{{1,2}}-{_YEAR}\b"
    rf"|{_WEEKDAY}(?:"
    rf"(?<![\w.,]){_DAYTH}[\s./-]{{0,2}}(?:of\s)?{_WITH_YEAR}{_THEN_YEAR}"
    rf"|(?<![\w.,]){_DAYTH}[\s-](?:of\s)?{_MONTH}"
    rf"|{_WITH_YEAR}(?:[\s.-]{{1,2}}{_DAYTH})?{_THEN_YEAR}"
    rf"|{_MONTH}[\s.-]{{1,2}}{_DAYTH}{_NO_SIZE})",
    re.IGNORECASE,
)
"""Days in figures, and with the name of a month in both orders; the weekday and the year may stand with it."""

_HOURS, _MINUTES = "(?:[01]?[0-9]|2[0-4])", "[0-5][0-9]"
HOUR = re.compile(
    rf"(?:(?<![\w:])|(?<=\dT)){_HOURS}:{_MINUTES}(?::{_MINUTES}(?:[.,]\d+)?)?(?!\d)(?:\s?[ap]\.?m\b\.?|Z\b|[+-]\d\d:\d\d)?"
    rf"|(?<![\w:])(?<!\d[.,]){_HOURS}(?:h{_MINUTES}(?!\d|\s?min)|(?:[.:]{_MINUTES})?\s?(?:[ap]\.?m\b\.?|Uhr\b))",
    re.IGNORECASE,
)
"""`15:37`, `3:37 pm`, `3 p.m.`, `14h30`; not `14 h`, which is how long something took."""


def as_grouped(number: str) -> re.Pattern[str]:
    """A large number as people write it: its thousands parted by a comma, a point, an apostrophe or any blank, or not.

    One below a thousand is only found with its unit: alone it may be any figure of the engine.

    Example:
        >>> [bool(as_grouped("84120").fullmatch(one)) for one in ("84120", "84,120 km", "84 120", "184,120")]
        [True, True, True, False]
    """
    whole = number.partition(".")[0]
    first = len(whole) % 3 or 3
    groups = "".join(rf"[\s.,'’]?{whole[at : at + 3]}" for at in range(first, len(whole), 3))
    unit = r"(?:\s?(?:km|mi|miles?)\b)"
    return re.compile(
        rf"(?<!\d)(?<!\d[.,]){whole[:first]}{groups}(?:[.,]\d+)?(?!\d|[.,]\d|\s?mm\b){unit}{'?' if groups else ''}",
        re.IGNORECASE,
    )
