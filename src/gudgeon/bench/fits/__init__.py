"""What fits where: shells by grade, parts matched to places, rings, equal weights."""
