"""Engine codes as they are stamped and as they are typed."""

from collections.abc import Iterable


def same_code(code: str, codes: Iterable[str]) -> bool:
    """Whether a code is one of those named, spaces, dashes and case aside."""

    def bare(text: str) -> str:
        return "".join(character for character in text.upper() if character.isalnum())

    return bare(code) in {bare(known) for known in codes}
