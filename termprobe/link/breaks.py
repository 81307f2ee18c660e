"""A break of a given length: the line at space for longer than a character."""

from termprobe.clock import Clock
from termprobe.errors import LinkSettingsError
from termprobe.link.base import Link

DRAIN_LIMIT_S = 5.0


def send_break(link: Link, clock: Clock, length_s: float) -> bool:
    """Send a break of `length_s`, once all that was written has left; return whether that has.

    Raise LinkSettingsError where the link cannot, or the break would be no longer than a character.
    """
    if length_s <= link.format.character_s:
        raise LinkSettingsError(
            f"{link.name}: a break must be longer than a character "
            f"({link.format.character_s * 1000:.1f} ms), not {length_s * 1000:.1f} ms"
        )
    has_left = link.drain(DRAIN_LIMIT_S)
    link.set_line("break", True)
    try:
        clock.sleep_until(clock.now_s() + length_s)
    finally:
        link.set_line("break", False)
    return has_left
