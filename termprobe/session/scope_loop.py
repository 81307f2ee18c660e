"""Sends bytes over and over for the scope."""

from collections.abc import Callable

from termprobe.clock import Clock
from termprobe.errors import LinkSettingsError
from termprobe.link.base import Link
from termprobe.link.pacer import Pacer
from termprobe.session.kept_line import KeptLine
from termprobe.session.react.waveform import Loop

AT_A_TIME = 32
"""About so many characters are sent between two questions whether to go on."""


def send_in_its_format(
    line: KeptLine, clock: Clock, loop: Loop, goes_on: Callable[[], bool]
) -> tuple[int, str]:
    """Send the loop over `line` in the loop's format while `goes_on()`, and leave it in that one.

    Return (how many characters that were, why the line refuses the format, or nothing).
    """
    try:
        if loop.format != line.format:
            line.switch_to(loop.format)
        return send_over_and_over(line.link, clock, loop, goes_on), ""
    except LinkSettingsError as error:
        return 0, str(error)


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
