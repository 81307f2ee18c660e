"""A run sends, asks and records a step at a time, and loses no step to a lost link or a crash."""

import pytest

from helpers.bench import FakeLink, Says, look, screen_of
from helpers.run_bench import RunBench
from termprobe.errors import LinkError, LinkLostError
from termprobe.journal.records import (
    AS_EXPECTED,
    DIFFERS,
    Answer,
    Answered,
    Arrived,
    LineGone,
    Linked,
    LinkUsed,
    Noted,
    Sent,
    SentLate,
    StepBegun,
    TakenBack,
)
from termprobe.observer.simulated_screen import SimulatedScreenObserver
from termprobe.plan.model import Group, Reply, TypedBack
from termprobe.report import words
from termprobe.runner.line_of_run import Demands
from termprobe.runner.run import Hands, Run
from termprobe.runner.told import LeftOpen
from termprobe.runner.walk import carry_out

YES, NO = Answer(AS_EXPECTED), Answer(DIFFERS)
ENQUIRY = (Group(b"\x05", "ENQ"),)
TYPED = TypedBack("t", "back", "Type", word="HELLO")


# -- sending ---------------------------------------------------------------------------------------


def test_slower_stretches_characters_and_pauses(tmp_path):
    bench = RunBench(tmp_path, look("a", groups=(Group(b"x" * 100, "text", 1.0),)))
    step, start_s = bench.plan.steps[0], bench.clock.now_s()
    bench.run.perform(step)
    took_s = bench.clock.now_s() - start_s
    assert took_s == pytest.approx(100 * 10 / 9600 + 1.0, abs=1e-6)
    bench.run.perform(step, 2.0)
    assert bench.clock.now_s() - start_s - took_s == pytest.approx(2 * took_s, rel=0.01)


def test_a_run_tells_how_its_sending_has_gone(tmp_path):
    bench = RunBench(tmp_path, look("a"))
    bench.run.perform(bench.plan.steps[0])
    assert bench.run.statistics.characters == len(b"\x1aHELLO")


def wait(clock, seconds):
    clock.sleep_until(clock.now_s() + seconds)
    return b""


def test_characters_that_a_busy_computer_sent_late_are_written_down(tmp_path):
    bench = RunBench(tmp_path, look("a", groups=(Group(b"x" * 80, "text"),)))
    bench.run.perform(bench.plan.steps[0])
    bench.run.end("stopped")
    assert bench.records(SentLate) == []
    bench.link.react = lambda data: wait(bench.clock, 0.02)  # eight characters need 8.3 ms
    bench.run.perform(bench.plan.steps[0])
    bench.run.end("stopped")
    (found,) = bench.records(SentLate)
    assert found.characters == 160 and 0 < found.late < 80 and found.worst_s > 0


def test_a_board_may_demand_a_pause_after_each_character(tmp_path):
    step = look("a", groups=(Group(b"x" * 10, "text"),))
    bench = RunBench(tmp_path, step, demands=Demands(gap_s=0.5))
    bench.run.perform(step)
    assert bench.clock.now_s() == pytest.approx(10 * (10 / 9600 + 0.5))


def test_a_continuing_step_is_sent_alone_after_its_predecessor_and_with_it_elsewhere(tmp_path):
    more = look("b", groups=(Group(b"!", "text"),), continues=True)
    bench = RunBench(tmp_path, look("a"), more)
    a, b = bench.plan.steps
    bench.run.perform(a)
    bench.run.perform(b)
    assert bench.sent() == b"\x1aHELLO!"
    bench.run.perform(b)  # the screen shows b already, so the way there is made again
    assert bench.sent() == b"\x1aHELLO!\x1aHELLO!"


def test_where_somebody_else_wrote_on_the_screen_the_way_to_a_step_is_sent_again(tmp_path):
    more = look("b", groups=(Group(b"!", "text"),), continues=True)
    bench = RunBench(tmp_path, look("a"), more)
    a, b = bench.plan.steps
    bench.run.perform(a)
    bench.run.forget_screen()
    bench.run.perform(b)
    assert bench.sent() == b"\x1aHELLO\x1aHELLO!"


