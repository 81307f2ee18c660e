"""Line use of a paced run at 9600 baud over a pseudo-terminal.

It is the time taken over the ideal: bytes x 10 / 9600, gaps and settle time; 1.00 is the line's own
time, at most 1.02 is wanted.

Run: .venv/bin/python tests/benchmarks/pacing.py [SECONDS]
"""

import os
import sys
import threading
import tty
from typing import NamedTuple

from termprobe.clock import SystemClock
from termprobe.link.base import LineFormat
from termprobe.link.open import open_port
from termprobe.link.pacer import Pacer


class Work(NamedTuple):
    """What is sent: `pieces` of so many characters, each waited for."""

    title: str
    pieces: int
    piece_length: int
    gap_s: float = 0.0
    settle_s: float = 0.0

    @property
    def ideal_s(self):
        """How long the line alone takes."""
        of_piece_s = self.piece_length * (10 / 9600 + self.gap_s) + self.settle_s
        return self.pieces * of_piece_s


def line_use(work):
    """Return (time taken over ideal time, Pacing)."""
    master, slave = os.openpty()
    tty.setraw(slave)
    threading.Thread(target=swallow, args=(master,), daemon=True).start()
    clock = SystemClock()
    with open_port(os.ttyname(slave), LineFormat(9600), clock) as link:
        pacer = Pacer(link, clock, work.gap_s)
        start_s = clock.now_s()
        for _ in range(work.pieces):
            pacer.send(b"U" * work.piece_length)
            pacer.settle(work.settle_s)
        taken_s = clock.now_s() - start_s
    os.close(slave)
    return taken_s / work.ideal_s, pacer.statistics


def swallow(master):
    try:
        while os.read(master, 4096):
            pass
    except OSError:
        os.close(master)


def main():
    seconds = float(sys.argv[1]) if len(sys.argv) > 1 else 4.0
    count = int(seconds * 960)
    for work in (
        Work("one long text", 1, count),
        Work("screens of 1920, 50 ms settle", max(1, count // 1968), 1920, settle_s=0.05),
        Work("commands of 4, 5 ms settle", count // 9, 4, settle_s=0.005),
        Work("2 ms gap after each character", 1, count // 3, gap_s=0.002),
    ):
        ratio, pacing = line_use(work)
        late = f"late {pacing.late} of {pacing.characters}"
        print(f"line use at 9600 baud, {work.title:31} {ratio:.4f}   {late}")


if __name__ == "__main__":
    main()
