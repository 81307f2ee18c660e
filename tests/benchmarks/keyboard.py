"""How well a walk over the keyboard names its faults, over every single modelled one. Run: .venv/bin/python tests/benchmarks/keyboard.py"""

import statistics
import time

from termprobe.board.keyboard_faults import keyboard_catalogue, simulate
from termprobe.diagnosis.keyboard import conclude
from termprobe.diagnosis.keyboard_quick import LINE_KINDS, quick_presses
from termprobe.plan.presses import chord_presses, coded_presses
from termprobe.profile.load import load


def walked(profile, presses, fault=None):
    """Return what the presses give on a keyboard with the fault: press id -> [(bytes, error)]."""
    keyboard = simulate(profile, (fault,) if fault else ())
    return {press.id: [(b"".join(data for _, data in keyboard.press(press.key, frozenset(press.modifiers))), "")] for press in presses}


def figures(profile, presses, names):
    """Return (faults shown, faults whose class is ranked first, median seconds of conclude) over the faults `names`."""
    healthy, shown, first, times = walked(profile, presses), 0, 0, []
    for name in names:
        came = walked(profile, presses, name)
        if came == healthy:
            continue
        shown += 1
        start = time.perf_counter()
        suspects = conclude(profile, came).suspects
        times.append(time.perf_counter() - start)
        first += bool(suspects) and name in suspects[0].faults
    return shown, first, statistics.median(times)


def main():
    for profile in map(load, ("singlebyte-24x80", "ecma48-24x80")):
        presses, quick = coded_presses(profile), quick_presses(profile)
        names = list(keyboard_catalogue(profile))
        lines = [name for name in names if name.startswith("keyboard-code") or name.split("/")[1] in LINE_KINDS]
        few = [press for press in presses if press.id in quick.presses]
        print(f"\n{profile.id}: {len(names)} faults, {len(lines)} of them of lines; {quick.proof}")
        print(f"{'':<34}{'presses':>8}{'shown':>14}{'named first':>14}{'conclude':>10}")
        for title, asked, faults in (("full walk, all faults", presses, names), ("full walk, faults of lines", presses, lines),
                                     ("quick, all faults", few, names), ("quick, faults of lines", few, lines)):
            shown, first, median_s = figures(profile, asked, faults)
            print(f"{title:<34}{len(asked):>8}{shown:>8} {shown / len(faults):>4.0%}{first:>9} {first / shown:>4.0%}{median_s * 1000:>7.1f} ms")
        print(f"chords for the diodes: {len(chord_presses(profile))}")


if __name__ == "__main__":
    main()
