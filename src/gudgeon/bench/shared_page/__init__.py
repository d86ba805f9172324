"""The page to share: how an operation was done and with what evidence, personal data left out by choice."""
