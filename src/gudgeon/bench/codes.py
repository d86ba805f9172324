"""Engine codes as they are stamped and as they are typed."""

from collections.abc import Iterable


def same_code(code: str, codes: Iterable[str]) -> bool:
    """Whether a code is one of those named, spaces, dashes and case aside."""

    def bare(text: str) -> str:
        return "".join(character for character in text.upper() if character.isalnum())

    return bare(code) in {bare(known) for known in codes}


def in_a_command(code: str) -> str:
    """A code as it stands in a command: in quotation marks where it has more than letters, figures and dashes.

    Example:
        >>> in_a_command("L1-B"), in_a_command("L1 B")
        ('L1-B', '"L1 B"')
    """
    if code.replace("-", "").isalnum():
        return code
    return '"' + "".join(sign for sign in code if sign not in '"`\\') + '"'
