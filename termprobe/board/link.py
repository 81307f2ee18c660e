"""The link to a simulated board in this process."""

from termprobe.errors import LinkLost, LinkSettings
from termprobe.link.base import Received


class SimLink:
    """A line to `board`. Bytes take no time of their own; what comes back is stamped by `clock`."""

    def __init__(self, board, clock, format, name="sim:"):  # pylint: disable=redefined-builtin
        self.board, self.name, self.format = board, name, format
        self._clock = clock
        self._open = True
        self._arriving = []

    def write(self, data):
        """Hand `data` to the board; it has acted on them when this returns."""
        self._refuse_closed()
        self.board.receive(data)

    def read(self, wait_s):
        """Return what the board has sent since the last call; wait at most `wait_s` where it has sent nothing."""
        self._refuse_closed()
        arrived = self._arrived()
        if not arrived and wait_s > 0:
            self._clock.sleep_until(self._clock.now_s() + wait_s)
            arrived = self._arrived()
        return arrived

    def _arrived(self):
        now_s = self._clock.now_s()
        self._arriving += [Received(now_s + delay_s, data) for delay_s, data in self.board.take_sent()]
        arrived = tuple(received for received in self._arriving if received.at_s <= now_s)
        self._arriving = [received for received in self._arriving if received.at_s > now_s]
        return arrived

    def drain(self, limit_s):  # pylint: disable=unused-argument
        """Return True: nothing waits."""
        self._refuse_closed()
        return True

    def lines(self):
        """Return the modem lines that the board drives: ready, and no telephone."""
        self._refuse_closed()
        return {"cts": True, "dsr": True, "dcd": True, "ri": False}

    def set_line(self, line, on):
        """Drive `rts`, `dtr` or `break`."""
        self._refuse_closed()
        if line not in ("rts", "dtr", "break"):
            raise LinkSettings(f'{self.name}: the line to drive must be rts, dtr or break, not "{line}"')

    def close(self):
        """Let go of the board."""
        self._open = False

    def _refuse_closed(self):
        if not self._open:
            raise LinkLost(f"{self.name}: the link must be open, but it has been closed; open it again")
