"""A board of which the keyboard alone is simulated sends what a whole board does."""

import dataclasses
import json

import pytest

from helpers.program import called
from termprobe.board.board import Board
from termprobe.board.faults.catalogue import keyboard_catalogue
from termprobe.board.keyboard_board import KeyboardBoard
from termprobe.board.link import SimLink
from termprobe.clock import CrankedClock
from termprobe.errors import UsageError
from termprobe.plan.presses import listed_presses
from termprobe.profile.load import load

WHOLE, ALONE = load("singlebyte-24x80"), load("ecma48-24x80")
FAULTS = (
    "",
    "key-matrix/key-bounces/q",
    "key-matrix/rows-bridged/3-5",
    "key-matrix/keys-swapped/a-z",
    "keyboard-code/swapped/0-6",
)


def heard(board):
    """Return what a host hears of every press, and of three keys at once, with the moments."""
    clock = CrankedClock()
    link, came = SimLink(board, clock), []
    for press in listed_presses(board.profile):
        board.press(press.key, frozenset(press.modifiers))
        came += [link.read(0.1), link.read(0.1)]
    board.chord(["q", "w", "s"])
    board.type("Hello")
    return [*came, link.read(0.5), link.read(0.5)]


@pytest.mark.parametrize("fault", FAULTS)
def test_it_sends_what_the_keyboard_of_a_whole_board_sends(fault):
    names = [fault] * bool(fault)
    found = heard(KeyboardBoard(WHOLE, names))
    assert found == heard(Board(WHOLE, names)) and any(
        one.data == b"q" for came in found for one in came
    )


def test_what_it_receives_shows_nowhere():
    board = KeyboardBoard(ALONE)
    SimLink(board, CrankedClock()).write(b"Hello")
    assert board.screen().rows == (" " * 80,) * 24 and not board.take_sent()


@pytest.mark.parametrize(
    "profile, fault",
    [
        (ALONE, "key-matrix/nope"),
        (ALONE, "keyboard-code/stuck/9/1"),
        (ALONE, "scroll/dead"),
        (dataclasses.replace(ALONE, keyboard=None), ""),
        (dataclasses.replace(ALONE, keyboard=None), "key-matrix/shift-dead"),
    ],
)
def test_what_cannot_be_simulated_is_refused(profile, fault):
    with pytest.raises(UsageError):
        KeyboardBoard(profile, [fault] * bool(fault))


@pytest.mark.parametrize(
    "fault, code", [("", 0), ("key-matrix/column-open/2", 1), ("key-matrix/diode-shorted/4-4", 1)]
)
def test_keys_walks_it_where_the_profile_has_no_circuit(tmp_path, fault, code):
    done = called(
        "keys",
        "--profile",
        ALONE.id,
        "--port",
        f"sim:{fault}",
        "--board",
        "x",
        "--chords",
        "--json",
        "--out",
        str(tmp_path),
    )
    document = json.loads(done.stdout)
    assert done.returncode == code and [fault] * bool(fault) == [
        name for suspect in document["suspects"][:1] for name in suspect["class"]
    ]


def test_its_faults_are_listed_and_chosen_at_random_for_practice(tmp_path):
    listed = called("sim", "--profile", ALONE.id, "--faults", "all")
    names = [
        line.split()[0]
        for line in listed.stdout.splitlines()
        if line[:1].strip() and "/" in line.split()[0]
    ]
    assert (
        listed.returncode == 0
        and names == list(keyboard_catalogue(ALONE))
        and "termprobe keys" in listed.stdout
    )
    done = called(
        "keys",
        "--profile",
        WHOLE.id,
        "--port",
        "sim:random",
        "--board",
        "x",
        "--json",
        "--out",
        str(tmp_path),
    )
    assert done.returncode in (0, 1) and json.loads(done.stdout)["verdict"] in ("pass", "fail")
