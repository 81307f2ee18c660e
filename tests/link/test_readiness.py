"""Waiting for bytes and for room."""

import contextlib
import os
import socket

import pytest

from termprobe.link.readiness import has_room, is_hung_up, readable


@pytest.fixture
def pair():
    near, far = socket.socketpair()
    with near, far:
        near.setblocking(False)
        yield near, far


def test_only_what_has_bytes_is_readable(pair):
    near, far = pair
    assert readable([near, far], 0.0) == []
    far.send(b"x")
    assert readable([near, far]) == [near]


def test_there_is_room_until_nobody_takes(pair):
    near, far = pair
    assert has_room(near, far, 0.0)
    with contextlib.suppress(BlockingIOError):
        while True:
            near.send(bytes(4096))
    quiet, speaks = socket.socketpair()
    with quiet, speaks:
        assert not has_room(near, quiet, 0.01)
        speaks.send(b".")
        assert not has_room(near, quiet, 60.0), "and the canceller ends the wait"


def test_a_pseudo_terminal_is_hung_up_while_nobody_holds_it(board):
    assert is_hung_up(board.master)
    near = os.open(board.path, os.O_RDWR | os.O_NOCTTY)
    assert not is_hung_up(board.master)
    os.close(near)
    assert is_hung_up(board.master)
