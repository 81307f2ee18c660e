"""What to probe for a fault: the signal with chip and pin, what to expect, where to look first."""

from collections.abc import Callable, Sequence
from typing import NamedTuple

from termprobe.board.wiring import BUSES, Bus
from termprobe.diagnosis.fault_names import FaultName, parsed
from termprobe.diagnosis.key_conclusion import Suspect
from termprobe.profile.model import Profile

PROBED = 2
"""For so many faults of the first suspect it is told what to probe."""
MOST_ALIKE = 4
"""Where more faults look alike, it is too early to probe for one of them."""
LEVEL_WORDS = {"0": "low", "1": "high"}
JOINTS = (
    "the solder joints, sockets and tracks of these pins: builders find more bad joints than dead "
    "chips"
)
BRIDGES = (
    "solder splashes and whiskers between these pins and tracks: two lines rarely touch inside a "
    "chip"
)
LAYOUT = "the layout and the wires of these lines: no chip exchanges two of its pins"
GATE = "the gate and the joints that carry out this one function: the rest of its block works"
RAM_CHIP = (
    "the RAM chip of this bit, not at its lines, which all other cells of the bank use: let it "
    "change places with one of its type; if the fault moves along, it is the chip"
)
OUTPUT = (
    "the joints of that output, then the gate or register behind it: what lies before it is right, "
    "for the characters are"
)
GENERATOR = (
    "the character generator, not at its lines, which all other drawings use: read it out and "
    "compare, or try another of its contents"
)
CLOCK = "the straps of the divider, then the crystal: a wrong strap is commoner than a bad divider"


class Probing(NamedTuple):
    """What to do about one suspect."""

    signal: str
    """With chip and pin where the profile has them; empty where no line is to be probed."""
    expect: str
    look_first_at: str
    """And the reason."""
    step: str | None = None
    """Id of the look that keeps the lines busy."""
    meanwhile: str = ""
    """What keeps them busy where no look is known, in words."""


def probe_of(name: str, profile: Profile) -> Probing | None:
    """Return what to probe for the fault `name`; None for causes outside the display and line."""
    parts = parsed(name)
    if parts.where in _OF_BLOCK:
        return _OF_BLOCK[parts.where](parts, profile)
    if parts.where in BUSES:
        return _of_bus(BUSES[parts.where], parts, profile)
    return None


def named_for_probing(suspects: Sequence[Suspect]) -> tuple[str, ...]:
    """Return the faults of the first suspect that are worth probing for."""
    if not suspects or len(suspects[0].faults) > MOST_ALIKE:
        return ()
    return suspects[0].faults[:PROBED]


def _of_bus(bus: Bus, parts: FaultName, profile: Profile) -> Probing:
    lines = [int(line) for line in parts.lines.split("-")]
    signal = f"{bus.carries} {_lines(lines, _labels(bus, profile))} of {bus.block}"
    match parts.kind:
        case "missing":
            expect = "it must go high where a dot is lit; dead, it stays low"
            return Probing(signal, expect, JOINTS)
        case "stuck":
            level = LEVEL_WORDS[parts.value]
            expect = f"it must go both high and low meanwhile; stuck, it stays {level}"
            return Probing(signal, expect, JOINTS)
        case "bridged":
            expect = "they must differ at times; touching, they are alike at every moment"
            return Probing(signal, expect, BRIDGES)
        case "swapped":
            expect = "follow each from chip to chip: each must arrive at the pin of its own number"
            return Probing(signal, expect, LAYOUT)
    expect = "it must change as the counter passes it; with the carry lost, it keeps its level"
    return Probing(signal, expect, JOINTS)


def _labels(bus: Bus, profile: Profile) -> Sequence[str]:
    if profile.circuit is None:
        return ()
    labels = {str(where): lines for where, lines in profile.circuit.labels.items()}
    return labels.get(bus.where, ())


def _lines(lines: Sequence[int], labels: Sequence[str]) -> str:
    words = [_with_label(line, labels) for line in lines]
    return f"line{'s' * (len(words) > 1)} {' and '.join(words)}"


def _with_label(line: int, labels: Sequence[str]) -> str:
    return f"{line} ({labels[line]})" if line < len(labels) else str(line)


def _of_decoder(parts: FaultName, profile: Profile) -> Probing:
    commands = " and ".join(commands_of(parts.lines, profile))
    return Probing(
        f"the decoder's outputs for {commands}",
        "the output of a command must pulse once each time that it is sent, and no other with it",
        GATE,
    )


def commands_of(joined: str, profile: Profile) -> list[str]:
    """Return the commands that a hyphen joins; their names may hold hyphens themselves."""
    names = {str(command.name) for command in profile.commands}
    for index, character in enumerate(joined):
        pair = [joined[:index], joined[index + 1 :]]
        if character == "-" and names.issuperset(pair):
            return pair
    return [joined]


def _of_function(parts: FaultName, profile: Profile) -> Probing:
    return Probing(
        f"the control lines of the circuit for {parts.where}",
        "each must pulse when the function is called for",
        GATE,
    )


def _of_cell(parts: FaultName, profile: Profile) -> Probing:
    return Probing("", "", RAM_CHIP)


def _of_output(parts: FaultName, profile: Profile) -> Probing:
    label = _output_label(parts.where, profile)
    return Probing(
        f"the output of {_OUTPUTS[parts.where]}{label}",
        "it must carry the dots of each scan line; compare it with what goes in",
        OUTPUT,
    )


def _output_label(where: str, profile: Profile) -> str:
    circuit = profile.circuit
    if circuit is None:
        return ""
    labels = {str(bus): lines for bus, lines in circuit.labels.items()}
    return "".join(f" ({label})" for label in labels.get(where, ()))


_OUTPUTS = {
    "shift-register": "the shift register",
    "dots": "the gate that lets scan lines through",
    "blanking": "the gate that blanks the beam",
    "cursor": "the gate that mixes the cursor in",
}


def _of_drawing(parts: FaultName, profile: Profile) -> Probing:
    return Probing("", "", GENERATOR)


def _of_clock(parts: FaultName, profile: Profile) -> Probing:
    expect = "it must run at sixteen times the speed that is set"
    return Probing("the clock input of the UART", expect, CLOCK)


_OF_BLOCK: dict[str, Callable[[FaultName, Profile], Probing]] = {
    "decoder": _of_decoder,
    "margin": _of_function,
    "scroll": _of_function,
    "clear": _of_function,
    "home": _of_function,
    "address": _of_function,
    "cell": _of_cell,
    "glyph-cell": _of_drawing,
    **dict.fromkeys(_OUTPUTS, _of_output),
    "baud": _of_clock,
}
