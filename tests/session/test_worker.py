"""The thread that owns line and run file: what it does for each request, and what it tells."""

import contextlib
import dataclasses
import queue

import pytest

from helpers.bench import HEADER
from helpers.bench_plan import CAUTION, PROFILE, look, plan, step, text
from helpers.foresights import STUCK, Foretold
from termprobe.board.board import Board
from termprobe.board.link import SimLink
from termprobe.clock import CrankedClock
from termprobe.errors import LinkLostError, LinkSettingsError, UsageError
from termprobe.journal.attention import AttentionChecked
from termprobe.journal.file import Journal
from termprobe.journal.records import (
    AS_EXPECTED,
    DIFFERS,
    Answer,
    Answered,
    CautionRead,
    Finished,
    Noted,
    OptionSet,
    Sent,
    StepBegun,
    Stopped,
    TakenBack,
)
from termprobe.link.base import LineFormat
from termprobe.plan.model import LineCheck
from termprobe.runner.asking import Hands
from termprobe.runner.course import SWITCHED_OFF
from termprobe.runner.run import Run
from termprobe.session.kept_line import RETRY_S
from termprobe.session.messages import (
    Acknowledge,
    Announce,
    BoardScreen,
    DecideFault,
    Judged,
    LoopEnded,
    Lost,
    Note,
    PressBoardKeys,
    PressHeard,
    PressKey,
    Prospected,
    ReadReport,
    RecordAnswer,
    Regained,
    ReportRead,
    Send,
    SendGroups,
    SetOption,
    Shown,
    StartLoop,
    StopLoop,
    TakeBack,
    Told,
    Trouble,
)
from termprobe.session.react.waveform import Loop
from termprobe.session.stage_left import SkipStage
from termprobe.session.worker import Worker

ONE, TWO = look("one", "screen", text("ONE")), look("two", "screen", text("TWO"))
YES = Answer(AS_EXPECTED, observer="builder")
LIMIT_S = 10.0


class Line:
    """Lines to one simulated board, which fail with `trouble` while there is some."""

    def __init__(self, board, clock):
        self.board, self.clock, self.trouble = board, clock, None

    def open(self, line=None):
        if self.trouble:
            raise self.trouble
        if line is not None and line.speed_baud > 19200:
            raise LinkSettingsError("the port refuses that speed")
        link = SimLink(self.board, self.clock, line)
        read = link.read

        def checked(wait_s):
            if self.trouble:
                raise self.trouble
            return read(wait_s)

        link.read = checked
        return link


class Bench:
    """A worker on a simulated board, a practice where `is_practice`; ended with the test."""

    def __init__(self, folder, *steps, is_practice=False, read_report=None, **of_run):
        self.clock, self.board, self.events = CrankedClock(), Board(PROFILE), queue.Queue()
        self.line = Line(self.board, self.clock)
        self.journal = Journal.create(folder / "a.run.jsonl", HEADER, self.clock)
        made = plan(*steps)
        self.worker = Worker(
            self.line.open(),
            lambda link, listener: Run(
                made, link, self.journal, self.clock, (), listener, **of_run
            ),
            self.line.open,
            self.events.put,
            self.clock,
            PROFILE,
            self.board if is_practice else None,
            read_report=read_report,
        )
        self.worker.start()

    def ask(self, *requests):
        for request in requests:
            self.worker.requests.put(request)

    def told(self, kind):
        """Return the next event of that class."""
        while True:
            event = self.events.get(timeout=LIMIT_S)
            if isinstance(event, kind):
                return event

    def end(self, reason="stopped by the builder"):
        self.worker.end(reason)

    def records(self, kind):
        """End, and return the records of that class that were written."""
        self.end()
        return [record for record in self.journal.records if isinstance(record, kind)]


@pytest.fixture(name="bench")
def _bench(tmp_path):
    """Return a function that gives a Bench on some steps."""
    with contextlib.ExitStack() as ends:

        def made(*steps, **options):
            bench = Bench(tmp_path, *steps, **options)
            ends.callback(bench.journal.close)
            ends.callback(bench.end)
            return bench

        yield made


def test_a_step_is_sent_and_its_answer_written_down_before_it_is_told(bench):
    on = bench(ONE, TWO)
    first = on.told(Judged)
    assert (first.step_id, first.next_id) == (None, "one")
    on.ask(Send("one"))
    assert on.told(Shown).step_id == "one" and on.board.screen().rows[0].startswith("ONE")
    on.ask(RecordAnswer("one", YES))
    news = on.told(Judged)
    assert (news.step_id, news.next_id, news.is_held) == ("one", "two", False)
    assert news.course.word("one") == "pass" and news.course.trail == ("one",)
    (record,) = on.records(Answered)
    assert (record.step, record.answer, record.hash) == ("one", YES, ONE.hash)


def test_a_reply_is_recorded_at_once_and_a_wrong_one_held(bench):
    on = bench(step("identity", "link", "reply", reply=b"\x1bX"), ONE)
    on.told(Judged)
    on.ask(Send("identity"))
    news = on.told(Judged)
    assert (news.step_id, news.next_id, news.is_held) == ("identity", "one", True)
    assert on.records(Answered)[0].answer.observer == "returned bytes"


