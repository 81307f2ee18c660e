"""What was proved of a smallest set of presses, in words."""

import pytest

from termprobe.diagnosis.key_sets import Quick
from termprobe.report.key_set_words import proof_in_words

PRESSES, FAULTS = ("press/a", "press/q", "press/w"), ("one", "other")


@pytest.mark.parametrize(
    "quick, text",
    [
        (
            Quick(PRESSES, FAULTS, is_smallest=True, lower_bound=3, is_telling=False),
            "3 presses show all 2 faults of lines; no set of 2 does",
        ),
        (
            Quick(PRESSES, FAULTS, is_smallest=True, lower_bound=3, is_telling=True),
            "3 presses tell apart the 2 faults of lines; no set of 2 does",
        ),
        (
            Quick(PRESSES, FAULTS, is_smallest=False, lower_bound=2, is_telling=True),
            "3 presses tell apart the 2 faults of lines; at least 2 are needed",
        ),
    ],
)
def test_the_proof_says_no_more_than_was_proved(quick, text):
    assert proof_in_words(quick) == text
