"""Which checks of a line cannot be tried on it at all, and what they take from whoever is there."""

from collections.abc import Collection
from typing import NamedTuple

from termprobe.link.base import ABILITIES


class Takes(NamedTuple):
    """What a check takes."""

    plug: bool = False
    """A loopback plug on the line."""
    abilities: tuple[str, ...] = ()
    """Of the line, by the words of link/base.py."""
    claimed: str = ""
    """The handshake of a profile that claims what is tried: that is not left out for the line."""
    held_key: str = ""
    """What the key sends that must be held, or pressed over and over, meanwhile."""


TAKES = {
    "plug-bytes": Takes(plug=True),
    "plug-rate": Takes(plug=True),
    "plug-delay": Takes(plug=True),
    "plug-lines": Takes(plug=True, abilities=("lines",)),
    "plug-break": Takes(plug=True, abilities=("break",)),
    "board-lines": Takes(abilities=("lines",), claimed="rts-cts"),
    "key-format": Takes(abilities=("frames",), held_key="U"),
    "board-stops-xoff": Takes(held_key="1"),
    "board-stops-cts": Takes(abilities=("lines",), claimed="rts-cts", held_key="1"),
    "board-stops-dtr": Takes(abilities=("lines",), held_key="1"),
    "both-ways": Takes(held_key="1"),
}
"""By the word of the check; what is not here takes nothing that a line may lack."""
TAKES_NOTHING = Takes()
NO_PLUG = "a simulated board has no adapter that takes a loopback plug"


def takes(check: str) -> Takes:
    """Return what the check called `check` takes."""
    return TAKES.get(check, TAKES_NOTHING)


def why_untried(
    check: str, abilities: Collection[str], handshake: str, can_plug: bool = True
) -> str:
    """Return why `check` cannot be tried on a line, in words; empty where it can.

    `abilities` are those of the line, `handshake` is what the profile claims.
    """
    wanted = takes(check)
    if wanted.plug and not can_plug:
        return NO_PLUG
    if wanted.claimed == handshake != "none":
        return ""
    lacking = [ABILITIES[one] for one in wanted.abilities if one not in abilities]
    if not lacking:
        return ""
    return f"this line cannot {lacking[0]}"
