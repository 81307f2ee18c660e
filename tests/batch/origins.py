"""Prints how often what each fault of simulated batches goes with is named rightly, and wrongly.

    python -m tests.batch.origins [--batches 200] [--seed 1]

Each batch has twelve boards of two revisions, by two to six builders and of two or three batches of
parts, all by lot. Every board of one revision has the same fault, two boards a fault of a joint or
a bridge, one a strap that stands wrong; one board in six of those that have the fault of the layout
may have one of its own as well, which then hides behind it until the first is repaired. Each board
with a fault is run with it, and after the repair again.

Each fault is run on a simulated board once; what that run shows is then told of every board of the
batches that has it. The runs are read and diagnosed as those of any other board.
"""

import argparse
import collections
import dataclasses
import itertools
import os
import random
import tempfile
from typing import NamedTuple

from helpers.club_batch import BOARDS, PROFILE, run_once
from helpers.intervals import clopper_pearson
from termprobe.board.faults.catalogue import catalogue
from termprobe.cli.summarised import summarised
from termprobe.errata.batch import batch_of
from termprobe.errata.likely import STRAP, likely
from termprobe.errata.origin import findings_of
from termprobe.profile.load import load
from termprobe.verdict.model import FAIL

BUSES = ("receiver-data/", "bank-", "glyph-address/", "ram-address/", "row-counter/", "decoder/")
LAYOUT_KINDS = ("swapped",)
SOLDER_KINDS = ("stuck", "bridged")
STRAPS = ("baud/ratio/2", "baud/ratio/0.5")
POOL = 24
"""So many faults of each kind are drawn from."""
BOARDS_IN_BATCH = 12


class Drawn(NamedTuple):
    """What a board of a batch is, and its faults one after the other."""

    serial: str
    revision: str
    builder: str
    batch: str
    faults: tuple[str, ...]


def pools(lot, runs):
    """Return the faults of layout and solder that are drawn from: those that the script shows."""
    names = sorted(catalogue(load(PROFILE)))
    lines = [name for name in names if name.startswith(BUSES)]
    found = []
    for kinds in (LAYOUT_KINDS, SOLDER_KINDS):
        of_kinds = [name for name in lines if name.split("/")[1] in kinds]
        lot.shuffle(of_kinds)
        shown = (name for name in of_kinds if runs.of(name, BOARDS[0], 0).verdict == FAIL)
        found.append(list(itertools.islice(shown, POOL)))
    return found


def drawn_batch(lot, layout, solder):
    """Return (the boards of a batch, what each fault in it truly goes with)."""
    of_first = lot.randint(4, 8)
    revisions = ["A"] * of_first + ["B"] * (BOARDS_IN_BATCH - of_first)
    bad_revision = lot.choice("AB")
    builders, parts = lot.randint(2, 6), lot.randint(2, 3)
    fault = lot.choice(layout)
    singles = [*lot.sample(solder, 2), lot.choice(STRAPS)]
    hit = dict(zip(lot.sample(range(BOARDS_IN_BATCH), 3), singles, strict=True))
    truth = dict.fromkeys(singles, "board") | {fault: "layout"}
    boards = []
    for number, revision in enumerate(revisions):
        faults = [fault] if revision == bad_revision else []
        if number in hit:
            faults.append(hit[number])
        who, kit = f"builder {lot.randrange(builders)}", f"kit {lot.randrange(parts)}"
        boards.append(Drawn(f"{number:02}", revision, who, kit, tuple(faults)))
    return boards, truth


class Runs:
    """What a run with each fault shows; each is run once."""

    def __init__(self, folder):
        self.folder, self.known = folder, {}

    def of(self, fault, board, number):
        """Return the summary of the run of a board with a fault, or without one."""
        if fault not in self.known:
            own = os.path.join(self.folder, str(len(self.known)))
            self.known[fault] = summarised(run_once(own, BOARDS[0], f"sim:{fault}"))
        return dataclasses.replace(
            self.known[fault],
            digest=f"{board.serial}-{number}",
            serial=board.serial,
            revision=board.revision,
            builder=board.builder,
            batch=board.batch,
            begun=f"2026-01-{number + 1:02}",
        )


def summaries(runs, boards):
    for board in boards:
        for number, fault in enumerate((*board.faults, "")):
            yield runs.of(fault, board, number)


def tried(runs, lot, layout, solder, counts):
    """Draw a batch, and count what was said of each of its faults."""
    boards, truth = drawn_batch(lot, layout, solder)
    found = findings_of(batch_of(summaries(runs, boards))).found
    for fault, origin in truth.items():
        said = [one for one in found if fault in (one.item.what, *one.item.alike)]
        kind = "strap" if fault in STRAPS else {"layout": "layout", "board": "solder"}[origin]
        counts[kind, _said(said, origin, kind)] += 1
    counts["no fault", "said to be there"] += sum(
        not truth.keys() & {one.item.what, *one.item.alike} for one in found
    )


def _said(found, origin, kind):
    """Return what was said of a fault: right, what it was said to go with, or nothing."""
    if not found:
        return "not named"
    (finding, *_) = found
    if finding.origin != origin:
        return finding.origin
    is_strap = likely(finding.item.what) == STRAP
    return "right" if is_strap == (kind == "strap") else "of another kind"


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--batches", type=int, default=200)
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args()
    lot = random.Random(asked.seed)
    counts = collections.Counter()
    with tempfile.TemporaryDirectory() as folder:
        runs = Runs(folder)
        layout, solder = pools(lot, runs)
        for _ in range(asked.batches):
            tried(runs, lot, layout, solder, counts)
    for kind in ("layout", "solder", "strap", "no fault"):
        own = {said: count for (of, said), count in counts.items() if of == kind}
        total = sum(own.values())
        for said, count in sorted(own.items(), key=lambda pair: -pair[1]):
            low, high = clopper_pearson(count, total)
            print(f"{kind:<8} {said:<20} {count} of {total} ({low:.1%} to {high:.1%})")


if __name__ == "__main__":
    main()
