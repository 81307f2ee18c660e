"""What a run has shown of a keyboard, in lines, and which presses one suspect explains."""

import pytest

from helpers.reports import step
from termprobe.diagnosis.key_conclusion import Conclusion, Suspect
from termprobe.plan.choose import choose
from termprobe.plan.compile import compile_plan
from termprobe.profile.load import load as load_profile
from termprobe.report.key_findings import (
    KeyFindings,
    explained_presses,
    key_lines,
)
from termprobe.script.load import load as load_script
from termprobe.verdict.model import RunVerdict

PROFILE = load_profile("singlebyte-24x80")
WHOLE = compile_plan(PROFILE, load_script("keyboard"))
IDS = ("press/a", "press/q", "press/s", "press/w")
PLAN = choose(WHOLE, IDS)
ORDER = tuple(one.id for one in PLAN.steps)
FAULT = "key-matrix/row-open/2"


def suspect(*supports):
    return Suspect((FAULT,), "Row 2 is open", "key-matrix", 0.9, supports, ())


def findings(*suspects, explained=True):
    return KeyFindings(PROFILE.keyboard, Conclusion(explained, not suspects, suspects))


def verdict(*failed):
    words = {True: "fail", False: "pass"}
    steps = tuple(step(words[one in failed], one, stage="keyboard") for one in ORDER)
    return RunVerdict("fail", steps)


@pytest.mark.parametrize(
    "found, failed, explained",
    [
        (findings(suspect(*IDS)), ("press/q", "press/a"), ("press/q", "press/a")),
        (findings(suspect("press/q", "press/w")), IDS, ("press/q", "press/w")),
        (findings(suspect("press/q")), IDS, ()),
        (findings(suspect(*IDS), explained=False), IDS, ()),
        (findings(suspect("press/q"), suspect(*IDS)), IDS, ()),
        (findings(), IDS, ()),
        (None, IDS, ()),
    ],
)
def test_only_presses_that_failed_as_the_leading_suspect_says_are_explained(
    found, failed, explained
):
    assert explained_presses(found, PLAN, verdict(*failed)) == explained


def test_the_drawing_has_the_marks_and_the_suspects_stand_below_it():
    text = "\n".join(key_lines(findings(suspect(*IDS)), PLAN, verdict("press/q")))
    drawn, suspects = text.split("+ right  x wrong")
    assert drawn.count("x|") == 1 and drawn.count("+|") >= 3 and FAULT in suspects
    assert "Chords" not in text


def test_chords_that_are_not_asked_for_are_told_with_the_reason():
    chords = choose(WHOLE, (*IDS, "diodes"))
    lines = key_lines(findings(), chords, verdict())
    assert any(line.startswith("Chords: none are asked for: ") for line in lines)
    assert lines[-1] == "Suspects: none of the keyboard; its presses speak for no fault."
