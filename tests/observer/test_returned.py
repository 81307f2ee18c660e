"""Bytes that come back: replies of the board, and words typed on its own keyboard."""

import pytest

from helpers.bench_plan import step
from helpers.incoming import Incoming
from termprobe.journal.records import AS_EXPECTED, DIFFERS, SKIPPED, Answer
from termprobe.observer.base import BACK, STOP, Wish
from termprobe.observer.returned import MAX_BYTES, KeyboardObserver, ReplyObserver
from termprobe.plan.reply_form import ReplyForm

REPLY = step("r", "s", "reply", reply=b"ok")
TYPED = step("t", "s", "typed-back", word="HELLO")


def no_hand(step):
    """Do nothing; the bytes come by themselves."""


def test_where_nothing_comes_back_a_reply_differs_after_a_while():
    incoming = Incoming(b"")
    assert ReplyObserver(incoming).answer(REPLY) == Answer(DIFFERS, data=b"")
    assert 2 <= incoming.clock.now_s() < 3


def test_a_reply_followed_by_more_differs():
    assert ReplyObserver(Incoming(b"okk")).answer(REPLY) == Answer(DIFFERS, data=b"okk")


REPORT = step("r", "s", "reply", reply=b"\x1b[1c", form=ReplyForm(b"\x1b[", b"c"))


@pytest.mark.parametrize("data", [b"\x1b[1c", b"\x1b[?6c", b"\x1b[>0;276;0c", b"\x1b[?62;1;4;22c"])
def test_a_report_of_any_kind_of_device_is_right_and_kept(data):
    assert ReplyObserver(Incoming(data)).answer(REPORT) == Answer(AS_EXPECTED, data=data)


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"\x1b[c",  # no parameter: the request itself, as an echo would bring it
        b"\x1b[0c",
        b"\x1b[1n",
        b"\x1b[1c\x1b[1c",
        b"\x1b[!1c",  # an intermediate byte is none of its parameters
        b"x\x1b[1c",
        b"\x1b[1",
    ],
)
def test_what_is_no_report_differs(data):
    """ECMA-48 8.3.24: a parameter of 0 asks for the report, another is one; 5.4 for its form."""
    assert ReplyObserver(Incoming(data)).answer(REPORT) == Answer(DIFFERS, data=data)


def test_a_report_is_read_to_its_end_and_no_longer():
    data = b"\x1b[?62;1;4;22c"
    incoming = Incoming(data)
    ReplyObserver(incoming, limit_s=2.0).answer(REPORT)
    assert incoming.clock.now_s() == pytest.approx(2.0 * len(data) + 0.1)  # 2 s for each that comes


def test_a_board_that_never_stops_is_listened_to_no_further():
    incoming = Incoming(b"k" * (2 * MAX_BYTES))
    assert ReplyObserver(incoming).answer(REPLY) == Answer(DIFFERS, data=b"k" * MAX_BYTES)
    typed = KeyboardObserver(Incoming(b"k" * (2 * MAX_BYTES)), no_hand).answer(TYPED)
    assert typed == Answer(DIFFERS, data=b"k" * MAX_BYTES)


def test_a_reply_that_nobody_expects_is_not_claimed():
    assert not ReplyObserver(Incoming(b"")).can_answer(step("r", "s", "reply", not_fitted="no"))


def test_a_word_without_a_hand_is_not_claimed():
    assert not KeyboardObserver(Incoming(b"")).can_answer(TYPED)


@pytest.mark.parametrize("data", [b"", b"HELL"])
def test_a_machine_that_types_no_return_in_time_differs(data):
    incoming = Incoming(data)
    assert KeyboardObserver(incoming, no_hand).answer(TYPED) == Answer(DIFFERS, data=data)
    assert incoming.clock.now_s() <= 10


def test_a_mistyped_word_may_be_typed_again():
    incoming, asked = Incoming(b"HELP\rHELLO\r"), []
    observer = KeyboardObserver(incoming, no_hand, lambda step, data: asked.append(data))
    assert observer.answer(TYPED) == Answer(AS_EXPECTED, data=b"HELLO\r")
    assert asked == [b"HELP\r"]


def test_a_word_that_differs_for_good_keeps_bytes_and_remark():
    observer = KeyboardObserver(
        Incoming(b"HGLLO\r"), no_hand, lambda step, data: Answer(DIFFERS, note="twice")
    )
    assert observer.answer(TYPED) == Answer(DIFFERS, data=b"HGLLO\r", note="twice")


@pytest.mark.parametrize("said", [Answer(SKIPPED, note="no keyboard"), Wish(BACK)])
def test_what_else_a_person_says_of_a_mistyped_word_counts(said):
    observer = KeyboardObserver(Incoming(b"HGLLO\r"), no_hand, lambda step, data: said)
    assert observer.answer(TYPED) == said


def test_where_the_input_ends_before_the_word_is_typed_the_builder_stops():
    def hand(step):
        raise EOFError

    assert KeyboardObserver(Incoming(b""), hand).answer(TYPED) == Wish(STOP)
