"""A pseudo-terminal behind a symbolic link."""

import os

import pytest

from termprobe.board.pty_end import PtyEndpoint
from termprobe.errors import UsageError


def test_a_link_from_an_earlier_time_is_replaced_and_anything_else_is_not(tmp_path):
    path = tmp_path / "board"
    path.symlink_to("/nowhere")
    end = PtyEndpoint(str(path))
    assert os.readlink(path).startswith("/dev/")
    end.close()
    assert not os.path.lexists(path)
    path.write_text("precious")
    with pytest.raises(UsageError, match="neither"):
        PtyEndpoint(str(path))
    assert path.read_text() == "precious"
    with pytest.raises(UsageError, match="No such file"):
        PtyEndpoint(str(tmp_path / "no" / "folder"))
    assert sorted(entry.name for entry in tmp_path.iterdir()) == ["board"]


def test_a_link_that_another_sim_has_taken_over_is_left_to_it(tmp_path):
    path = str(tmp_path / "board")
    first, second = PtyEndpoint(path), PtyEndpoint(path)
    target = os.readlink(path)
    first.close()
    assert os.readlink(path) == target
    second.close()
    assert not os.path.lexists(path)
