"""The cylinder, and what machining does to it."""
