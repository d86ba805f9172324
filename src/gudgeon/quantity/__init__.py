"""Kinds of quantity, units, and figures as a manual prints them: the only place where units are converted."""
