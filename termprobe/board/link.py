"""The link to a simulated board in this process."""

import re

from termprobe.board.frame import heard
from termprobe.board.keyboard import BREAK
from termprobe.errors import LinkLostError, LinkSettingsError
from termprobe.link.base import LineFormat, Received

LISTEN_S = 0.02
"""How often a waiting read looks again: somebody else may press a key of the board meanwhile."""
STOP_OR_GO, XOFF = (
    rb"[\x11\x13\x91\x93]",
    0x13,
)  # RFC 20, section 2: DC1 and DC3; their use as a handshake is common practice


def board_format(profile, speed_baud=None):
    """Return the Format of a board of `profile`, its speed switch set to `speed_baud` where it has that position."""
    needs = profile.link
    speed_baud = speed_baud if speed_baud in needs.speeds_baud else needs.speed_baud
    return LineFormat(speed_baud, needs.data_bits, str(needs.parity), needs.stop_bits)


class SimLink:
    """A line to `board`, which has its own frame: where `format` is another one, both ends hear the bits differently.

    The board's speed switch is taken to be set to the link's speed, where it has that position. Bytes take no time of
    their own; what comes back is stamped by `clock`.
    """

    def __init__(self, board, clock, format=None, name="sim:"):  # pylint: disable=redefined-builtin
        self.board, self.name = board, name
        self.format = format or board_format(board.profile)
        self._clock = clock
        self._open = True
        self._stopped = {"xon-xoff": False, "rts-cts": False}
        self._arriving = []

    def write(self, data):
        """Hand `data` to the board; it has acted on them when this returns."""
        self._refuse_closed()
        ratio = self.board.wiring.speed_ratio
        if self._far() != self.format or ratio != 1:
            data = bytes(code for code, _ in heard(data, self.format, self._far(), 1 / ratio))
        for code in re.findall(STOP_OR_GO, data):
            self._stopped["xon-xoff"] = code[0] & 0x7F == XOFF
        self.board.receive(data)

    def read(self, wait_s):
        """Return what the board has sent since the last call; wait at most `wait_s` where it has sent nothing."""
        self._refuse_closed()
        deadline_s = self._clock.now_s() + wait_s
        arrived = self._arrived()
        while not arrived and self._clock.now_s() < deadline_s:
            due_s = [received.at_s for received in self._arriving]
            self._clock.sleep_until(min([deadline_s, self._clock.now_s() + LISTEN_S, *due_s]))
            arrived = self._arrived()
        return arrived

    def due_s(self, limit_s):
        """Return in how many seconds the next code comes that the board has sent already, at most `limit_s`."""
        due_s = min(
            (received.at_s - self._clock.now_s() for received in self._arriving), default=limit_s
        )
        return min(max(due_s, 0.0), limit_s)

    def _arrived(self):
        now_s = self._clock.now_s()
        if not self._holds():
            wiring = self.board.wiring
            for delay_s, data in self.board.take_sent():
                if data == BREAK:
                    self._arriving.append(Received(now_s + delay_s, b"\0", "break"))
                for code, error in heard(
                    data, self._far(), self.format, wiring.speed_ratio, wiring.parity
                ):
                    self._arriving.append(Received(now_s + delay_s, bytes([code]), error))
        arrived = tuple(received for received in self._arriving if received.at_s <= now_s)
        self._arriving = [received for received in self._arriving if received.at_s > now_s]
        return arrived

    def _far(self):
        return board_format(self.board.profile, self.format.speed_baud)

    def _holds(self):
        """Tell whether the board waits for this side before it sends."""
        return not self.board.wiring.handshake_ignored and self._stopped.get(
            str(self.board.profile.link.handshake), False
        )

    def drain(self, limit_s):  # pylint: disable=unused-argument
        """Return True: nothing waits."""
        self._refuse_closed()
        return True

    def lines(self):
        """Return the modem lines that the board drives: ready, and no telephone."""
        self._refuse_closed()
        return {"cts": True, "dsr": True, "dcd": True, "ri": False}

    def set_line(self, line, on):
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

    def close(self):
        """Let go of the board."""
        self._open = False

    def _refuse_closed(self):
        if not self._open:
            raise LinkLostError(
                f"{self.name}: the link must be open, but it has been closed; open it again"
            )
