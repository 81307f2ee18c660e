"""How many cables are told apart, and how often a healthy board is held for one that is not.

Run: .venv/bin/python tests/benchmarks/wirings.py [runs of each handshake check]
"""

import pathlib
import sys
from collections import Counter, defaultdict

ROOT = pathlib.Path(__file__).resolve().parent.parent.parent
sys.path[:0] = [str(ROOT), str(ROOT / "tests")]

from helpers.cabled_line import CabledInUse  # noqa: E402
from helpers.sending_board import WAYS, Late, busy_board, sending  # noqa: E402
from termprobe.board.cable.board_side import BoardSide  # noqa: E402
from termprobe.board.cable.link import side_of  # noqa: E402
from termprobe.line.checks import CHECKS  # noqa: E402
from termprobe.line.wiring_check import signs_of  # noqa: E402
from termprobe.line.wiring_signs import explanations, likeliest  # noqa: E402
from termprobe.link.wirings import WIRINGS  # noqa: E402

RUNS = 1000
LATE = 5
"""One in so many runs is tried with an adapter that delivers late as well."""


def seen(name, handshake):
    """Return what is seen where `name` is on the bench and the board keeps `handshake`."""
    side = BoardSide(side_of(CabledInUse().board).format, handshake)
    return signs_of(CabledInUse(wiring=name, side=side, handshake=handshake).ask())


def show_wirings(handshake):
    signs = {name: seen(name, handshake) for name in WIRINGS}
    groups = defaultdict(list)
    for name, of_name in signs.items():
        groups[repr(of_name)].append(name)
    best = {name: likeliest(explanations(of, handshake)) for name, of in signs.items()}
    named = [name for name, found in best.items() if name in {one.wiring.name for one in found}]
    print(f"a board with handshake {handshake}, of {len(WIRINGS)} cables:")
    print(f"  told apart: {len(groups)}; among the likeliest: {len(named)}")
    for group in groups.values():
        if len(group) > 1:
            print(f"  alike: {', '.join(group)}")


def show_alarms(runs):
    for check in WAYS:
        told = Counter(CHECKS[check](sending(check, seed)).is_right for seed in range(runs))
        print(f"{check}: {runs - told[True]} false alarms in {runs} runs of a healthy board")
    for check in WAYS:
        told = Counter(
            CHECKS[check](sending(check, seed, line=Late)).is_right for seed in range(runs // LATE)
        )
        wrong = runs // LATE - told[True]
        print(f"{check}, delivered 16 ms late: {wrong} false alarms in {runs // LATE} runs")
    for handshake in ("xon-xoff", "rts-cts"):
        wrong = 0
        for seed in range(runs):
            line = busy_board(handshake, seed)
            is_right = CHECKS["host-sees-busy"](line).is_right
            wrong += not is_right or line.link.cable.board.lost > 0
        print(f"host-sees-busy, {handshake}: {wrong} false alarms or losses in {runs} runs")
    held = Counter(
        CHECKS["both-ways"](sending("board-stops-xoff", seed, b"A" * 400)).is_right
        for seed in range(runs)
    )
    print(f"both-ways: {runs - held[True]} false alarms in {runs} runs of a healthy board")


def main():
    show_wirings("none")
    show_wirings("rts-cts")
    show_alarms(int(sys.argv[1]) if sys.argv[1:] else RUNS)


if __name__ == "__main__":
    main()
