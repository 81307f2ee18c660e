"""A soak of an emulated line at 19200 baud: its speed, its memory, and how much it compares.

Run: .venv/bin/python tests/benchmarks/soak.py [CHARACTERS]

One character in a million is lost on the way.
"""

import pathlib
import resource
import sys
import time

ROOT = pathlib.Path(__file__).resolve().parent.parent.parent
sys.path[:0] = [str(ROOT), str(ROOT / "tests")]

from helpers.looped_line import LoopedLine  # noqa: E402
from termprobe.clock import CrankedClock  # noqa: E402
from termprobe.line.soak import Far, Soak, SoakLength  # noqa: E402
from termprobe.line.stream import Stream, carried_codes  # noqa: E402
from termprobe.link.base import LineFormat  # noqa: E402

USUAL, ONE_IN = 1_000_000, 1_000_000


def losing():
    """Return what loses one character in a million."""
    count = 0

    def spoiled(data):
        nonlocal count
        before, count = count // ONE_IN, count + len(data)
        return data[1:] if count // ONE_IN > before else data

    return spoiled


def kilobytes():
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss


def main(characters):
    clock, kept, begun_s = CrankedClock(), [0], time.perf_counter()
    line = LoopedLine(clock, LineFormat(19200), spoil=losing())

    def keep(far):
        kept[0] += 1

    soak = Soak(line, clock, Stream(carried_codes(8), 1), Far(), keep, lambda far: None)
    soak.carry_out(SoakLength(min(characters // 10, 1_000_000)))
    early = kilobytes()
    soak = Soak(line, clock, Stream(carried_codes(8), 1), soak.far, keep, lambda far: None)
    soak.carry_out(SoakLength(characters))
    tally, took_s = soak.far.tally, time.perf_counter() - begun_s
    share = tally.sent * line.format.character_s / soak.far.seconds
    print(f"{tally.sent:,} characters, errors {dict(tally.errors)}, {kept[0]} records")
    print(f"share of the line's speed {share:.4f}; simulated {soak.far.seconds / 3600:.1f} h")
    print(
        f"memory {early / 1024:.1f} MB after the beginning, {kilobytes() / 1024:.1f} MB at the end"
    )
    print(f"{tally.sent / took_s:,.0f} characters a second on this computer")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else USUAL)
