"""What the bench set holds besides the cards: measuring sheets, lists and counts, hold points."""
