"""Characters drawn dot by dot, in signs and in half blocks, on wide and narrow consoles."""

from helpers.bench import look, screen_of
from termprobe.plan.dot_drawing import dots_in_text, draw_dots, enlarged_of, wrong_dots
from termprobe.terminal.dots import Enlarged
from termprobe.terminal.screen import Screen

L = Enlarged("L", ("#..", "#..", "###"))
I = Enlarged("|", (".#.", ".#."))  # noqa: E741


def test_each_stands_below_itself_as_high_as_it_is():
    assert draw_dots([L, I]) == ["L    |", "#..  .#.", "#..  .#.", "###"]
    assert dots_in_text([L]) == "L\n#..\n#..\n###"


def test_two_rows_of_dots_are_one_of_half_blocks():
    assert draw_dots([L], is_in_blocks=True) == ["L", "█", "▀▀▀"]
    both = Enlarged("x", (".#", "#.", "##", "##"))
    assert draw_dots([both], is_in_blocks=True) == ["x", "▄▀", "██"]


def test_what_has_no_room_beside_the_others_goes_below():
    wide, narrow = draw_dots([L] * 3, 15), draw_dots([L] * 3, 14)
    assert len(wide) == 4 and len(narrow) == 9
    assert max(map(len, narrow)) <= 14 and narrow[4] == ""
    assert draw_dots([L], 2)[0] == "L", "one is drawn at least"
    assert draw_dots([]) == []


def test_close_bands_have_no_blank_lines_between_them_nor_at_their_end():
    high = Enlarged("x", ("##", "..", "..", "..", "##", "..", "..", ".."))
    drawn = draw_dots([high] * 2, 3, is_in_blocks=True)
    assert drawn == ["x", "▀▀", "", "▀▀", "", "", "x", "▀▀", "", "▀▀", ""]
    close = draw_dots([high] * 2, 3, is_in_blocks=True, is_close=True)
    assert close == ["x", "▀▀", "", "▀▀", "x", "▀▀", "", "▀▀"]


def test_what_could_act_on_a_console_is_made_visible():
    assert draw_dots([Enlarged("\x1b", ("#",))])[0] != "\x1b"


WRONG = (("#", "#./.."), ("A", ".#/.#"), ("M", "##/##"), ("cursor", "missing"))


def test_of_what_is_wrong_that_which_is_asked_for_comes_first_then_letters():
    screen = Screen(("#AM",), None, misdrawn=WRONG)
    assert [one.character for one in wrong_dots(screen)] == ["A", "M", "#"]
    asked = [Enlarged("M", ("##",))]
    assert [one.character for one in wrong_dots(screen, asked)] == ["M", "A", "#"]
    assert wrong_dots(screen)[2].rows == ("#.",), "dark rows at the end are left out"


def test_a_step_without_dots_enlarges_nothing():
    assert enlarged_of(look("a")) == ()
    assert wrong_dots(screen_of("A")) == ()
