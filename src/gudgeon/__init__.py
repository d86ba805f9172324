"""Gudgeon: a bench book that computes, for someone who rebuilds an engine alone."""

__version__ = "0.1.0"
