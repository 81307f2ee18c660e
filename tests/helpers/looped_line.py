"""A line whose far end brings back what it is sent, as it was or spoiled, when it has left."""

from termprobe.link.base import LineFormat, Received
from termprobe.link.breaks import send_break


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


TIES = {"rts": ("cts",), "dtr": ("dsr", "dcd")}


class LoopedInUse(LoopedLine):
    """The same as checks use a line, with control lines that follow ours as `ties` tell.

    `held` are lines that stand whatever we do; `back` is what comes of a break, None for nothing;
    `says` is the format that the line claims to have.
    """

    def __init__(self, clock, format=None, ties=TIES, held=(), back="break", says=None, **spoiling):
        super().__init__(clock, format, **spoiling)
        self.clock, self.link_format, self._ties = clock, says or self.format, ties
        self._levels, self._held, self._back = {"rts": True, "dtr": True}, dict(held), back

    def send(self, data):
        self.clock.sleep_until(self._free_s - 16 * self.format.character_s)
        self.write(data)

    abilities = ("break", "lines")
    counted = ()

    def counters(self):
        """Return the next of what `counted` holds, the last one again and again."""
        first, *others = self.counted or ({},)
        self.counted = others or self.counted
        return first

    handshake = "none"

    def send_break(self, length_s):
        send_break(self, self.clock, length_s)

    def poll_events(self, wait_s=0.0):
        return self.read(wait_s)

    def lines(self):
        if self._ties is None:
            return None
        told = dict.fromkeys(("cts", "dsr", "dcd", "ri"), False)
        for driven, following in self._ties.items():
            told |= dict.fromkeys(following, self._levels[driven])
        return told | self._held

    def set_line(self, line, on):
        if line != "break":
            self._levels[line] = on
        elif on and self._back is not None:
            mark = "" if self._back == "nul" else self._back
            told_s = self.clock.now_s() + self.format.character_s
            self._coming.append(Received(told_s, b"\0", mark))
