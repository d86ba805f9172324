"""The closed book: everything that was asked, found, done and accepted, section by section, as it is handed over."""
