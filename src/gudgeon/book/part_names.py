"""Whether a part that somebody names is the one that is meant by a word: `Cylinder head` is the `head`."""


def words_for(said: str) -> frozenset[str]:
    """Every word by which a part may be meant that is named so; a `crankshaft` is a `crank`."""
    words = said.lower().replace("_", " ").split()
    return frozenset((*words, *(word.removesuffix("s").removesuffix("shaft") for word in words))) - {""}


def is_part(word: str, *, said: str) -> bool:
    """Whether a part that is named so is the one that is meant by a word."""
    return word in words_for(said)
