"""Reference figures, each with the source it was taken from."""
