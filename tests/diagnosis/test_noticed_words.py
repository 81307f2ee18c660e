"""What was noticed of the picture, and what is said where that is not understood."""

import pytest

from helpers.scripts import ECMA, SINGLE
from termprobe.diagnosis.dot_symptom import DotsNoticed
from termprobe.diagnosis.dot_symptom_words import DOT_EXAMPLES
from termprobe.diagnosis.noticed_words import read_noticed
from termprobe.errors import UsageError


def refused(words, profile=SINGLE):
    with pytest.raises(UsageError) as found:
        read_noticed(words, profile)
    return str(found.value)


@pytest.mark.parametrize("words", DOT_EXAMPLES)
def test_every_example_of_dots_is_understood(words):
    assert isinstance(read_noticed(words, SINGLE), DotsNoticed)


@pytest.mark.parametrize("profile", [SINGLE, ECMA], ids=["dots", "no dots"])
def test_what_is_not_modelled_is_understood_of_every_profile(profile):
    assert read_noticed("picture rolls", profile).name == "rolling picture"


@pytest.mark.parametrize("words", ["", "it is ugly", "dot column 7 missing", "dot row x missing"])
def test_what_is_not_understood_is_answered_in_few_words(words):
    said = refused(words)
    assert said.startswith('--noticed must be words such as "left dot column missing", "cursor')
    assert f'not "{words}"' in said and "`termprobe explain --words` prints all" in said
    assert len(said) < 240


@pytest.mark.parametrize(
    "words, near",
    [
        ("left dot colum missing", "left dot column missing"),
        ("secnd dot row doubeld", "second dot row doubled"),
        ("flikering", "flickering"),
        ("bell silnet", "bell silent"),
    ],
)
def test_the_nearest_is_named(words, near):
    assert f'; nearest is "{near}"' in refused(words)


def test_of_a_display_without_dots_others_are_named():
    said = refused("teering", ECMA)
    assert 'such as "rolling picture", "snow"' in said and 'nearest is "tearing"' in said
    assert "section dots" in refused("left dot column missing", ECMA)
