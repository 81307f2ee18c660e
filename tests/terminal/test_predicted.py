"""What is offered to choose from."""

import pytest

from termprobe.terminal.predicted import Prediction, Predictions
from termprobe.terminal.screen import Screen

BLANK, DOT = Screen((" ",), (0, 0)), Screen((".",), (0, 0))


def test_what_is_offered_has_a_share_and_digests():
    first = Prediction("aa", BLANK, "the screen is blank", 0.5)
    second = Prediction("bb", DOT, ". all over the screen", 0.25)
    found = Predictions("look", (first, second))
    assert found.share == pytest.approx(0.75) and found.offered == ("aa", "bb")
