"""Decoder and glass against pyte's own ByteStream and Screen on the same bytes. Run: .venv/bin/python tests/benchmarks/reference.py"""

import statistics
import time

import pyte

from termprobe.profile.load import load
from termprobe.terminal.reference import Reference

STREAMS = {
    "printable": b"The quick brown fox jumps over the lazy dog 0123456789 " * 6000,
    "lines of text": b"All work and no play makes a dull board, said the builder to the scope.\r\n" * 4000,
    "mixed": b"\x1b[5;10HHello, world and more text\r\n\x1b[K\x1b[3A\tabc\x1b[1mbold\x1b[0m" * 4000,
    "commands only": b"\x1b[5;10H\x1b[A\x1b[2B\x1b[K\r\n" * 6000,
}


def seconds(make, data, rounds=5):
    """Return the median time that a fresh engine takes for `data`."""
    times = []
    for _ in range(rounds):
        feed = make()
        start = time.perf_counter()
        feed(data)
        times.append(time.perf_counter() - start)
    return statistics.median(times)


def main():
    profile = load("ecma48-24x80")
    print(f"{'stream':<16}{'reference MB/s':>16}{'pyte MB/s':>12}{'ratio':>8}")
    for name, data in STREAMS.items():
        own = seconds(lambda: Reference(profile).feed, data)
        theirs = seconds(lambda: pyte.ByteStream(pyte.Screen(80, 24)).feed, data)
        print(f"{name:<16}{len(data) / own / 1e6:>16.2f}{len(data) / theirs / 1e6:>12.2f}{theirs / own:>8.2f}")


if __name__ == "__main__":
    main()