def test_what_the_line_cannot_try_is_passed_by_and_not_held(bench):
    plug = step("plug", "link", "ask")
    check = LineCheck("bytes", "link", "Bytes", needs=("plug",), check="plug-bytes")
    on = bench(plug, check, ONE, hands=Hands(can_plug=False))
    on.told(Judged)
    on.ask(Send("plug"))
    news = on.told(Judged)
    assert (news.step_id, news.next_id, news.is_held) == ("plug", "bytes", False)
    on.ask(Send("bytes"))
    news = on.told(Judged)
    assert (news.next_id, news.is_held, news.course.word("bytes")) == ("one", False, "not-fitted")


def test_what_the_builder_says_besides_is_written_down(bench):
    on = bench(look("one", "screen", text("ONE"), caution=CAUTION), TWO)
    on.ask(Acknowledge("one"), SetOption("duplex", "half"), Note("warm", "two"), Note("begun"))
    on.ask(RecordAnswer("one", YES), TakeBack("one"))
    assert [on.told(Judged).next_id for _ in range(3)] == ["one", "two", "one"]
    assert [record.text for record in on.records(CautionRead)] == [CAUTION]
    assert [(record.option, record.position) for record in on.records(OptionSet)] == [
        ("duplex", "half")
    ]
    assert [(record.text, record.step) for record in on.records(Noted)] == [
        ("warm", "two"),
        ("begun", None),
    ]
    assert [record.step for record in on.records(TakenBack)] == ["one"]


def test_a_switch_that_was_set_is_moved_on_the_board_of_the_practice(bench, monkeypatch):
    half = step("half", "keyboard", "switch", option="duplex", position="half")
    on = bench(half, is_practice=True)
    moved = []
    monkeypatch.setattr(on.board, "set_option", lambda *words: moved.append(words))
    on.ask(RecordAnswer("half", YES), SetOption("duplex", "full"))
    assert len(on.records(OptionSet)) == 2 and moved == [("duplex", "half"), ("duplex", "full")]


WRONG = {
    "one": dataclasses.replace(ONE, id="attention/one", groups=look("", "", text("ANE")).groups)
}


def test_a_wrong_screen_is_answered_first_and_then_the_right_one_is_sent_by_itself(bench):
    on = bench(ONE, TWO, wrong_looks=WRONG)
    on.ask(Send("one"))
    on.told(Shown)
    assert on.board.screen().rows[0].startswith("ANE")
    on.ask(Send("one", 2.0), RecordAnswer("one", YES))
    on.told(Shown)
    assert on.told(Told).text.startswith("That was a check: the screen was wrong on purpose, and")
    assert on.told(Shown).step_id == "one" and on.board.screen().rows[0].startswith("ONE")
    on.ask(RecordAnswer("one", YES), Send("one"))
    assert on.told(Judged).course.word("one") == "pass"
    on.told(Shown)
    assert len(on.records(AttentionChecked)) == len(on.records(Answered)) == 1


def test_a_note_of_a_wrong_screen_is_marked_in_the_run_file(bench):
    on = bench(ONE, wrong_looks=WRONG)
    on.ask(Send("one"), Note("an A, not an O", "one"), Note("the lamp is on"))
    on.ask(RecordAnswer("one", YES), Note("now it is right", "one"))
    for _ in range(2):
        on.told(Shown)
    on.end()
    texts = [record.text for record in on.records(Noted)]
    assert texts[:2] == ["of a wrong screen shown on purpose: an A, not an O", "the lamp is on"]
    assert texts[2:] == ["now it is right"]


def test_a_wrong_screen_over_which_groups_were_played_is_no_check(bench):
    on = bench(ONE, wrong_looks=WRONG)
    on.ask(Send("one"), SendGroups(ONE.groups), RecordAnswer("one", YES))
    on.told(Shown)
    assert on.told(Judged).course.word("one") == "pass"
    assert not on.records(AttentionChecked)


def test_groups_are_sent_of_a_step_in_progress_alone(bench):
    on = bench(ONE)
    on.ask(SendGroups(ONE.groups[:1]), Send("one"), SendGroups(ONE.groups[1:]))
    on.told(Shown)
    assert [record.label for record in on.records(Sent)] == ["clear", 'text "ONE"', 'text "ONE"']


def test_a_press_of_the_practice_is_heard_and_a_step_that_is_none_is_not_pressed(bench):
    on = bench(step("press/q", "keys", "press"), ONE, is_practice=True)
    on.ask(PressKey("one"), Send("press/q"))
    on.told(Shown)
    on.ask(PressKey("press/q"))
    assert [event.data for event in on.told(PressHeard).events] == [b"q"]
    assert [record.step for record in on.records(StepBegun)] == ["press/q"]


def test_what_the_simulated_board_shows_and_cannot_type_is_told(bench):
    on = bench(ONE, is_practice=True)
    on.ask(Send("one"))
    on.told(Shown)
    assert on.told(BoardScreen).screen.rows[0].rstrip() == "ONE"
    on.ask(PressBoardKeys("\xff"))
    assert on.told(Told).text


