"""Proof-reading of a data sheet: what its printed figures contradict, without knowing the engine."""
