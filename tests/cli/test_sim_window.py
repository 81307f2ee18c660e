"""Where the screen of a served board is shown."""

import pytest

from termprobe.board.base import TubePicture
from termprobe.cli.sim_window import NoWindow, shower, window_for
from termprobe.errors import UsageError

PICTURE = TubePicture(("HELLO",), (0, 5), 0)


def test_without_a_window_what_is_said_goes_to_standard_error(capsys):
    window = window_for("a board", False)
    assert isinstance(window, NoWindow)
    window.show(PICTURE)
    window.tick()
    window.say("no such key")
    window.close()
    told = capsys.readouterr()
    assert (told.out, told.err) == ("", "termprobe: no such key\n")


def test_a_window_is_wanted_where_there_is_none():
    with pytest.raises(UsageError, match="--show must have a window"):
        window_for("a board", True)


def test_a_file_is_written_beside_the_window(tmp_path):
    class Window(NoWindow):
        def show(self, picture):
            shown.append(picture)

    shown, path = [], tmp_path / "screen"
    shower(str(path), Window())(PICTURE)
    assert path.read_text() == "HELLO\n\fcursor: 0,5\n" and shown == [PICTURE]
