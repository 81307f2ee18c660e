"""The line to the board, real or simulated."""

import pytest

from helpers.lines import PtyBoard, taken
from termprobe.board.board import Board
from termprobe.board.keyboard_board import KeyboardBoard
from termprobe.cli.opened_line import line_format, link_to, open_link
from termprobe.clock import CrankedClock, SystemClock
from termprobe.errors import LinkError, UsageError
from termprobe.link.base import LineFormat
from termprobe.profile.load import load

PROFILE, WITHOUT_CIRCUIT = load("singlebyte-24x80"), load("ecma48-24x80")
CLOCK = CrankedClock()


def test_the_format_is_the_profiles_but_for_the_speed_asked_for():
    assert line_format(PROFILE) == LineFormat(9600, 7, "even", 1)
    assert line_format(PROFILE, 300) == LineFormat(300, 7, "even", 1)


def test_a_simulated_board_has_the_fault_named_and_none_is_hidden():
    link, board, hidden = open_link("sim:decoder/dead/clear", PROFILE, CLOCK)
    assert link.name == "sim:decoder/dead/clear" and hidden == ""
    before = board.screen()
    link.write(b"\x1a")
    assert board.screen() == before
    assert open_link("sim:", PROFILE, CLOCK).board.profile is PROFILE


def test_a_practice_has_a_fault_that_its_name_does_not_tell_and_that_stays_the_same():
    opened = [open_link("sim:random", PROFILE, CLOCK, chance=chance) for chance in (1, 1, 2, 3, 4)]
    assert {link.name for link, _, _ in opened} == {"sim:"}
    faults = [hidden for _, _, hidden in opened]
    assert faults[0] == faults[1] != "" and len(set(faults)) > 1


def test_for_keys_a_keyboard_alone_will_do_and_faults_are_of_keys():
    assert isinstance(
        open_link("sim:", WITHOUT_CIRCUIT, CLOCK, is_of_keys=True).board, KeyboardBoard
    )
    assert isinstance(open_link("sim:", PROFILE, CLOCK, is_of_keys=True).board, Board)
    hidden = open_link("sim:random", PROFILE, CLOCK, chance=5, is_of_keys=True).hidden_fault
    assert hidden.split("/")[0] in ("key-matrix", "keyboard-code")


def test_a_link_to_the_same_board_can_have_another_format():
    link, board, _ = open_link("sim:", PROFILE, CLOCK)
    other = link_to(link.name, board, line_format(PROFILE, 300), CLOCK, PROFILE)
    assert (other.name, other.board, other.format.speed_baud) == ("sim:", board, 300)


def test_a_real_port_is_opened_by_its_name():
    far = PtyBoard()
    link, board, hidden = open_link(far.path, PROFILE, SystemClock(), 1200)
    assert (board, hidden, link.format.speed_baud) == (None, "", 1200)
    link.write(b"A")
    assert taken(far, 1) == b"A"
    link.close()
    far.vanish()


def test_what_cannot_be_opened_is_refused():
    with pytest.raises(LinkError, match="/dev/ttyNONE"):
        open_link("/dev/ttyNONE", PROFILE, SystemClock())
    with pytest.raises(UsageError, match="nearest is"):
        open_link("sim:decoder/ded/clear", PROFILE, CLOCK)
