"""The short form of each attack: what takes a second or two."""

import pytest

from .__main__ import PARTS, Request

COUNTS = {
    "parsers": 4,
    "extremes": 1,
    "content": 2,
    "big": 300,
    "run-files": 5,
    "kills": 2,
    "two": 2,
    "long": 1,
    "walk": 1,
    "names": 12,
    "lines": 1,
    "files": 1,
    "consoles": 1,
}


@pytest.mark.parametrize("name", COUNTS)
def test_nothing_fails(name, tmp_path, capsys):
    assert PARTS[name].attack(Request(2, COUNTS[name], str(tmp_path))) == 0, capsys.readouterr().out


def test_every_attack_has_a_short_form():
    assert set(COUNTS) == set(PARTS)
