"""One report of a made-up run that has something of everything, and the same with hostile texts."""

import dataclasses

from helpers.reports import report, step
from termprobe.diagnosis.key_conclusion import Suspect
from termprobe.diagnosis.model import Diagnosis
from termprobe.diagnosis.probing import Probing
from termprobe.journal.comes_after import ComesAfter
from termprobe.journal.kept import KeptPhoto
from termprobe.journal.records import Answer, Answered, StepBegun
from termprobe.plan.model import Ask, Group, Look, Measure, Stage
from termprobe.profile.load import load
from termprobe.report.block_shown import BlockShown
from termprobe.report.changes import Changes
from termprobe.report.run_notes import RunNote
from termprobe.terminal.screen import Difference, Screen
from termprobe.verdict.model import Blocked, Differing, Earlier, Measured, Unfitted

PROFILE = load("singlebyte-24x80")
MOMENT = "2026-01-02T03:04:06+00:00"
EXPECTED = Screen(("HELLO".ljust(80), *[" " * 80] * 23), (0, 5))


def whole_report(text="plain", seen="HGLLO"):
    """Return the RunReport; `text` is whatever a person or a board could have put into it."""
    differs = tuple(
        Difference(0, column, must_be, came)
        for column, (must_be, came) in enumerate(zip("HELLO", seen, strict=False))
        if must_be != came
    )
    verdicts = [
        step("fail", "look", title=text, differs=differs, because=Differing(1), answers=1),
        step("fail", "other", note=text, observer=text, answers=1),
        step("pass", "volts", title="Plus five", because=VOLTS, earlier=(HIGH,), answers=2),
        step("blocked", "behind", because=Blocked(("look",))),
        step("not-fitted", "none", because=Unfitted(text)),
        step("unanswered", "left"),
    ]
    made = report(*verdicts, serial=text, tool=text)
    return dataclasses.replace(
        made,
        path=text,
        plan=_plan(made.plan, text),
        records=_records(text, seen),
        noted=(RunNote("look", MOMENT, text), RunNote(None, text, text, KeptPhoto(text))),
        damages=(text,),
        notes=(text,),
        profile=PROFILE,
        digest="ab" * 32,
        diagnosis=_diagnosis(text),
        changes=Changes(ComesAfter(text), new_faults=("other",)),
        blocks=(BlockShown("receiver-data", 3, 7), BlockShown("parity", 2, 2)),
    )


VOLTS = Measured(5.0, "V", "5 V", True)
HIGH = Earlier("fail", Measured(5.5, "V", "5 V", False))


def _plan(plan, text):
    """Return a plan with a step of each kind that matters."""
    groups = (Group(b"\x1aHELLO", text),)
    steps = (
        Look("look", "link", text, question=text, groups=groups, expected=EXPECTED),
        Ask("other", "link", "Other"),
        Measure("volts", "link", "Plus five", unit="V", low=4.75, high=5.25, source=text),
        Look("behind", "link", "Behind", needs=("look",)),
        Ask("none", "link", "None", not_fitted=text),
        Ask("left", "looks", "Left", caution=text),
    )
    stages = (Stage("link", text, text), Stage("looks", "Looks"))
    return dataclasses.replace(plan, steps=steps, stages=stages)


def _records(text, seen):
    answer = Answer("differs", seen=(seen,), observer=text)
    return (
        StepBegun("look", t=1.0, at=MOMENT),
        Answered("look", answer, t=3.5, at=MOMENT),
        Answered("other", Answer("differs", note=text), t=4.0, at=text),
    )


def _diagnosis(text):
    suspect = Suspect(("a/b",), text, "receiver-data", 0.97, ("look",), ())
    return Diagnosis("fail", True, (suspect,), next="left", probes=(Probing(text, text, text),))
