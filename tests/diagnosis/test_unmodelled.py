"""What is seen of a picture that no simulated fault explains, and where to look first."""

import json

import pytest

from helpers.paths import ROOT
from termprobe.diagnosis.area_words import AREA_EXAMPLES
from termprobe.diagnosis.dot_symptom_words import DOT_EXAMPLES
from termprobe.diagnosis.unmodelled import (
    OF_LINE,
    OF_TUBE,
    UNMODELLED,
    of_texts,
    unmodelled_in,
)
from termprobe.diagnosis.unmodelled_words import TOLD

STORIES = json.loads((ROOT / "tests/builders/told_stories.json").read_text(encoding="utf-8"))


@pytest.mark.parametrize(
    "words, name",
    [
        ("The picture rolls slowly upwards", "rolling picture"),
        ("the picture won't lock", "rolling picture"),
        ("out of sync", "rolling picture"),
        ("the top of the picture is sheared", "tearing"),
        ("letters smeared", "smeared"),
        ("ghosts to the right of each letter", "ghosting"),
        ("the cursor flickers", "flickering"),
        ("screen jitters sideways", "jitter"),
        ("verticals are wavy", "wavy"),
        ("two dark bars", "wavy"),
        ("bars drift up the screen", "wavy"),
        ("display very dim", "dim"),
        ("every character I type comes twice", "doubled letters"),
        ("double letters", "doubled letters"),
        ("snow over the whole picture", "snow"),
        ("picture tearing at the top", "tearing"),
        ("too wide", "too wide"),
        ("the picture is narrow", "too wide"),
        ("all shifted to the right", "shifted to the right"),
        ("one bright horizontal line", "picture collapsed to one line"),
        ("the cursor blinks too fast", "cursor blinks too fast"),
        ("cursor doesn\u2019t blink", "cursor blinks too fast"),
        ("only when it is warm", "comes and goes"),
    ],
)
def test_what_builders_write_is_understood(words, name):
    assert unmodelled_in(words).name == name


def test_every_symptom_is_told_by_its_own_name():
    assert [unmodelled_in(one.name) for one in UNMODELLED] == list(UNMODELLED)
    assert {one.name for one in UNMODELLED} == {name for name, _ in TOLD}


def test_no_words_of_what_is_modelled_are_taken():
    told = [word for one in STORIES for word in one["told"]]
    taken = [words for words in (*told, *DOT_EXAMPLES, *AREA_EXAMPLES) if unmodelled_in(words)]
    assert len(told) > 100 and taken == []
    for words in (
        "every letter has a bright line at the left",
        "a vertical line in every cell",
        "nothing shown except a flashing cursor",
        "upper half of each letter drawn twice",
    ):
        assert unmodelled_in(words) is None


def test_every_symptom_says_where_to_look_and_where_that_comes_from():
    for one in UNMODELLED:
        assert one.look_first and one.why.endswith(".") and one.source
        if any("monitor" in what for what in one.look_first[-1:]):
            assert one.cautions, one.name


def test_the_brightness_is_turned_down_before_anything_else():
    (collapsed,) = [one for one in UNMODELLED if "collapsed" in one.name]
    assert collapsed.cautions == (OF_LINE, OF_TUBE)


@pytest.mark.parametrize(
    ("sent", "seen", "is_it"),
    [
        (b"HELLO", b"HHEELLLLOO", True),
        (b"HI ", b"HHII", True),
        (b"HELLO", b"HELLO", False),
        (b"HELLO", b"HHEELLLLO", False),
        (b"A", b"AA", False),
    ],
)
def test_letters_that_come_twice_are_seen_by_the_texts(sent, seen, is_it):
    """One letter alone may be a key that bounces, or a cell beside it that shows the same."""
    found = of_texts([(b"OK", b"OK"), (sent, seen)])
    assert (found is not None) == is_it
    assert not is_it or (found.name, found.rather) == ("doubled letters", "")
