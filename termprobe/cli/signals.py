"""What ends the program from outside: each signal interrupts it as Ctrl-C does."""

import signal

NAMES = ("SIGTERM", "SIGHUP")
"""Whoever ends programs, and a console that is closed."""


def interrupt_on_signals() -> None:
    """Let them interrupt this program, but for those that its user has it ignore."""
    for number in _known(NAMES):
        if signal.getsignal(number) == signal.SIG_DFL:
            signal.signal(number, signal.default_int_handler)


def end_undisturbed() -> None:
    """Let none of them change how this program ends, which is about to; Ctrl-C ends it at once."""
    for number in _known(NAMES):
        signal.signal(number, signal.SIG_IGN)
    if signal.getsignal(signal.SIGINT) == signal.default_int_handler:
        signal.signal(signal.SIGINT, signal.SIG_DFL)


def _known(names: tuple[str, ...]) -> list[signal.Signals]:
    """Return those of the signals that this system has."""
    return [signal.Signals[name] for name in names if hasattr(signal, name)]
