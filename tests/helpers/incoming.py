"""Bytes that come from a board while a step is in progress."""

import math

from termprobe.clock import CrankedClock
from termprobe.link.base import LineFormat, Received


class Incoming:
    """Bytes that come one at a time, each as soon as somebody waits for it."""

    plan = None

    def __init__(self, data):
        self.data, self.rest = b"", data
        self.clock, self.link_format = CrankedClock(), LineFormat()

    def poll(self, wait_s=0.0):
        self.clock.sleep_until(self.clock.now_s() + wait_s)
        byte, self.rest = self.rest[:1], self.rest[1:]
        self.data += byte
        return byte

    def poll_events(self, wait_s=0.0):
        return [Received(self.clock.now_s(), byte) for byte in (self.poll(wait_s),) if byte]


class Line:
    """A line on which bytes come at given moments, whenever they are fetched."""

    def __init__(self, *pieces):
        self.clock, self.link_format = CrankedClock(), LineFormat()
        self._pieces = [Received(*piece) for piece in pieces]

    def poll_events(self, wait_s=0.0):
        now_s = self.clock.now_s()
        due_s = min((piece.at_s for piece in self._pieces), default=math.inf)
        self.clock.sleep_until(max(now_s, min(now_s + wait_s, due_s)))
        arrived = [piece for piece in self._pieces if piece.at_s <= self.clock.now_s()]
        self._pieces = [piece for piece in self._pieces if piece not in arrived]
        return arrived
