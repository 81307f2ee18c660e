"""The link to a simulated board in this process."""

import re

from termprobe.board.base import BREAK, SimulatedBoard
from termprobe.clock import Clock
from termprobe.errors import LinkLostError, LinkSettingsError
from termprobe.link.base import LineFormat, Received
from termprobe.link.frame import heard
from termprobe.link.settings import refuse_impossible
from termprobe.profile.model import Profile

LISTEN_S = 0.02
"""How often a waiting read looks again: somebody may press a key of the board meanwhile."""
# RFC 20, section 2: DC1 and DC3; their use as a handshake is common practice.
STOP_OR_GO = re.compile(rb"[\x11\x13\x91\x93]")
XOFF = 0x13


def board_format(profile: Profile, speed_baud: int | None = None) -> LineFormat:
    """Return the format of a board of `profile`.

    Its speed switch is set to `speed_baud` where it has that position, else as usual.
    """
    needs = profile.link
    if speed_baud is None or speed_baud not in needs.speeds_baud:
        speed_baud = needs.speed_baud
    return LineFormat(speed_baud, needs.data_bits, str(needs.parity), needs.stop_bits)


class SimLink:
    """A Link to `board`, which has a frame of its own.

    Where `format` is another one, both ends hear the bits differently. The board's speed switch is
    taken to be set to the link's speed, where it has that position. Bytes take no time of their
    own; what comes back is stamped by `clock`.
    """

    note = ""
    abilities = frozenset({"frames", "lines", "break", "marks", "unsent"})

    def __init__(
        self,
        board: SimulatedBoard,
        clock: Clock,
        format: LineFormat | None = None,
        name: str = "sim:",
    ) -> None:
        self.board, self.name = board, name
        self.format = format or board_format(board.profile)
        self._far = board_format(board.profile, self.format.speed_baud)
        self._is_alike = self._far == self.format
        self._clock = clock
        self._is_open = True
        self._stopped = {"xon-xoff": False, "rts-cts": False}
        self._arriving: list[Received] = []

    def write(self, data: bytes) -> None:
        """Hand `data` to the board; it has acted on them when this returns."""
        self._refuse_closed()
        ratio = self.board.wiring.speed_ratio
        if ratio != 1 or not self._is_alike:
            data = bytes(one.code for one in heard(data, self.format, self._far, 1 / ratio))
        for code in STOP_OR_GO.findall(data):
            self._stopped["xon-xoff"] = code[0] & 0x7F == XOFF
        self.board.receive(data)

    def read(self, wait_s: float) -> tuple[Received, ...]:
        self._refuse_closed()
        deadline_s = self._clock.now_s() + wait_s
        arrived = self._arrived()
        while not arrived and self._clock.now_s() < deadline_s:
            due_s = [received.at_s for received in self._arriving]
            self._clock.sleep_until(min([deadline_s, self._clock.now_s() + LISTEN_S, *due_s]))
            arrived = self._arrived()
        return arrived

    def due_s(self, limit_s: float) -> float:
        """Return in how many seconds the next code comes that the board has sent already.

        It is at most `limit_s`.
        """
        now_s = self._clock.now_s()
        waits_s = [max(received.at_s - now_s, 0.0) for received in self._arriving]
        return min([limit_s, *waits_s])

    def _arrived(self) -> tuple[Received, ...]:
        now_s = self._clock.now_s()
        if not self._holds():
            self._take_sent(now_s)
        arrived = tuple(received for received in self._arriving if received.at_s <= now_s)
        self._arriving = [received for received in self._arriving if received.at_s > now_s]
        return arrived

    def _take_sent(self, now_s: float) -> None:
        wiring, far = self.board.wiring, self._far
        for delay_s, data in self.board.take_sent():
            if data == BREAK:
                self._arriving.append(Received(now_s + delay_s, b"\0", "break"))
            for code, error in heard(data, far, self.format, wiring.speed_ratio, wiring.parity):
                self._arriving.append(Received(now_s + delay_s, bytes([code]), error))

    def _holds(self) -> bool:
        """Tell whether the board waits for this side before it sends."""
        is_stopped = self._stopped.get(str(self.board.profile.link.handshake), False)
        return is_stopped and not self.board.wiring.handshake_ignored

    def set_format(self, format: LineFormat) -> None:
        """Take another format; the board's speed switch stays."""
        self._refuse_closed()
        refuse_impossible(self.name, format)
        self.format = format
        self._is_alike = self._far == format

    def unsent(self) -> int:
        """Return 0: the board has taken all."""
        self._refuse_closed()
        return 0

    def break_s(self) -> None:
        """Return None: a break takes no time here."""
        self._refuse_closed()

    def counters(self) -> dict[str, int]:
        """Return nothing: the line counts nothing."""
        self._refuse_closed()
        return {}

    def drain(self, limit_s: float) -> bool:
        """Return True: nothing waits."""
        self._refuse_closed()
        return True

    def lines(self) -> dict[str, bool] | None:
        """Return the modem lines that the board drives: ready, and no telephone."""
        self._refuse_closed()
        return {"cts": True, "dsr": True, "dcd": True, "ri": False}

    def set_line(self, line: str, on: bool) -> None:
        """Drive `rts`, `dtr` or `break`; a break reaches the board as one code 0."""
        self._refuse_closed()
        if line not in ("rts", "dtr", "break"):
            raise LinkSettingsError(
                f'{self.name}: the line to drive must be rts, dtr or break, not "{line}"'
            )
        if line == "rts":
            self._stopped["rts-cts"] = not on
        if line == "break" and on:
            self.board.receive(b"\0")

    def close(self) -> None:
        """Let go of the board."""
        self._is_open = False

    def _refuse_closed(self) -> None:
        if not self._is_open:
            raise LinkLostError(
                f"{self.name}: the link must be open, but it has been closed; open it again"
            )
