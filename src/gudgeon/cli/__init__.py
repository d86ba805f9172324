"""The terminal: arguments to entries, answers to readable tables or JSON."""
