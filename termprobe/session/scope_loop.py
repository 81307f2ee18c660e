"""Sends bytes over and over for the scope."""

from collections.abc import Callable

from termprobe.clock import Clock
from termprobe.link.base import Link
from termprobe.link.pacer import Pacer
from termprobe.session.react.waveform import Loop

AT_A_TIME = 32
"""About so many characters are sent between two questions whether to go on."""


def send_over_and_over(link: Link, clock: Clock, loop: Loop, goes_on: Callable[[], bool]) -> int:
    """Send the loop while `goes_on()`; return how many characters that were."""
    pacer = Pacer(link, clock)
    data = loop.data
    if not loop.gap_s:
        data *= max(1, AT_A_TIME // len(data))
    while goes_on():
        pacer.send(data)
        if loop.gap_s:
            pacer.settle(loop.gap_s)
        link.read(0.0)
    pacer.settle(0.0)
    return pacer.statistics.characters
