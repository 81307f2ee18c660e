"""What a profile is asked for by name."""

import pytest

from helpers.mistakes import IDS
from termprobe.profile.load import load


@pytest.mark.parametrize("name", IDS)
def test_commands_and_keys_are_found_by_their_names(name):
    profile = load(name)
    for command in profile.commands:
        assert profile.command(str(command.name)) is command
    for key in profile.keyboard.keys:
        assert profile.keyboard.key(str(key.name)) is key


def test_what_there_is_not_is_none():
    profile = load("singlebyte-24x80")
    assert profile.command("brew") is None
    assert profile.keyboard.key("coffee") is None


def test_records_are_equal_wherever_they_stood():
    profile = load("singlebyte-24x80")
    (command,) = [each for each in profile.commands if each.name == "bell"]
    assert command.place.line > 0
    assert command == type(command)("bell", command.bytes, "bell", command.source)
