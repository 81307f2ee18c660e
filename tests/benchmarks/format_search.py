"""How often speed and frame are found from pressed keys, and with how many, on a simulated cable.

Every combination of seven speeds, seven or eight data bits, parity none, even or odd, one or two
stop bits; without a profile, with one that differs in its frame, and with one wrong key.

Run: .venv/bin/python tests/benchmarks/format_search.py
"""

import pathlib
import sys

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent))

from helpers.format_boards import COMBINATIONS, FormatBench, is_right  # noqa: E402
from termprobe.board.cable.host_side import HostAdapter  # noqa: E402
from termprobe.link.base import ABILITIES, LineFormat  # noqa: E402

WANTED = LineFormat(9600, 7, "even")
NO_MARKS = HostAdapter(abilities=frozenset(ABILITIES) - {"marks"})
SMALL = tuple((press, "small") for press in range(10))
CASES = (
    ("without a profile", {}, None),
    ("profile of 9600 7E1", {}, WANTED),
    ("first key wrong (Y)", {"slips": ((0, "Y"),)}, None),
    ("second key wrong (Y)", {"slips": ((1, "Y"),)}, None),
    ("always small letters", {"slips": SMALL}, None),
    ("first key twice", {"slips": ((0, "UU"),)}, None),
    ("adapter without marks", {"adapter": NO_MARKS}, None),
    ("clock 2 % fast", {"ratio": 1.02}, None),
    ("crystal 4/3", {"ratio": 4 / 3}, None),
    ("inverted", {"levels": "rs232-inverted"}, None),
)


def of_case(settings, wanted):
    """Return [(whether it is right, whether it is sure, how many keys)] of every combination."""
    told = []
    for format in COMBINATIONS:
        bench = FormatBench(format, **settings)
        found = bench.found(wanted)
        told.append((is_found(found, format, settings), found.is_sure, len(found.presses)))
    return told


def is_found(found, format, settings):
    """Return whether what is on the wire is named: at 4/3 of the speed, or inverted."""
    ratio = {4 / 3: 4 / 3}.get(settings.get("ratio"), 1.0)
    on_wire = format.speed_baud * ratio
    wire = found.wire
    if abs(wire.baud / on_wire - 1) > 0.03 or wire.is_inverted != ("levels" in settings):
        return False
    named = LineFormat(round(wire.baud), format.data_bits, format.parity, format.stop_bits)
    return is_right(found, named)


def main():
    for title, settings, wanted in CASES:
        told = of_case(settings, wanted)
        right = sum(is_right for is_right, _, _ in told)
        wrong = sum(is_sure and not is_right for is_right, is_sure, _ in told)
        keys = [count for _, _, count in told]
        mean = sum(keys) / len(keys)
        print(
            f"{title:24} {right:3} of {len(told)} right, {wrong} sure and wrong; "
            f"keys: mean {mean:.1f}, most {max(keys)}"
        )


if __name__ == "__main__":
    main()
