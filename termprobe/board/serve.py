"""Serves a simulated board to any program."""

from collections.abc import Callable

from termprobe.board.base import TubePicture
from termprobe.board.endpoint import Endpoint
from termprobe.board.hand_commands import CommandedHands
from termprobe.board.link import SimLink
from termprobe.link.readiness import readable

TICK_S = 0.02
"""How often to look for a client that has come."""


def no_tick() -> None:
    """Do nothing."""


def serve(
    link: SimLink,
    end: Endpoint,
    hands: CommandedHands,
    show: Callable[[TubePicture], None],
    tick: Callable[[], None] = no_tick,
) -> None:
    """Carry bytes between `link` and `end`, and obey `hands`, for ever.

    `show` is called with the screen whenever it may have changed, `tick` at least each TICK_S.
    """
    show(link.board.screen())
    while True:
        ready = readable(end.sources() + hands.sources(), link.due_s(TICK_S))
        data = end.receive(ready)
        link.write(data)
        if hands.act(ready) or data:
            show(link.board.screen())
        for received in link.read(0):
            end.send(received.data)
        tick()