# -- what comes back -------------------------------------------------------------------------------


def test_what_returns_belongs_to_the_step_in_progress(tmp_path):
    bench = RunBench(tmp_path, look("a"), react=lambda data: b"\x06" * (data == b"HELLO"))
    bench.run.perform(bench.plan.steps[0])
    assert bench.run.data == b"\x06"
    bench.link.waiting = b"k"
    assert bench.run.poll() == b"k" and bench.run.data == b"\x06k"
    assert [(one.step, one.data) for one in bench.records(Arrived)] == [
        ("a", b"\x06"),
        ("a", b"k"),
    ]


def test_what_came_before_a_step_belongs_to_the_one_before_and_is_handed_over(tmp_path):
    bench = RunBench(tmp_path, look("a"), look("b"))
    a, b = bench.plan.steps
    bench.link.waiting = b"x"
    assert [event.data for event in bench.run.begin(a)] == [b"x"]
    bench.link.waiting = b"y"
    assert [event.data for event in bench.run.begin(b)] == [b"y"] and bench.run.data == b""
    assert [(one.step, one.data) for one in bench.records(Arrived)] == [(None, b"x"), ("a", b"y")]


def test_replies_and_typed_words_are_judged_by_the_bytes(tmp_path):
    reply = Reply("r", "back", "Reply", groups=ENQUIRY, reply=b"ok\r")
    bench = RunBench(
        tmp_path,
        reply,
        TYPED,
        react=lambda data: b"ok\r" * (data == b"\x05"),
        hands=Hands(type_word=lambda step: setattr(bench.link, "waiting", b"HGLLO\r")),
    )
    assert carry_out(bench.run) is True
    assert bench.verdicts() == ["pass", "fail"]
    assert words.evidence(bench.run.verdicts().steps[1]) == (
        "1 of 6 characters differ; bit 1 arrives as 1",
    )


class Reader(Says):
    """A person who is told of each word that came back wrong, and types it anew."""

    def __init__(self):
        super().__init__()
        self.wrong = []

    def acknowledge(self, text):
        return None

    def switch_off(self, step):
        return True

    def typed(self, step, data):
        self.wrong.append(data)


def test_a_person_is_asked_what_is_to_become_of_a_word_that_came_back_wrong(tmp_path):
    words_typed = iter([b"HGLLO\r", b"HELLO\r"])
    reader = Reader()
    bench = RunBench(
        tmp_path,
        TYPED,
        observers=[reader],
        hands=Hands(type_word=lambda step: setattr(bench.link, "waiting", next(words_typed))),
    )
    carry_out(bench.run)
    assert reader.wrong == [b"HGLLO\r"] and bench.verdicts() == ["pass"]


def test_a_typed_word_without_a_hand_stays_unanswered(tmp_path):
    bench = RunBench(tmp_path, TYPED, observers=[Says()])
    carry_out(bench.run)
    assert bench.verdicts() == ["unanswered"]


def test_a_missing_reply_takes_limited_time_and_says_nothing_of_a_board_that_never_sent(tmp_path):
    bench = RunBench(tmp_path, Reply("r", "back", "Reply", groups=ENQUIRY, reply=b"ok"))
    carry_out(bench.run)
    assert bench.verdicts() == ["blocked"] and bench.clock.now_s() < 5
    assert "not nothing" in words.reason(bench.run.verdicts().steps[0])


def test_bells_count_from_the_fresh_screen_also_over_continuing_steps(tmp_path):
    bell = look("a", groups=(Group(b"\x1a\x07", "bell"),), expected=screen_of(bells=1))
    more = look("b", groups=(Group(b"\x07", "bell"),), expected=screen_of(bells=2), continues=True)
    bench = RunBench(tmp_path, bell, more)
    screen = SimulatedScreenObserver(lambda: screen_of(bells=5 + bench.sent().count(b"\x07")))
    bench.run = bench.new_run(screen)
    carry_out(bench.run)
    assert bench.verdicts() == ["pass", "pass"]


