"""Prints how fast many run files are read, and how much memory that takes.

    python -m tests.batch.many FOLDER COUNT [--script acceptance]

The files are of simulated boards, each under a name of its own; one in four has a fault, of six.
They are read twice: as they are, and when each has been read before.
"""

import argparse
import os
import pathlib
import resource
import subprocess
import sys
import time
from typing import NamedTuple

from helpers.club_batch import BOARDS, SCRIPT, as_of, run_once

FAULTS = (
    "bank-1-data/swapped/2-3",
    "row-counter/stuck/1/0",
    "ram-address/bridged/0-7/low",
    "baud/ratio/2",
    "decoder/dead/clear",
    "scroll/dead",
)
FAULTY = 4
"""One in so many has a fault."""


def write(folder, count, script):
    """Write `count` run files, the boards of them each another one."""
    sources = []
    for number, port in enumerate(["sim:", *(f"sim:{fault}" for fault in FAULTS)]):
        made = os.path.join(folder, "sources", str(number))
        sources.append(pathlib.Path(run_once(made, BOARDS[0], port, script=script)).read_bytes())
    good, *bad = sources
    target = pathlib.Path(folder, "runs")
    target.mkdir()
    for number in range(count):
        data = good
        if number % FAULTY == 0:
            data = bad[number // FAULTY % len(bad)]
        board = BOARDS[number % len(BOARDS)]._replace(serial=f"{number:05}")
        (target / f"{number:05}.run.jsonl").write_bytes(as_of(data, board))
    return target


class Measured(NamedTuple):
    """What one call of the command took."""

    seconds: float
    processor_s: float
    """Of all its processes."""
    peak_mb: float
    """Of its largest process, since this program began."""


def measure(folder, cache):
    """Return the Measured of `termprobe errata FOLDER`."""
    words = [sys.executable, "-m", "termprobe.cli.main", "errata", folder, "-o", os.devnull]
    began, before = time.monotonic(), resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run(words, check=True, env=os.environ | {"XDG_CACHE_HOME": cache})
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    processor_s = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return Measured(time.monotonic() - began, processor_s, after.ru_maxrss / 1024)


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder")
    parser.add_argument("count", type=int)
    parser.add_argument("--script", default=SCRIPT)
    asked = parser.parse_args()
    target = write(asked.folder, asked.count, asked.script)
    size = sum(path.stat().st_size for path in target.iterdir()) / asked.count
    print(f"{asked.count} files of {size / 1000:.0f} kB on average")
    for what in ("first time", "again"):
        took = measure(target, os.path.join(asked.folder, "cache"))
        rate = asked.count / took.seconds
        told = f"{took.seconds:.1f} s, {rate:.0f} files a second, {took.processor_s:.1f} s of a "
        print(f"{what}: {told}processor, {took.peak_mb:.0f} MB in the largest process")


if __name__ == "__main__":
    main()
