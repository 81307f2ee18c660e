"""Signals end a full screen as Ctrl-C does, and then do what they did before."""

import asyncio
import os
import signal

import pytest

from termprobe.session.interrupts import interrupted_by_signals

NUMBERS = (signal.SIGINT, signal.SIGTERM, signal.SIGHUP)


@pytest.fixture(autouse=True)
def _kept():
    before = {number: signal.getsignal(number) for number in NUMBERS}
    yield
    for number, handler in before.items():
        signal.signal(number, handler)


def told_of(number):
    """Return how often the signal is told."""
    told = []

    async def main():
        loop = asyncio.get_running_loop()
        with interrupted_by_signals(loop, lambda: told.append(number)):
            os.kill(os.getpid(), number)
            await asyncio.sleep(0.01)

    asyncio.run(main())
    return len(told)


@pytest.mark.parametrize("number", NUMBERS)
def test_each_signal_is_told_and_is_then_as_it_was(number):
    signal.signal(number, signal.default_int_handler)
    assert told_of(number) == 1
    assert signal.getsignal(number) is signal.default_int_handler


def test_a_signal_that_is_ignored_stays_so():
    signal.signal(signal.SIGHUP, signal.SIG_IGN)
    assert told_of(signal.SIGHUP) == 0
    assert signal.getsignal(signal.SIGHUP) == signal.SIG_IGN
