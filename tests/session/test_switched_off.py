"""What is refused while the board must be switched off."""

import pytest

from helpers.bench_plan import full_plan
from termprobe.journal.records import Answer, Answered
from termprobe.session.messages import Announce, Note, RecordAnswer, Send, SendGroups
from termprobe.session.switched_off import is_refused
from termprobe.verdict.judge import judge

OFF = judge(full_plan(), [Answered("supply-5v", Answer(value=5.5))])
ON = judge(full_plan(), [])


@pytest.mark.parametrize("request_", [Send("hello"), SendGroups(()), Announce()])
def test_whatever_would_send_is_refused_while_it_must_be_off_alone(request_):
    assert is_refused(request_, OFF) and not is_refused(request_, ON)


def test_the_step_that_says_so_and_what_is_written_down_are_not_refused():
    for request in (Send("supply-5v"), Note("x"), RecordAnswer("supply-5v", Answer(value=5.0))):
        assert not is_refused(request, OFF)
