"""A line whose far end brings back what it is sent, as it was or spoiled, when it has left."""

from termprobe.link.base import LineFormat, Received


class LoopedLine:
    """A Link; `spoil` makes of the bytes of one write those that come back, or an error of them."""

    name, note = "looped", ""

    def __init__(self, clock, format=None, spoil=lambda data: data, mark=lambda data: ""):
        self.format = format or LineFormat(19200)
        self._clock, self._spoil, self._mark = clock, spoil, mark
        self._coming, self._free_s = [], clock.now_s()

    def write(self, data):
        self._free_s = max(self._free_s, self._clock.now_s()) + len(data) * self.format.character_s
        back = self._spoil(data)
        if back:
            self._coming.append(Received(self._free_s, back, self._mark(data)))

    def read(self, wait_s):
        due_s = self._coming[0].at_s if self._coming else float("inf")
        if due_s > self._clock.now_s() and wait_s:
            self._clock.sleep_until(min(due_s, self._clock.now_s() + wait_s))
        now_s = self._clock.now_s()
        came = tuple(one for one in self._coming if one.at_s <= now_s)
        self._coming = self._coming[len(came) :]
        return came

    def drain(self, limit_s):
        return True

    def lines(self):
        return {"cts": True, "dsr": True, "dcd": True, "ri": False}

    def set_line(self, line, on):
        pass

    def close(self):
        pass
