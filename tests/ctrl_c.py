"""Ctrl-C in tests, also in those that were started in the background of a shell, which has it ignored."""

import signal


def heard() -> None:
    """For `preexec_fn`: the program that is started hears Ctrl-C."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)
