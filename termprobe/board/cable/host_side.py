"""The computer's side of a cable: an adapter, with what it can and what it does wrongly."""

from dataclasses import dataclass, field, replace

from termprobe.board.cable.end import CableEnd
from termprobe.errors import LinkSettingsError
from termprobe.link.base import ABILITIES, LineFormat, Received

HEARD = ("cts", "dsr", "dcd", "ri")
DRIVEN = ("rts", "dtr")
ERRORS = ("parity", "framing", "overrun", "break")


@dataclass(frozen=True)
class HostAdapter:
    """What an adapter makes of what it is asked for. As it stands, it is perfect."""

    rounded_baud: dict[int, int] = field(default_factory=dict)
    """Speeds that come out as another one, such as 110: 75, without a word."""
    lowest_baud: int = 1
    """What is slower is refused."""
    data_bits: tuple[int, ...] = (5, 6, 7, 8)
    """With others it sends and expects eight, without a word."""
    has_parity: bool = True
    """False: it sends and expects none, without a word."""
    speed_ratio: float = 1.0
    """How much faster than it should its clock runs."""
    abilities: frozenset[str] = frozenset(ABILITIES)
    """As in Link."""
    receive_characters: int = 4096
    """Characters kept until they are read, from 1; what comes beyond is lost, and marked once."""
    send_characters: int = 4096
    """Characters that wait to be sent at most, from 1."""

    def made_of(self, format: LineFormat) -> LineFormat:
        """Return the format that the line has; raise LinkSettingsError where it is refused."""
        if format.speed_baud < self.lowest_baud:
            raise LinkSettingsError(
                f"speed must be {self.lowest_baud} baud or more, not {format.speed_baud}; "
                "try another adapter"
            )
        speed_baud = self.rounded_baud.get(format.speed_baud, format.speed_baud)
        made = replace(format, speed_baud=speed_baud)
        if format.data_bits not in self.data_bits:
            made = replace(made, data_bits=8)
        if not self.has_parity:
            made = replace(made, parity="none")
        return made


class CabledHost:
    """An adapter on its end of a cable."""

    def __init__(self, adapter: HostAdapter, format: LineFormat) -> None:
        self.adapter = adapter
        self.end = CableEnd(adapter.made_of(format), adapter.speed_ratio)
        self.errors = dict.fromkeys(ERRORS, 0)
        self._arrived: list[Received] = []
        self._kept = 0

    @property
    def next_s(self) -> float:
        """When there is something to do."""
        return self.end.next_s

    def set_format(self, format: LineFormat) -> None:
        """Take another format; raise LinkSettingsError where it is refused."""
        self.end.set_format(self.adapter.made_of(format), self.adapter.speed_ratio)

    def advance(self, at_s: float) -> None:
        """Do what is to be done at `at_s`; to be called at each `next_s`."""
        for received in self.end.receiver.advance(at_s):
            self._keep(received)
        self.end.transmitter.advance(at_s)

    def _keep(self, received: Received) -> None:
        if received.error:
            self.errors[received.error] += 1
        if self._kept < self.adapter.receive_characters:
            self._kept += 1
            self._arrived.append(self._as_told(received))
            return
        self.errors["overrun"] += 1
        if self._arrived[-1].data:
            self._arrived.append(self._as_told(Received(received.at_s, b"", "overrun")))

    def _as_told(self, received: Received) -> Received:
        """Return what is told of it: no error where the adapter marks none."""
        if "marks" in self.adapter.abilities:
            return received
        return replace(received, error="")

    def take(self) -> tuple[Received, ...]:
        """Return what has arrived since the last call."""
        taken, self._arrived, self._kept = self._arrived, [], 0
        return tuple(received for received in taken if received.data or received.error)

    def room(self, at_s: float) -> int:
        """Return how many characters can be handed over."""
        return self.adapter.send_characters - self.end.transmitter.unsent(at_s)

    def lines(self, at_s: float) -> dict[str, bool]:
        """Return the modem lines that it hears."""
        return {circuit: self.end.is_on(at_s, circuit) for circuit in HEARD}
