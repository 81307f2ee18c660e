"""The screen of a board shown live in a window: whole, harmless, at a steady pace, put back."""

import io

import pyte
import pytest

from termprobe.board.base import TubePicture
from termprobe.board.live_screen import MIN_REDRAW_S, LiveScreen


class Window:
    """A window of `columns` x `rows` and a clock that stands still until it is moved."""

    def __init__(self, columns=90, rows=30):
        self.size, self.now_s, self.drawn = (columns, rows), 0.0, io.StringIO()
        self.screen = pyte.Screen(columns, rows)
        self.stream = pyte.Stream(self.screen)
        self.live = LiveScreen("a board", self.write, lambda: self.size, lambda: self.now_s)

    def write(self, text):
        self.drawn.write(text)
        self.stream.feed(text)

    def show(self, *rows, cursor=(0, 0), bells=0, misdrawn=None):
        self.live.show(TubePicture(rows, cursor, bells, misdrawn))

    @property
    def rows(self):
        return [row.rstrip() for row in self.screen.display]


def test_rows_and_cursor_stand_where_the_board_has_them():
    window = Window()
    window.show("HELLO".ljust(80), *[" " * 80] * 23, cursor=(0, 5))
    assert window.rows[0] == "HELLO" and (window.screen.cursor.y, window.screen.cursor.x) == (0, 5)
    assert "-- cursor row 0, column 5; Ctrl-C ends it; a board" in window.rows[24]
    assert not window.screen.cursor.hidden


def test_wrong_dots_are_named_below_the_screen():
    window = Window()
    window.show("AB", misdrawn=(("#", "#"), ("A", "#."), ("cursor", "missing")))
    assert "; wrong dots: A cursor #; Ctrl-C" in "".join(window.rows)
    window.now_s += 1
    window.show("AB", misdrawn=tuple((one, "#") for one in "ABCDEFGH"))
    assert "; wrong dots: A B C D E F ...; Ctrl-C" in "".join(window.rows)
    window.now_s += 1
    window.show("AB", misdrawn=())
    assert "wrong dots" not in "".join(window.rows)


def test_a_cursor_that_is_not_to_be_seen_is_hidden():
    window = Window()
    window.show("HELLO", cursor=(99, 99))
    assert window.screen.cursor.hidden and "cursor not on the screen" in "".join(window.rows)


def test_what_could_act_on_the_window_is_made_visible():
    window = Window()
    window.show("a\x1b[2Jb\x07\x9bc\u202ed\u4e00", cursor=(0, 0))
    assert window.rows[0] == "a?[2Jb??c?d?"
    body = window.drawn.getvalue()
    assert "\x07" not in body and "\x9b" not in body and "\u202e" not in body


def test_what_is_said_is_folded_into_the_room_below_and_goes_away_whole():
    window = Window(columns=30, rows=8)
    window.show("HELLO")
    assert window.rows[1:3] == ["-- cursor row 0, column 0;", "  Ctrl-C ends it; a board"]
    window.now_s += 1
    window.live.say("key must be one of grave, minus and escape, not esc:\n  TEXT  types it")
    assert window.rows[3:7] == [
        "key must be one of grave,",
        "  minus and escape, not esc:",
        "  TEXT  types it",
        "",
    ]
    window.now_s += 1
    window.live.say("short")
    assert window.rows[3:7] == ["short", "", "", ""]
    window.now_s += 1
    window.live.say("1\n2\n3\n4\n5\n6\n7")
    assert window.rows[3:] == ["1", "2", "3", "4", "5"]
    window.size, window.now_s = (0, 0), window.now_s + 1
    window.live.say("no room at all")


def test_it_is_drawn_at_most_so_often_and_the_last_is_never_lost():
    window = Window()
    window.show("1")
    drawn = window.drawn.tell()
    for text in "23":
        window.show(text)
        window.live.tick()
    assert window.drawn.tell() == drawn and window.rows[0] == "1"
    window.now_s = MIN_REDRAW_S
    window.live.tick()
    assert window.rows[0] == "3" and MIN_REDRAW_S >= 0.05
    drawn = window.drawn.tell()
    window.now_s = 9.0
    window.live.tick()
    assert window.drawn.tell() == drawn, "nothing has changed"


def test_what_was_typed_over_it_goes_away_with_the_next_drawing():
    window = Window()
    window.show("HELLO")
    window.stream.feed("\x1b[1;1Hecho\r\n")
    window.now_s = 1.0
    window.show("HELLO")
    assert window.rows[0] == "HELLO"


@pytest.mark.parametrize("size", [(40, 10), (80, 24), (1, 1)])
def test_a_window_that_is_too_small_shows_the_part_with_the_cursor_and_never_scrolls(size):
    window = Window(*size)
    rows = [f"{number:02}".ljust(80, "x") for number in range(24)]
    window.show(*rows, cursor=(23, 0))
    assert window.rows[size[1] - 1].startswith("23"[: size[0]])
    assert (window.screen.cursor.y, window.screen.cursor.x) == (size[1] - 1, 0)
    if size[1] == 24:
        assert window.rows[0].startswith("00")


def test_a_window_that_changes_its_size_is_drawn_anew():
    window = Window()
    window.show("HELLO")
    window.size, window.now_s = (60, 20), 1.0
    drawn = window.drawn.tell()
    window.live.tick()
    assert window.drawn.tell() > drawn


def test_what_there_is_to_be_said_stands_below_until_the_next_change():
    window = Window()
    window.show("HELLO")
    window.now_s = 1.0
    window.live.say("no such key\x1b")
    assert "no such key\\x1b" in "\n".join(window.rows)


def test_the_end_puts_the_window_back():
    window = Window()
    window.show("HELLO")
    window.live.close()
    text = window.drawn.getvalue()
    assert text.startswith("\x1b[?1049h") and text.endswith("\x1b[?7h\x1b[?25h\x1b[?1049l")
    window.live.close()
    assert window.drawn.getvalue() == text, "once is enough"


def test_an_end_within_the_first_drawing_puts_it_back_too():
    written = []

    def write(text):
        written.append(text)
        if len(written) == 1:
            raise KeyboardInterrupt

    live = LiveScreen("a board", write, lambda: (90, 30), lambda: 0.0)
    with pytest.raises(KeyboardInterrupt):
        live.show(TubePicture(("HELLO",), (0, 0), 0))
    live.close()
    assert written[-1].endswith("\x1b[?1049l")
