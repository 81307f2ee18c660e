"""A key is held while text is sent: neither spoils the other, or that is told."""

from helpers.cabled_line import CabledInUse
from helpers.sending_board import sending
from termprobe.line.checks import CHECKS
from termprobe.link.base import Received

KEY = b"A" * 400


class Mixing(CabledInUse):
    """What comes while something is sent is mixed with it."""

    def send(self, data):
        super().send(data)
        self.is_spoiling = True

    is_spoiling = False

    def poll_events(self, wait_s=0.0):
        came = super().poll_events(wait_s)
        if not self.is_spoiling:
            return came
        return [Received(one.at_s, b"@" * len(one.data), one.error) for one in came]


def tried(data=KEY, line=CabledInUse, **more):
    made = sending("board-stops-xoff", data=data, line=line, **more)
    return CHECKS["both-ways"](made), made


def test_a_healthy_board_sends_its_key_alone_and_shows_the_text_whole():
    for seed in range(20):
        checked, line = tried(seed=seed)
        assert checked.is_right is True, seed
        assert checked.said.endswith('times "A" came, and nothing else')
        line.poll_events(0.1)
        assert line.board.screen().rows[0].strip() == "01 02 03 04 05 06 07 08 09 10"


def test_what_is_mixed_into_garbage_fails():
    checked, _ = tried(line=Mixing)
    assert checked.is_right is False and "are not" in checked.said


def test_without_a_key_that_is_held_nothing_is_said():
    assert tried(data=b"")[0].is_right is None
    assert "was let go" in tried(data=b"A")[0].said
