"""Words for what no simulated fault explains: what is beside them is not read into them."""

import pytest

from termprobe.diagnosis.unmodelled_words import LONGEST, named_in


@pytest.mark.parametrize(
    "words", ["", "dot rows doubled", "roll-over of two keys", "text rolls off"]
)
def test_other_words_name_nothing(words):
    assert named_in(words) == ""


def test_what_stands_far_behind_is_not_read():
    assert named_in("x" * LONGEST + " snow") == "" and named_in("SNOW") == "snow"
