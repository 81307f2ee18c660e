"""Signals that interrupt a full screen; afterwards they do what they did before."""

import asyncio
import contextlib
import signal
import threading
from collections.abc import Callable, Iterator

NAMES = ("SIGINT", "SIGTERM", "SIGHUP")


@contextlib.contextmanager
def interrupted_by_signals(
    loop: asyncio.AbstractEventLoop, interrupt: Callable[[], None]
) -> Iterator[None]:
    """For the time of the block have each signal call `interrupt`, where signals reach the thread.

    One that the user has the program ignore stays ignored.
    """
    before = {number: signal.getsignal(number) for number in _heard()}
    for number in before:
        loop.add_signal_handler(number, interrupt)
    try:
        yield
    finally:
        for number, handler in before.items():
            loop.remove_signal_handler(number)
            signal.signal(number, handler)


def _heard() -> list[signal.Signals]:
    """Return the signals that this system has, that reach this thread, and are not ignored."""
    if threading.current_thread() is not threading.main_thread():
        return []
    known = [signal.Signals[name] for name in NAMES if hasattr(signal, name)]
    return [number for number in known if signal.getsignal(number) != signal.SIG_IGN]
