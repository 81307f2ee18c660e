"""Decoder and screen against pyte's own ByteStream and Screen on the same bytes.

Run: .venv/bin/python tests/benchmarks/reference.py
"""

import time

import pyte

from termprobe.profile.load import load
from termprobe.terminal.reference import Reference

STREAMS = {
    "printable": b"The quick brown fox jumps over the lazy dog 0123456789 " * 6000,
    "lines of text": b"All work and no play makes a dull board, said the builder to the scope.\r\n"
    * 4000,
    "mixed": b"\x1b[5;10HHello, world and more text\r\n\x1b[K\x1b[3A\tabc\x1b[1mbold\x1b[0m" * 4000,
    "commands only": b"\x1b[5;10H\x1b[A\x1b[2B\x1b[K\r\n" * 6000,
}


def seconds(makers, data, rounds=9):
    """Return the shortest time that a fresh engine of each maker takes for `data`.

    The makers take turns, so that a busy computer slows all of them.
    """
    times = [[] for _ in makers]
    for _ in range(rounds):
        for make, found in zip(makers, times, strict=True):
            feed = make()
            start = time.perf_counter()
            feed(data)
            found.append(time.perf_counter() - start)
    return [min(found) for found in times]


def main():
    profile = load("ecma48-24x80")
    print(f"{'stream':<16}{'reference MB/s':>16}{'pyte MB/s':>12}{'ratio':>8}")
    makers = [lambda: Reference(profile).feed, lambda: pyte.ByteStream(pyte.Screen(80, 24)).feed]
    for name, data in STREAMS.items():
        own_s, theirs_s = seconds(makers, data)
        own_mb_s, theirs_mb_s = len(data) / own_s / 1e6, len(data) / theirs_s / 1e6
        print(f"{name:<16}{own_mb_s:>16.2f}{theirs_mb_s:>12.2f}{theirs_s / own_s:>8.2f}")


if __name__ == "__main__":
    main()
