"""The short form of each attack: what takes a second or two."""

import contextlib
import signal

import pytest

from .__main__ import PARTS, Request, end_tidily
from .guarded import guarded

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


def test_one_that_is_ended_from_outside_lets_go_of_what_it_holds():
    before = signal.getsignal(signal.SIGTERM)
    let_go = []
    end_tidily()
    try:
        with pytest.raises(SystemExit) as end, contextlib.ExitStack() as held:
            held.callback(let_go.append, True)
            guarded(lambda: signal.raise_signal(signal.SIGTERM))
    finally:
        signal.signal(signal.SIGTERM, before)
    assert let_go and end.value.code == 128 + signal.SIGTERM
