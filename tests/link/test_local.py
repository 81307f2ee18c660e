"""Devices of this computer: busy, forbidden, left behind by a program that was killed."""

import os
import subprocess
import sys

import pytest

from helpers.lines import as_user, holding, opened
from termprobe.errors import LinkBusyError, LinkDeniedError, LinkSettingsError
from termprobe.link.base import LineFormat


def test_a_port_that_is_open_is_busy_until_it_is_closed(board):
    first = opened(board.path)
    with pytest.raises(LinkBusyError, match="another program"):
        opened(board.path)
    first.close()
    opened(board.path).close()


def test_a_port_held_by_another_program_is_busy_and_names_it(board):
    locking = "f = open(sys.argv[1], 'rb+', buffering=0); fcntl.flock(f, 2)"
    with (
        holding(board.path, locking) as number,
        pytest.raises(LinkBusyError, match=f"process {number}"),
    ):
        opened(board.path)
    opened(board.path).close()


def test_a_real_port_in_use_without_a_lock_is_left_alone(board, as_real_port):
    with (
        holding(board.path, "os.open(sys.argv[1], os.O_RDWR | os.O_NOCTTY)") as number,
        pytest.raises(LinkBusyError, match=f"process {number}"),
    ):
        opened(board.path)


def test_a_program_that_was_killed_leaves_a_pseudo_terminal_usable(board):
    program = (
        "import os, sys\nfrom termprobe.clock import SystemClock\n"
        "from termprobe.link.base import LineFormat\nfrom termprobe.link.open import open_port\n"
        "link = open_port(sys.argv[1], LineFormat(), SystemClock())\nos.kill(os.getpid(), 9)"
    )
    assert subprocess.run([sys.executable, "-c", program, board.path], check=False).returncode == -9
    if os.geteuid() == 0:
        os.chown(board.path, 65534, -1)
    with as_user(65534):
        opened(board.path).close()


def test_without_permission_the_group_is_named(board):
    os.chmod(board.path, 0)
    with as_user(65534), pytest.raises(LinkDeniedError, match=r"usermod -aG \w+ "):
        opened(board.path)


def test_real_settings_that_the_driver_changes_silently_are_refused(board, as_real_port):
    """A Linux pseudo-terminal forces eight data bits without parity, as some drivers do."""
    with pytest.raises(LinkSettingsError, match="7E1"):
        opened(board.path, LineFormat(1200, 7, "even", 1))
    with pytest.raises(LinkSettingsError, match="parity|refuses"):
        opened(board.path, LineFormat(2400, 8, "odd", 1))


@pytest.mark.skipif(os.geteuid() != 0, reason="must become another user")
def test_a_real_port_is_shut_to_programs_that_ask_for_no_lock(board, as_real_port):
    os.chmod(board.path, 0o666)
    with opened(board.path), as_user(65534), pytest.raises(OSError, match="busy"):
        os.open(board.path, os.O_RDWR | os.O_NOCTTY)
