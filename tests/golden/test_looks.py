"""What each look of a shipped script must show, read by a person against its question."""

from itertools import groupby

import pytest

from helpers.golden import check
from termprobe.folding import folded
from termprobe.plan.compile import compile_plan
from termprobe.plan.model import Look
from termprobe.profile.load import load
from termprobe.script.load import load as load_script

pytestmark = pytest.mark.golden

CASES = {
    "ecma48-24x80": ("acceptance", "ecma48-24x80"),
    "singlebyte-24x80": ("acceptance", "singlebyte-24x80"),
    "quick-club-16x64": ("quick", "club-16x64"),
    "quick-singlebyte-24x80": ("quick", "singlebyte-24x80"),
}


def drawn(screen):
    """Yield the rows of a screen without blanks at their ends, equal ones as one."""
    first = 0
    for row, alike in groupby(screen.rows):
        last = first + len(list(alike)) - 1
        if row.strip():
            yield f"  {first:>2} to {last:>2} |{row.rstrip()}"
        first = last + 1
    yield f"  cursor {screen.cursor}, bells {screen.bells}, renditions {screen.renditions}"


def look_in_words(look):
    heading = f"{look.id}: {look.title}, {look.glances} glances"
    return [heading, *folded("  ", look.question, 98), *drawn(look.expected), ""]


@pytest.mark.parametrize("case", CASES)
def test_each_look(case):
    script_id, profile_id = CASES[case]
    steps = compile_plan(load(profile_id), load_script(script_id)).steps
    looks = [step for step in steps if isinstance(step, Look) and not step.not_fitted]
    lines = [line for look in looks for line in look_in_words(look)]
    check(f"looks/{case}.txt", "\n".join(lines))
