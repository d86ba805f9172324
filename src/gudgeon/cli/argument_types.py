"""Numbers as arguments: read, and refused in a sentence where they cannot be."""

import argparse


def count(text: str) -> int:
    """A whole number above zero."""
    if not text.isdigit() or int(text) < 1:
        raise argparse.ArgumentTypeError(f"a whole number above zero was expected, {text!r} was found")
    return int(text)


def trials(text: str) -> int:
    """So many tightenings that their ends say something, and no more than a small machine bears."""
    if not text.isdigit() or not 200 <= int(text) <= 50_000:
        raise argparse.ArgumentTypeError(f"a whole number from 200 to 50000 was expected, {text!r} was found")
    return int(text)


def port(text: str) -> int:
    """A number that can be a port."""
    if not text.isdigit() or not 1 <= int(text) <= 65535:
        raise argparse.ArgumentTypeError(f"a port from 1 to 65535 was expected, {text!r} was found")
    return int(text)