# -- a lost link -----------------------------------------------------------------------------------


def test_a_link_that_is_lost_before_the_first_step_belongs_to_none(tmp_path):
    bench = RunBench(tmp_path, look("a"), observers=[Says()])
    bench.link.trouble = LinkLostError("fake: the port vanished")
    with pytest.raises(LinkError):
        carry_out(bench.run)
    (gone,) = bench.records(LineGone)
    assert (gone.reason, gone.step) == ("fake: the port vanished", None)


def test_lost_link_is_noted_and_the_step_goes_on_over_another(tmp_path):
    bench = RunBench(tmp_path, look("a"), look("b"), observers=[Says()])
    bench.run.perform(bench.plan.steps[0])
    bench.run.record(bench.plan.steps[0], YES)
    bench.link.trouble = LinkLostError("fake: the port vanished")
    with pytest.raises(LinkError):
        carry_out(bench.run)
    assert bench.records(LineGone)[-1].reason == "fake: the port vanished"
    assert bench.told(LineGone)[-1] == bench.records(LineGone)[-1]
    fresh = FakeLink(bench.clock, name="other:", note="its speed is rounded")
    bench.run.relink(fresh)
    assert carry_out(bench.run) is True
    assert bench.verdicts() == ["pass", "pass"] and b"".join(fresh.written) == b"\x1aHELLO"
    assert [record.link for record in bench.records(Linked)] == [
        LinkUsed("other:", "9600 baud 7E1", "its speed is rounded")
    ]


def test_after_a_lost_link_the_screen_is_unknown(tmp_path):
    more = look("b", groups=(Group(b"!", "text"),), continues=True)
    bench = RunBench(tmp_path, look("a"), more)
    a, b = bench.plan.steps
    bench.run.perform(a)
    bench.link.trouble = LinkLostError("gone")
    with pytest.raises(LinkError):
        bench.run.poll()
    bench.link.trouble = None
    bench.run.perform(b)
    assert bench.sent() == b"\x1aHELLO\x1aHELLO!"


# -- what goes into the run file -------------------------------------------------------------------


def test_each_record_is_told_once_it_is_in_the_run_file(tmp_path):
    bench, told = RunBench(tmp_path, look("a")), []

    def hear(event):
        assert bench.records(object)[-1] == event
        told.append(event)

    run = Run(bench.plan, bench.link, bench.journal, bench.clock, [], hear)
    step = bench.plan.steps[0]
    run.perform(step)
    run.note("dim")
    run.record(step, YES)
    run.take_back(step)
    assert [type(one) for one in told] == [StepBegun, Sent, Sent, Noted, Answered, TakenBack]
    assert [one.seq for one in told] == [1, 2, 3, 4, 5, 6]


def test_what_says_nothing_of_a_step_is_no_answer(tmp_path):
    bench = RunBench(tmp_path, look("a"))
    for answer in (Answer(note="x"), Answer(), Answer(seen=("HELLO",), cursor=(0, 5))):
        with pytest.raises(ValueError, match="must have a word, a value or bytes"):
            bench.run.record(bench.plan.steps[0], answer)
    assert not bench.records(Answered)


def test_an_answer_taken_back_counts_no_more(tmp_path):
    bench = RunBench(tmp_path, look("a"))
    step = bench.plan.steps[0]
    bench.run.record(step, NO)
    assert bench.verdicts() == ["fail"]
    bench.run.take_back(step)
    assert bench.verdicts() == ["unanswered"] and bench.run.course.next_step() is step


def test_a_step_left_open_is_told_and_waits_for_the_next_sitting(tmp_path):
    bench = RunBench(tmp_path, look("a"))
    step = bench.plan.steps[0]
    bench.run.leave_open(step)
    assert bench.events == [LeftOpen(step)]
    assert bench.run.course.next_step() is None and bench.verdicts() == ["unanswered"]
    bench.run.record(step, YES)
    bench.run.take_back(step)  # an answer ends that it was left open
    assert bench.run.course.next_step() is step
