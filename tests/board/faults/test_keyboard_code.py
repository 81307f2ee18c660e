"""The lines of the keyboard's codes change the bits of every code and nothing else."""

import pytest

from helpers.keyboards import LISTED, NAMES, PROFILES, walk


@pytest.mark.parametrize("profile", PROFILES.values(), ids=NAMES)
def test_faults_of_code_lines_change_the_bits_of_every_code_and_nothing_else(profile):
    for line in range(7):
        for level in (0, 1):
            came = walk(profile, f"keyboard-code/stuck/{line}/{level}")
            for press in LISTED[profile.id]:
                expected = bytes(code & ~(1 << line) | level << line for code in press.code)
                assert came[press.id] == (expected,)
    came = walk(profile, "keyboard-code/swapped/0-1")
    assert (came["press/a"], came["press/b"], came["press/c"]) == ((b"b",), (b"a",), (b"c",))
    came = walk(profile, "keyboard-code/bridged/0-1/high")
    assert came["press/a"] == came["press/b"] == (b"c",)
    assert walk(profile, "keyboard-code/bridged/0-1/low")["press/a"] == (b"`",)
