"""Threads, preload and the wrench."""
