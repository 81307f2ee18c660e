"""The screen as a file."""

from helpers.boards import PROFILE
from termprobe.board.board import Board
from termprobe.board.screen_file import ScreenFile
from termprobe.observer.dumped import read_dump


def test_the_screen_is_written_whole_and_only_when_it_has_changed(tmp_path):
    path = tmp_path / "screen"
    board, file = Board(PROFILE), ScreenFile(str(path))
    file.show(board.screen())
    assert path.read_text(encoding="utf-8").split("\n")[:24] == list(board.screen().rows)
    first = path.stat().st_ino
    file.show(board.screen())
    assert path.stat().st_ino == first
    board.receive(b"\x1a")
    file.show(board.screen())
    assert path.read_text(encoding="utf-8") == (" " * 80 + "\n") * 24 + "\fcursor: 0,0\n"
    assert [entry.name for entry in tmp_path.iterdir()] == ["screen"]


def test_a_dump_command_that_prints_the_file_tells_the_cursor(tmp_path):
    path = tmp_path / "screen"
    board = Board(PROFILE)
    board.receive(b"\x1aAB")
    ScreenFile(str(path)).show(board.screen())
    found = read_dump(path.read_text(encoding="utf-8"), 24, 80, "cat")
    assert (found.rows[0], found.cursor) == ("AB", (0, 2))
