"""Remarks on answers that are possible and unusual."""

USUAL_RATIO = (5.0, 25.0)


def unusual_ratio(ratio: float) -> tuple[str, ...]:
    """A flag for a compression ratio that no usual engine has (common practice)."""
    low, high = USUAL_RATIO
    if low <= ratio <= high:
        return ()
    usual = f"the usual {low:g} to {high:g} (common practice)"
    return (f"A ratio of {ratio:.3g} is outside {usual}: check the volumes.",)
