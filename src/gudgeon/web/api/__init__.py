"""The interface for programs: the same questions and the same recording as the pages, as JSON."""
