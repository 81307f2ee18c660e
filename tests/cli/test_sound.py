"""Bells are switched off on the command line."""

import argparse

import pytest

from termprobe.cli.sound import OF_LOOKS, OF_PRESSES, add_sound_argument


def muted(*words):
    parser = argparse.ArgumentParser()
    add_sound_argument(parser)
    return parser.parse_args(words).mute


def test_each_bell_is_muted_by_its_name_and_none_otherwise():
    assert muted() == []
    assert muted("--mute", "presses", "--mute", "looks") == [OF_PRESSES, OF_LOOKS]
    with pytest.raises(SystemExit):
        muted("--mute", "everything")
