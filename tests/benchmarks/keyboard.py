"""How well a walk over the keyboard names its faults, over every single modelled one.

Run: .venv/bin/python tests/benchmarks/keyboard.py

`more` is the walk done twice, chords included, for the faults that the first one does not show.
"""

import collections
import pathlib
import statistics
import sys
import time
from typing import NamedTuple

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent))

from helpers.key_walks import walked  # noqa: E402
from termprobe.board.faults.catalogue import keyboard_catalogue  # noqa: E402
from termprobe.diagnosis.fault_names import parsed  # noqa: E402
from termprobe.diagnosis.key_conclusion import conclude  # noqa: E402
from termprobe.diagnosis.key_sets import quick_presses, telling_presses  # noqa: E402
from termprobe.diagnosis.key_table import table_of  # noqa: E402
from termprobe.plan.presses import chord_presses, coded_presses  # noqa: E402
from termprobe.profile.load import load  # noqa: E402
from termprobe.report.key_set_words import proof_in_words  # noqa: E402


class Tried(NamedTuple):
    """What was concluded of a walk that shows a fault."""

    is_first: bool
    """The fault is in the class ranked first."""
    alike: int
    """Faults in that class."""
    took_s: float


def tried(profile, presses, names, times=1):
    """Return fault -> Tried, for those of the faults `names` that the presses show."""
    healthy, found = walked(profile, presses=presses, times=times), {}
    for name in names:
        came = walked(profile, name, presses=presses, times=times)
        if came != healthy:
            found[name] = concluded(profile, came, name)
    return found


def concluded(profile, came, name):
    start_s = time.perf_counter()
    suspects = conclude(profile, came).suspects
    took_s = time.perf_counter() - start_s
    if not suspects:
        return Tried(False, 0, took_s)
    faults = suspects[0].faults
    return Tried(name in faults, len(faults), took_s)


def show(title, count, found, names):
    """Print one line of figures over the faults `names`."""
    shown = [found[name] for name in names if name in found]
    first = sum(one.is_first for one in shown)
    alike = statistics.mean(one.alike for one in shown)
    median_ms = 1000 * statistics.median(one.took_s for one in shown)
    print(
        f"{title:<34}{count:>8}{len(shown):>8} {len(shown) / len(names):>4.0%}"
        f"{first:>9} {first / len(shown):>4.0%}{alike:>8.2f}{median_ms:>8.1f} ms"
    )


def main():
    for profile in map(load, ("singlebyte-24x80", "ecma48-24x80")):
        start_s = time.perf_counter()
        table_of(profile)
        table_s = time.perf_counter() - start_s
        names = list(keyboard_catalogue(profile))
        print(f"\n{profile.id}: {len(names)} faults; all hypotheses made once in {table_s:.1f} s")
        compare(profile, names)


def compare(profile, names):
    """Print the figures of the walks over all presses, and over both smallest sets of them."""
    presses, chords = coded_presses(profile), chord_presses(profile)
    quick, telling = quick_presses(profile), telling_presses(profile)
    lines = quick.faults
    print(f"{proof_in_words(quick)}\n{proof_in_words(telling)}")
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
    print(f"not shown by the full walk: {kinds_of(unseen)}")
    print(f"not shown by quick: {kinds_of(set(names) - found.keys())}")


def kinds_of(names):
    """Return how many of each kind there are, in words."""
    parts = map(parsed, sorted(names))
    kinds = collections.Counter(f"{part.where}/{part.kind}" for part in parts)
    return ", ".join(f"{count} {kind}" for kind, count in kinds.items()) or "none"


if __name__ == "__main__":
    main()