def test_the_loop_ends_with_the_next_request_and_the_line_is_as_before(bench):
    on = bench(ONE)
    usual = on.line.open().format
    on.ask(StartLoop(Loop(b"U", LineFormat(1200, 7, "even", 1))), StopLoop())
    assert on.told(LoopEnded).format == usual
    on.ask(StartLoop(Loop(b"U", LineFormat(115200, 7, "even", 1))))
    ended = on.told(LoopEnded)
    assert (ended.characters, ended.format) == (0, usual)
    assert on.told(Told).text == "the port refuses that speed"
    assert on.worker.run_of_plan.link_format == usual


def test_a_line_that_is_lost_is_told_and_comes_back(bench):
    on = bench(ONE)
    on.line.trouble = LinkLostError("the adapter vanished")
    lost = on.told(Lost)
    assert (lost.text, lost.is_gone) == ("the adapter vanished", True)
    on.line.trouble = None
    on.clock.sleep_until(on.clock.now_s() + RETRY_S)
    assert on.told(Regained).text == "the line is back: sim:"


def test_the_last_record_says_how_it_ended(bench):
    on = bench(ONE)
    on.told(Judged)
    assert [record.reason for record in on.records(Stopped)] == ["stopped by the builder"]


def test_where_all_is_answered_the_run_is_finished(bench):
    on = bench(ONE)
    on.ask(RecordAnswer("one", YES))
    assert [record.verdict for record in on.records(Finished)] == ["pass"]


def test_nothing_is_sent_to_a_board_that_must_be_switched_off(bench):
    rule = {"stop_if": "the reading is outside", "unit": "V", "low": 4.75, "high": 5.25}
    on = bench(step("rail", "supplies", "measure", **rule), ONE)
    on.told(Judged)
    on.ask(Send("rail"), RecordAnswer("rail", Answer(value=5.5, observer="builder")))
    while on.told(Judged).course.danger() is None:
        pass
    loop = StartLoop(Loop(b"U", LineFormat(9600, 7, "even", 1)))
    for request in (Send("one"), SendGroups(ONE.groups), Announce(), loop):
        on.ask(request)
        assert "must be switched off" in on.told(Told).text
    on.ask(Send("rail"))
    assert on.told(Shown).step_id == "rail"
    assert on.records(Sent) == [] and on.records(Stopped)[0].reason == SWITCHED_OFF


def test_a_mistake_of_the_program_is_not_put_down_to_the_builder(bench):
    on = bench(ONE)
    on.told(Judged)
    on.ask(Send("no such step"))
    assert isinstance(on.told(Trouble).error, KeyError)
    (stopped,) = on.records(Stopped)
    assert stopped.reason == "the program failed: KeyError: 'no such step'"


def test_the_report_is_told_where_it_is_asked_for(bench):
    read_ = ReportRead("all of it")
    on = bench(ONE, read_report=lambda: read_)
    on.ask(ReadReport())
    assert on.told(ReportRead) == read_


def test_a_report_that_cannot_be_made_is_said(bench):
    def fails():
        raise UsageError("the run file is gone")

    on = bench(ONE, read_report=fails)
    on.ask(ReadReport())
    assert on.told(Told).text == "the run file is gone"


# -- a fault that is named -------------------------------------------------------------------------


def test_a_fault_is_named_and_from_its_decision_on_its_screens_are_asked_and_recorded(bench):
    shown = dataclasses.replace(TWO.expected, cursor=(5, 5))
    on = bench(ONE, TWO, look("three", "screen", text("TWO")), foresight=Foretold(three=shown))
    no = Answer(DIFFERS, observer="builder")
    on.ask(Send("one"), RecordAnswer("one", no), Send("two"), RecordAnswer("two", no))
    prospect = on.told(Prospected).prospect
    while prospect.named is None:
        prospect = on.told(Prospected).prospect
    on.ask(DecideFault(prospect.named.known(is_seen_by_eyes=True)))
    judged = on.told(Judged)
    while not judged.is_decided:
        judged = on.told(Judged)
    assert judged.next_id == "three" and judged.course.verdicts.verdict == "fail"
    on.ask(Send("three"), RecordAnswer("three", YES))
    assert on.told(Shown).step.expected.cursor == (5, 5)
    faults = [one.against and one.against.faults for one in on.records(Answered)]
    assert faults == [None, None, (STUCK,)]


def test_the_rest_of_a_stage_is_left_out_and_the_next_one_is_told(bench):
    on = bench(ONE, TWO, step("lamp", "end", "ask"))
    on.told(Judged)
    on.ask(SkipStage("one", "no tube"))
    news = on.told(Judged)
    assert (news.step_id, news.next_id, news.course.word("two")) == ("one", "lamp", "skipped")
    on.ask(RecordAnswer("two", Answer(AS_EXPECTED)))
    assert on.told(Judged).course.word("two") == "pass", "it can be come back to"
