"""Line use of a paced run at 9600 baud over a pseudo-terminal: time taken over bytes x 10 / 9600 plus settle time.

Run: python tests/benchmarks/pacing.py [SECONDS]    (prints ratios; at most 1.02 is wanted, 1.00 is the line's own time)
"""

import os
import sys
import threading
import tty

from termprobe.clock import SystemClock
from termprobe.link.base import LineFormat
from termprobe.link.open import open_port
from termprobe.link.pacer import Pacer


def line_use(pieces, piece_length, gap_s=0.0, settle_s=0.0):
    """Return (time taken over ideal time, Pacing) for `pieces` sends of `piece_length` characters, each waited for."""
    master, slave = os.openpty()
    tty.setraw(slave)
    threading.Thread(target=swallow, args=(master,), daemon=True).start()
    clock = SystemClock()
    with open_port(os.ttyname(slave), LineFormat(9600), clock) as link:
        pacer = Pacer(link, clock, gap_s)
        start_s = clock.now_s()
        for _ in range(pieces):
            pacer.send(b"U" * piece_length)
            pacer.settle(settle_s)
        taken_s = clock.now_s() - start_s
    os.close(slave)
    return taken_s / (pieces * (piece_length * (10 / 9600 + gap_s) + settle_s)), pacer.statistics


def swallow(master):
    try:
        while os.read(master, 4096):
            pass
    except OSError:
        os.close(master)


def main():
    seconds = float(sys.argv[1]) if len(sys.argv) > 1 else 4.0
    count = int(seconds * 960)
    for title, work in (
        ("one long text", dict(pieces=1, piece_length=count)),
        (
            "screens of 1920, 50 ms settle",
            dict(pieces=max(1, count // 1968), piece_length=1920, settle_s=0.05),
        ),
        ("commands of 4, 5 ms settle", dict(pieces=count // 9, piece_length=4, settle_s=0.005)),
        ("2 ms gap after each character", dict(pieces=1, piece_length=count // 3, gap_s=0.002)),
    ):
        ratio, pacing = line_use(**work)
        print(
            f"line use at 9600 baud, {title:31} {ratio:.4f}   late {pacing.late} of {pacing.characters}"
        )


if __name__ == "__main__":
    main()
