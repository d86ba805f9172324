"""What people, programs and mischief put where a figure or a name is meant."""

from hypothesis import strategies as st

FIGURES = (
    "0", "-0", "-1 mm", "1e999 mm", "1e308 mm", "-1e308 N·m", "1e-400 mm", "nan", "NaN mm", "inf N·m", "-inf", "1/2 in", "1/0 in", "3 1/2 in",
    "0x10 mm", "1_000 mm", "1,5 mm", "1.5.5 mm", "٣ mm", "² mm", "½ in", "５ mm", "1 mm 2 in", "40 N·m (30 lbf·ft)", "9" * 400 + " mm",
    "9" * 5000, "1e5000 mm", "-40 °F", "1e40 °C", "0 % of 0", "0.05..0.02 mm", "±0.01 mm", "0.02±1e400 mm", "40 N·m + 90°", "1e3", "40 furlongs",
    "-300 °C", "0 bar", "1e30 km", "10 percent", "100000 percent",
)  # fmt: skip
NAMES = (
    "", " ", ".", "..", "../../etc/passwd", "/etc/passwd", "~", "head", "HEAD", "head\n", "a b", "a,b", "a:b", "main: A1 B2", "intake: half a tooth late",
    "main: red blue red", ": :", "'\"<script>alert(1)</script>", "{{ 7*7 }}", "%s%n", "\x00", "a\x00b", "\u202eabc", "\ufeff", "e\u0301" * 40, "\U0001f527",
    "\ud800", "\udfff x", "\x1b[31m", "\r\nX: y", "a" * 300, "a" * 3000, "null", "true", "-1", "0", "1", "2", "1" * 40, "0" * 32, "f" * 64, "[]", "*", "(", "[a-", "\\",
    "2026-02-30", "2026-01-01T00:00", "9999-12-31T23:59:59+14:00", "0000-00-00",
)  # fmt: skip

ODD = st.one_of(
    st.sampled_from(FIGURES),
    st.sampled_from(NAMES),
    st.text(max_size=40),
    st.floats().map(lambda one: f"{one!r} mm"),
    st.integers().map(str),
    st.fractions().map(lambda one: f"{one} in"),
)
"""Anything at all, with half signs too: `encoded` makes bytes of them as they come over a line."""


def encoded(text: str) -> bytes:
    """A text as bytes, half signs as those that write them do it."""
    return text.encode("utf-8", "surrogatepass")
