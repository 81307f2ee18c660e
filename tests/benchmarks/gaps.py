"""How late characters are on the line, and the longest gap in it, at 9600 and 19200 baud.

Over a pseudo-terminal; a process of its own notes when each piece arrives. From there on a UART is
reckoned with, which sends a piece character by character: a character is late by how much later it
has left than on a line without a pause, and a gap is the time in which the line has nothing to
send. Both are those of this computer, with what else it does.

Run: .venv/bin/python tests/benchmarks/gaps.py [RUNS [SECONDS]]
"""

import multiprocessing
import os
import statistics
import sys
import time
import tty

from termprobe.clock import SystemClock
from termprobe.link.base import LineFormat
from termprobe.link.open import open_port
from termprobe.link.pacer import Pacer

RUNS, SECONDS = 20, 1.0


def note_arrivals(master, slave, count, results):
    """Send (moment, how many) of each piece that comes, until `count` characters have come."""
    os.close(slave)
    found, seen = [], 0
    while seen < count:
        data = os.read(master, 4096)
        found.append((time.monotonic(), len(data)))
        seen += len(data)
    results.send(found)


def arrivals(speed_baud, count):
    """Return what note_arrivals tells of a text of `count` characters."""
    master, slave = os.openpty()
    tty.setraw(slave)
    results, told = multiprocessing.Pipe(duplex=False)
    fork = multiprocessing.get_context("fork")
    reader = fork.Process(target=note_arrivals, args=(master, slave, count, told))
    reader.start()
    clock = SystemClock()
    with open_port(os.ttyname(slave), LineFormat(speed_baud), clock) as link:
        Pacer(link, clock).send(b"U" * count)
        found = results.recv()
    reader.join()
    os.close(slave)
    os.close(master)
    return found


def late_and_gap(found, character_s):
    """Return (by how much each character is late, the longest gap), in seconds."""
    first_s = free_s = found[0][0]
    late, gap_s = [], 0.0
    for at_s, count in found:
        gap_s = max(gap_s, at_s - free_s)
        free_s = max(free_s, at_s)
        for _ in range(count):
            free_s += character_s
            late.append(free_s - first_s - (len(late) + 1) * character_s)
    return late, gap_s


def told_of(values_s):
    """Return median, 99th percentile and most in words."""
    ordered = sorted(values_s)
    at_99 = ordered[min(int(0.99 * len(ordered)), len(ordered) - 1)]
    figures = (statistics.median(ordered), at_99, ordered[-1])
    return ", ".join(f"{1000 * value:.2f}" for value in figures)


def main():
    runs = int(sys.argv[1]) if sys.argv[1:] else RUNS
    seconds = float(sys.argv[2]) if sys.argv[2:] else SECONDS
    for speed_baud in (9600, 19200):
        character_s = 10 / speed_baud
        late, gaps = [], []
        for _ in range(runs):
            of_run, gap = late_and_gap(
                arrivals(speed_baud, int(seconds / character_s)), character_s
            )
            late += of_run
            gaps.append(gap)
        print(f"{speed_baud} baud, a character each {1000 * character_s:.2f} ms, {runs} runs")
        print(f"  a character is late, ms (median, 99th percentile, most): {told_of(late)}")
        print(f"  longest gap of a run, ms (median, 99th percentile, most): {told_of(gaps)}")


if __name__ == "__main__":
    main()
