"""What may be answered where pictures are offered."""

import pytest

from termprobe.diagnosis.error_rates import USUAL_RATES
from termprobe.diagnosis.picture_outlooks import (
    MOST_PICTURES,
    NONE,
    PASSED,
    offered_of,
    outlooks_of_pictures,
)
from termprobe.diagnosis.shown import AS_WANTED, Sight

CELLS = 100
SIGHTS = {f"fault {number}": Sight(50, False, False, f"p{number}") for number in range(10)}
SHARES = {f"fault {number}": 0.1 - number / 1000 for number in range(10)}


def test_the_most_probable_pictures_are_offered_and_none_that_is_right():
    sights = {**SIGHTS, "another": SIGHTS["fault 9"], "good": AS_WANTED}
    offered = offered_of(sights, {**SHARES, "another": 0.05, "good": 0.9})
    assert len(offered) == MOST_PICTURES and "p9" in offered and "" not in offered


def test_the_answers_to_each_cause_have_all_of_the_probability():
    found = outlooks_of_pictures(
        {**SIGHTS, "good": AS_WANTED}, {**SHARES, "good": 0.1}, CELLS, USUAL_RATES
    )
    for outlook in found.values():
        assert sum(outlook.values()) == pytest.approx(1)
    assert max(found["fault 0"], key=found["fault 0"].get) == "p0"
    assert max(found["fault 9"], key=found["fault 9"].get) == NONE
    assert max(found["good"], key=found["good"].get) == PASSED
