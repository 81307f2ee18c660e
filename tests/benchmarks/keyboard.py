"""How well a walk over the keyboard names its faults, over every single modelled one. Run: .venv/bin/python tests/benchmarks/keyboard.py

`more` is the walk done twice, chords included, for the faults that the walk done once does not show.
"""

import collections
import statistics
import time

from termprobe.board.faults.catalogue import keyboard_catalogue
from termprobe.board.keyboard_board import simulate
from termprobe.diagnosis.key_hypotheses import hypotheses
from termprobe.diagnosis.key_conclusion import conclude
from termprobe.diagnosis.key_sets import quick_presses, telling_presses
from termprobe.plan.presses import chord_presses, coded_presses
from termprobe.profile.load import load


def walked(profile, presses, fault=None, times=1):
    """Return what the presses give on a keyboard with the fault: press id -> [(bytes, error), ...]."""
    keyboard = simulate(profile, (fault,) if fault else ())
    came = {}
    for press in presses:
        for _ in range(times):
            events = (
                keyboard.chord([*press.held, press.key])
                if press.held
                else keyboard.press(press.key, frozenset(press.modifiers))
            )
            came.setdefault(press.id, []).append((b"".join(data for _, data in events), ""))
    return came


def tried(profile, presses, names, times=1):
    """Return fault -> (is named first, faults in the class ranked first, seconds of conclude), for the faults that the presses show."""
    healthy, found = walked(profile, presses, times=times), {}
    for name in names:
        came = walked(profile, presses, name, times)
        if came != healthy:
            start_s = time.perf_counter()
            suspects = conclude(profile, came).suspects
            took_s = time.perf_counter() - start_s
            found[name] = (
                bool(suspects) and name in suspects[0].faults,
                len(suspects[0].faults) if suspects else 0,
                took_s,
            )
    return found


def show(title, count, found, names):
    """Print one line of figures over the faults `names`."""
    shown = [found[name] for name in names if name in found]
    first = sum(one[0] for one in shown)
    sizes = statistics.mean(one[1] for one in shown)
    median_ms = 1000 * statistics.median(one[2] for one in shown)
    print(
        f"{title:<34}{count:>8}{len(shown):>8} {len(shown) / len(names):>4.0%}{first:>9} {first / len(shown):>4.0%}{sizes:>8.2f}{median_ms:>8.1f} ms"
    )


def main():
    for profile in map(load, ("singlebyte-24x80", "ecma48-24x80")):
        start_s = time.perf_counter()
        hypotheses(profile)
        table_s = time.perf_counter() - start_s
        presses, chords, quick, telling = (
            coded_presses(profile),
            chord_presses(profile),
            quick_presses(profile),
            telling_presses(profile),
        )
        names, lines = list(keyboard_catalogue(profile)), quick.faults
        print(
            f"\n{profile.id}: {len(names)} faults, {len(lines)} of them of lines; all hypotheses simulated once in {table_s:.1f} s"
        )
        print(f"{quick.proof}\n{telling.proof}")
        print(f"{'':<34}{'presses':>8}{'shown':>13}{'named first':>14}{'class':>8}{'conclude':>11}")
        found = tried(profile, presses, names)
        show("full walk, all faults", len(presses), found, names)
        show("full walk, faults of lines", len(presses), found, lines)
        more, unseen = presses + chords, [name for name in names if name not in found]
        found |= tried(profile, more, unseen, times=2)
        show("these and, where need be, more", 2 * len(more), found, names)
        few = [press for press in presses if press.id in quick.presses]
        found = tried(profile, few, names)
        show("quick, all faults", len(few), found, names)
        show("quick, faults of lines", len(few), found, lines)
        few = [press for press in presses if press.id in telling.presses]
        show("telling, faults of lines", len(few), tried(profile, few, lines), lines)
        print(
            f"not shown by the full walk: {kinds_of(unseen)}\nnot shown by quick: {kinds_of(set(names) - found.keys())}"
        )


def kinds_of(names):
    """Return how many of each kind there are, in words."""
    kinds = collections.Counter("/".join(name.split("/")[:2]) for name in sorted(names))
    return ", ".join(f"{count} {kind}" for kind, count in kinds.items()) or "none"


if __name__ == "__main__":
    main()
