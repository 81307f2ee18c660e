"""The command decoder: which codes, after which, wake which function.

It is built from the profile and the decoder's wiring. A lead-in holds a flip-flop for one code,
during which the plain decoding is off: a code that completes nothing is lost.
"""

from dataclasses import dataclass

from termprobe.board.wiring import Wiring
from termprobe.errors import UsageError
from termprobe.profile.model import Command, Coordinates, Profile

IDLE, CODES = 0, 256
CodingPart = int | str
"""A code that must come, or the name of the slot that any code fills."""


@dataclass(frozen=True)
class Effect:
    """What one code does in one state of the decoder."""

    stores: bool = False
    """The code is written into the RAM at the cursor."""
    command: Command | None = None
    """The command that begins to be carried out."""
    wanted: tuple[CodingPart, ...] = ()
    """What that command still takes."""
    next_state: int = IDLE


NOTHING, STORED = Effect(), Effect(stores=True)
States = list[list[Effect]]
"""For each state the Effect of each code, 0 to 255. State IDLE comes first."""


def build(profile: Profile, wiring: Wiring) -> States:
    """Return the decoder of a board; raise UsageError where it cannot have a coding."""
    states = [[NOTHING] * CODES]
    for code in range(profile.display.printing.first, profile.display.printing.last + 1):
        states[IDLE][code] = STORED
    for command in profile.commands:
        effect = _effect(command, profile, wiring)
        for coding in (command.bytes, *command.also):
            _add(states, _split(coding, command)[0], effect)
    return states


def _effect(command: Command, profile: Profile, wiring: Wiring) -> Effect:
    """Return what becomes of the last fixed code of `command`."""
    name = str(command.name)
    stores, done = name in wiring.also_written, _command(profile, wiring.decoder[name])
    if done is None:
        return Effect(stores)
    return Effect(stores, done, _split(done.bytes, done)[1])


def _command(profile: Profile, name: str | None) -> Command | None:
    return None if name is None else profile.command(name)


def _add(states: States, codes: list[int], effect: Effect) -> None:
    """Let the last of `codes` have `effect`, after the others."""
    state = IDLE
    for code in codes[:-1]:
        if not states[state][code].next_state:
            states.append([NOTHING] * CODES)
            states[state][code] = Effect(next_state=len(states) - 1)
        state = states[state][code].next_state
    states[state][codes[-1]] = effect


def _split(
    coding: tuple[bytes | str, ...], command: Command
) -> tuple[list[int], tuple[CodingPart, ...]]:
    """Return the fixed codes before the first slot, and what follows them."""
    parts: list[CodingPart] = []
    for part in coding:
        if isinstance(part, bytes):
            parts += part
        else:
            parts.append(str(part))
    codes = _leading_codes(parts)
    if (
        not codes
        or any(isinstance(part, int) and part > 0x7F for part in parts)
        or "count" in parts
    ):
        raise UsageError(
            f"{command.name}: a simulated board needs a coding that begins with a fixed code, "
            "has seven bits a code, and no slot count"
        )
    return codes, tuple(parts[len(codes) :])


def _leading_codes(parts: list[CodingPart]) -> list[int]:
    codes: list[int] = []
    for part in parts:
        if isinstance(part, str):
            break
        codes.append(part)
    return codes


def coordinate(coordinates: Coordinates, code: int) -> int:
    """Return the row or column, from 0, that `code` stands for; negative where it is none."""
    if coordinates.coding == "bcd":
        tens, ones = code >> 4, code & 15
        if tens > 9 or ones > 9:
            return -1 - coordinates.first
        return 10 * tens + ones - coordinates.first
    return code - _offset(coordinates) - coordinates.first


def coordinate_code(coordinates: Coordinates, count: int) -> int:
    """Return the code in which the row or column `count` is sent: eight bits, whatever it is."""
    number = count + coordinates.first
    if coordinates.coding == "bcd":
        return (number // 10 << 4 | number % 10) & 0xFF
    return (number + _offset(coordinates)) & 0xFF


def _offset(coordinates: Coordinates) -> int:
    return coordinates.offset if coordinates.coding == "offset" else 0
