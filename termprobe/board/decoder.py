"""The command decoder: which codes, after which, wake which function. Built from the profile and the decoder's wiring.

A lead-in holds a flip-flop for one code, during which the plain decoding is off: a code that completes nothing is lost.
"""

from dataclasses import dataclass

from termprobe.errors import UsageError

IDLE, CODES = 0, 256


@dataclass(frozen=True)
class Line:
    """What one code does in one state of the decoder."""

    stores: bool = False
    """The code is written into the RAM at the cursor."""
    command: object = None
    """The Command that begins to be carried out, or None."""
    wanted: tuple = ()
    """What that command still takes: a slot name for each coordinate code, a number for each code that must follow."""
    next_state: int = IDLE


NOTHING, STORED = Line(), Line(stores=True)


def build(profile, wiring):
    """Return the decoder: for each state a list with the Line of each code, 0 to 255. State IDLE comes first."""
    states = [[NOTHING] * CODES]
    for code in range(profile.display.printing.first, profile.display.printing.last + 1):
        states[IDLE][code] = STORED
    for command in profile.commands:
        for coding in (command.bytes, *command.also):
            _add(states, coding, command, profile, wiring)
    return states


def _add(states, coding, command, profile, wiring):
    prefix, _ = _split(coding, command)
    state = IDLE
    for code in prefix[:-1]:
        if not states[state][code].next_state:
            states.append([NOTHING] * CODES)
            states[state][code] = Line(next_state=len(states) - 1)
        state = states[state][code].next_state
    name = str(command.name)
    done = profile.command(wiring.decoder[name]) if wiring.decoder[name] else None
    wanted = _split(done.bytes, done)[1] if done else ()
    states[state][prefix[-1]] = Line(name in wiring.also_written, done, wanted)


def _split(coding, command):
    """Return the fixed codes before the first slot, and what follows them."""
    parts = [code for part in coding for code in (part if isinstance(part, bytes) else [str(part)])]
    fixed = next((place for place, part in enumerate(parts) if isinstance(part, str)), len(parts))
    if not fixed or any(code > 0x7F for code in parts if isinstance(code, int)) or "count" in parts:
        raise UsageError(
            f"{command.name}: a simulated board needs a coding that begins with a fixed code, "
            "has seven bits a code, and no slot count"
        )
    return parts[:fixed], tuple(parts[fixed:])


def coordinate(coordinates, code):
    """Return the row or column, from 0, that `code` stands for; -1 where it stands for none."""
    if coordinates.coding == "bcd":
        tens, ones = code >> 4, code & 15
        value = 10 * tens + ones if tens < 10 and ones < 10 else -1
    else:
        value = code - (coordinates.offset if coordinates.coding == "offset" else 0)
    return value - coordinates.first


def coordinate_code(coordinates, count):
    """Return the code in which the row or column `count` is sent; it has eight bits, whatever the count."""
    number = count + coordinates.first
    if coordinates.coding == "bcd":
        return (number // 10 << 4 | number % 10) & 0xFF
    return number + (coordinates.offset if coordinates.coding == "offset" else 0) & 0xFF
