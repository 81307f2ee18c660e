"""How fast the simulated board takes bytes, in MB/s and as the ratio to 1 MB/s.

Run: .venv/bin/python tests/benchmarks/board.py
"""

import pathlib
import random
import sys
import time

ROOT = pathlib.Path(__file__).resolve().parent.parent.parent
sys.path.insert(0, str(ROOT))

from termprobe.board.board import Board  # noqa: E402
from termprobe.board.faults.catalogue import catalogue  # noqa: E402
from termprobe.profile.load import load  # noqa: E402

SIZE, ROUNDS, WANTED_MB_S = 500_000, 5, 1.0
CHANCE = random.Random(1)
STREAMS = {
    "printable bytes": bytes(CHANCE.choices(range(0x20, 0x7F), k=SIZE)),
    "mixed bytes, all 256 alike": bytes(CHANCE.choices(range(256), k=SIZE)),
    "lines of text": (b"All characters reach every cell.\r\n" * (SIZE // 34)),
    "addressed characters": b"".join(
        b"\x1b=" + bytes([CHANCE.randrange(32, 56), CHANCE.randrange(32, 112), 0x41])
        for _ in range(SIZE // 5)
    ),
    "line feeds, each scrolling": b"\n" * SIZE,
}


def seconds(action):
    """Return the shortest time that `action` took in ROUNDS rounds."""
    times = []
    for _ in range(ROUNDS):
        start_s = time.perf_counter()
        action()
        times.append(time.perf_counter() - start_s)
    return min(times)


def rate(board, data):
    """Return how many MB/s of `data` the board takes."""
    return len(data) / 1e6 / seconds(lambda: board.receive(data))


def main():
    profile = load("singlebyte-24x80")
    board = Board(profile)
    for name, data in STREAMS.items():
        rate_mb_s = rate(board, data)
        share = f"{rate_mb_s / WANTED_MB_S:6.2f} of the {WANTED_MB_S:g} MB/s wanted"
        print(f"fault-free, {name:28} {rate_mb_s:6.2f} MB/s, {share}")
    print(f"making a board           {1000 * seconds(lambda: Board(profile)):6.2f} ms")
    print(f"reading its screen       {1000 * seconds(board.screen):6.2f} ms")
    of_block = {fault.block: fault for fault in catalogue(profile).values()}
    for block in ("bank-0-address", "column-counter", "receiver-data"):
        fault = of_block[block]
        rate_mb_s = rate(Board(profile, (fault,)), STREAMS["printable bytes"])
        print(f"with {fault.name:36} printable bytes {rate_mb_s:6.2f} MB/s")


if __name__ == "__main__":
    main()
