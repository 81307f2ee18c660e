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


def measure(folder, cache):
    """Return (seconds, megabytes at most in one process) of one call of the command."""
    words = [sys.executable, "-m", "termprobe.cli.main", "errata", folder, "-o", os.devnull]
    began = time.monotonic()
    subprocess.run(words, check=True, env=os.environ | {"XDG_CACHE_HOME": cache})
    peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
    return time.monotonic() - began, peak


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
        seconds, peak = measure(target, os.path.join(asked.folder, "cache"))
        told = f"{seconds:.1f} s, {asked.count / seconds:.0f} files a second, {peak:.0f} MB at most"
        print(f"{what}: {told}")


if __name__ == "__main__":
    main()
