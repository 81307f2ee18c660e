"""Batches of made-up boards: summaries of runs as many as wanted, without running anything."""

import itertools

from termprobe.errata.batch import batch_of
from termprobe.errata.summary import BoardCause, FailedStep, RunSummary

STEPS = ("field", "slopes", "commands")
NUMBERS = itertools.count()


def cause(*faults, steps=STEPS[:2], title=""):
    return BoardCause(faults, title or f"{faults[0]} is wrong", faults[0].split("/")[0], steps)


def summary(serial, revision="A", *causes, failed=(), builder="", batch="", **fields):
    """Return a RunSummary: what its causes explain and what `failed` failed, the rest passed."""
    bad = dict.fromkeys(itertools.chain(failed, *(one.steps for one in causes)))
    usual = {
        "path": f"{serial}.run.jsonl",
        "digest": f"{next(NUMBERS):064x}",
        "begun": f"2026-01-02T03:04:{next(NUMBERS) % 60:02d}+00:00",
        "verdict": "fail" if bad else "pass",
        "is_part": False,
        "is_practice": False,
        "passed": tuple(step for step in STEPS if step not in bad),
        "failed": tuple(FailedStep(step, f"The {step}", "bit 3 is 0") for step in bad),
        "causes": causes,
        "script": "quick",
    }
    board = {"serial": str(serial), "revision": revision, "builder": builder, "batch": batch}
    return RunSummary(**board | usual | fields)


def grouped(fault, *groups, **fields):
    """Return the batch in which of each (revision, boards, how many of them) some have `fault`."""
    runs = []
    for revision, count, having in groups:
        for number in range(count):
            causes = [cause(fault)] if number < having else []
            runs.append(summary(f"{revision}{number}", revision, *causes, **fields))
    return batch_of(runs)
