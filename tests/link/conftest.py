"""The far end of a pseudo-terminal, and pseudo-terminals treated as ports with a real line."""

import pytest

from helpers.lines import PtyBoard
from termprobe.link import local
from termprobe.link import open as opening


@pytest.fixture
def board():
    board = PtyBoard()
    yield board
    board.vanish()


@pytest.fixture
def as_real_port(monkeypatch):
    """Have pseudo-terminals treated as ports with a real line."""
    monkeypatch.setattr(local, "is_pty", lambda path: False)
    monkeypatch.setattr(opening, "is_pty", lambda path: False)
    monkeypatch.setattr(local, "_is_terminal_device", lambda path: True)
