"""The kit: what the person owns, and the hours he has."""
