"""What each look of the acceptance script must show, read by a person against its question."""

from itertools import groupby

import pytest

from helpers.golden import check
from helpers.scripts import acceptance
from termprobe.folding import folded
from termprobe.plan.model import Look
from termprobe.profile.load import load

pytestmark = pytest.mark.golden

PROFILES = ("ecma48-24x80", "singlebyte-24x80")


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


@pytest.mark.parametrize("profile_id", PROFILES)
def test_each_look_of_the_acceptance_script(profile_id):
    steps = acceptance(load(profile_id)).steps
    looks = [step for step in steps if isinstance(step, Look) and not step.not_fitted]
    lines = [line for look in looks for line in look_in_words(look)]
    check(f"looks/{profile_id}.txt", "\n".join(lines))
