"""Faults of the command decoder: commands dead, stored as well, taken for others."""

from collections.abc import Iterator
from functools import partial
from itertools import combinations, permutations

from termprobe.board.faults.model import Fault, make
from termprobe.board.wiring import Wiring
from termprobe.profile.model import Profile

BLOCKS = ("decoder",)


def faults(profile: Profile) -> Iterator[Fault]:
    """Yield every fault of the decoder; commands in the order of the profile."""
    commands = [str(command.name) for command in profile.commands if command.action != "ignore"]
    for command in commands:
        yield make(
            f"decoder/dead/{command}",
            f"the command {command} is not obeyed",
            partial(_decode, {command: None}),
        )
        yield make(
            f"decoder/also-written/{command}",
            f"the command {command} is obeyed, and its code stored as well",
            partial(_write_too, command),
        )
    for first, second in permutations(commands, 2):
        yield make(
            f"decoder/acts-as/{first}-{second}",
            f"the command {first} is taken for {second}",
            partial(_decode, {first: second}),
        )
    for first, second in combinations(commands, 2):
        yield make(
            f"decoder/swapped/{first}-{second}",
            f"the commands {first} and {second} are taken for each other",
            partial(_decode, {first: second, second: first}),
        )


def _decode(changed: dict[str, str | None], wiring: Wiring) -> None:
    """Let what was carried out so far be what `changed` says."""
    for name, done in wiring.decoder.items():
        if done in changed:
            wiring.decoder[name] = changed[done]


def _write_too(command: str, wiring: Wiring) -> None:
    wiring.also_written.add(command)
