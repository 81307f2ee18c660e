"""One end of a cable: a UART, its control lines, and the pins that they stand on."""

from termprobe.board.cable.pins import InputPin, OutputPin
from termprobe.board.cable.receiver import Receiver
from termprobe.board.cable.transmitter import Transmitter
from termprobe.board.cable.voltages import LEVELS
from termprobe.link.base import LineFormat
from termprobe.link.wirings import DRIVEN_BY, PIN_NUMBERS

SENDS_ON = {"dte": "txd", "dce": "rxd"}
HEARS_ON = {"dte": "rxd", "dce": "txd"}


class CableEnd:
    """An end of the kind `dte` or `dce`, with levels of voltages.LEVELS; its control lines are off.

    Its clock runs `speed_ratio` as fast as `format` says.
    """

    def __init__(
        self,
        format: LineFormat,
        speed_ratio: float = 1.0,
        kind: str = "dte",
        levels: str = "rs232",
        parity_fault: str = "",
    ) -> None:
        volts, driven = LEVELS[levels], DRIVEN_BY[kind]
        heard = [circuit for circuit in PIN_NUMBERS if circuit not in driven]
        self.outputs = {circuit: OutputPin(volts) for circuit in driven}
        self.inputs = {circuit: InputPin(volts) for circuit in heard}
        self.transmitter = Transmitter(
            self.outputs[SENDS_ON[kind]], format, speed_ratio, parity_fault
        )
        self.receiver = Receiver(self.inputs[HEARS_ON[kind]], format, speed_ratio)

    def set_format(self, format: LineFormat, speed_ratio: float) -> None:
        """Take another format, from the next character on."""
        self.transmitter.format, self.transmitter.speed_ratio = format, speed_ratio
        self.receiver.set_format(format, speed_ratio)

    def drive(self, at_s: float, circuit: str, on: bool) -> None:
        """Drive a control line from `at_s` on."""
        self.outputs[circuit].cut(at_s, on)

    def is_on(self, at_s: float, circuit: str) -> bool:
        """Return whether a control line that it hears is on at `at_s`."""
        return self.inputs[circuit].level_at(at_s)

    @property
    def next_s(self) -> float:
        """When there is something to do."""
        return min(self.transmitter.next_s, self.receiver.next_s)
