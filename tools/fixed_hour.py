"""`gudgeon` at an hour that never moves, so that the pictures of the README differ only when the pages do.

Run: python -m tools.fixed_hour COMMAND …
"""

import sys
from datetime import UTC, datetime

from gudgeon.bench import context

HOUR = datetime(2026, 6, 13, 14, 0, tzinfo=UTC)
"""A Saturday at two in the afternoon: the hour at which the invented job reads best."""


def stop_the_clock() -> None:
    """Let every part of the program that asks for the hour be told this one."""
    context.clock = lambda: HOUR  # before the modules that take the clock by its name are loaded


if __name__ == "__main__":
    stop_the_clock()
    from gudgeon.cli.main import main

    sys.exit(main(sys.argv[1:]))
