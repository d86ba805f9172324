"""The book: an append-only record of entries, one hash chain per build."""
