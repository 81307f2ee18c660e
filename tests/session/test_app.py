"""The full-screen session held headless.

Keys come by a pipe, a simulated board is on the line, a screen model reads the console back.
"""

import dataclasses
import os
import signal

import pytest

from helpers.bench_plan import PROFILE, full_plan, look, plan, step, text
from helpers.console import DOWN, INTERRUPT, LEFT, RIGHT, Console, hold
from termprobe.board.board import Board
from termprobe.board.link import SimLink
from termprobe.clock import SystemClock
from termprobe.errors import JournalError, LinkError, LinkLostError
from termprobe.journal.file import Journal
from termprobe.journal.reading import read
from termprobe.journal.records import (
    Answered,
    BoardUnderTest,
    CautionRead,
    Finished,
    Header,
    LineGone,
    Linked,
    Noted,
    OptionSet,
    Resumed,
    Sent,
    Stopped,
)
from termprobe.runner.run import Run
from termprobe.session.app import Session
from termprobe.session.mode import ModeKey
from termprobe.session.mode_table import MODES
from termprobe.session.modes.look import MODE as LOOK
from termprobe.session.opening import first_state
from termprobe.session.react import answering
from termprobe.session.worker import Worker
from termprobe.verdict.judge import judge

POSITIONS = {"line": "on-line", "duplex": "full"}
BOARD = BoardUnderTest("0007", "B")


@pytest.fixture(autouse=True)
def no_guard(monkeypatch):
    """The builder of these tests answers as soon as the screen is there."""
    monkeypatch.setattr(answering, "TOO_SOON_S", 0.0)


class Bench:
    """A simulated board on the line, a run file, and the session on both."""

    def __init__(self, folder, made_plan, fault=None, is_practice=False, resume=False, changed=()):
        self.plan, self.clock = made_plan, SystemClock()
        self.path = folder / "0007.run.jsonl"
        if resume:
            self.journal = Journal.reopen(self.path, self.clock)
        else:
            header = Header(BOARD, plan_hash=made_plan.hash)
            self.journal = Journal.create(self.path, header, self.clock)
        self.board = Board(PROFILE, [fault] if fault else [])
        self.link = SimLink(self.board, self.clock)
        self.unplugged = None
        """The error that the line gives while the adapter is out."""
        self.is_practice, self.changed = is_practice, changed
        self.worker = None

    def open_line(self, line_format):
        if self.unplugged:
            raise self.unplugged
        link = SimLink(self.board, self.clock, line_format)
        self._break(link)
        return link

    def _break(self, link):
        write, read_ = link.write, link.read

        def broken(call):
            def checked(*arguments):
                if self.unplugged:
                    raise self.unplugged
                return call(*arguments)

            return checked

        link.write, link.read = broken(write), broken(read_)

    def session(self, pipe, output):
        self._break(self.link)

        def new_worker(post):
            self.worker = Worker(
                self.link,
                lambda link, listener: Run(
                    self.plan, link, self.journal, self.clock, [], listener, positions=POSITIONS
                ),
                self.open_line,
                post,
                self.clock,
                PROFILE,
                self.board if self.is_practice else None,
            )
            return self.worker

        state = first_state(
            self.plan,
            PROFILE,
            self.link.format,
            BOARD,
            "sim:",
            self.journal.records,
            self.changed,
            self.is_practice or None,
            self.path,
            POSITIONS,
            ("The hidden fault was a made-up one.",),
        )
        return Session(state, new_worker, self.clock, pipe, output)

    def hold(self, builder, console=None):
        try:
            return hold(self.session, builder, console or Console())
        finally:
            self.journal.close()

    def records(self, kind):
        recording = read(self.path)
        assert not recording.damages
        return [record for record in recording.records if isinstance(record, kind)]

    def verdicts(self):
        return {found.id: found.verdict for found in self.judged()}

    def judged(self):
        return judge(self.plan, read(self.path).records).steps


def two_looks():
    return plan(
        look("first", "screen", text("ONE")),
        look("second", "screen", text("TWO")),
        look("third", "screen", text("THREE")),
    )


def test_a_whole_session_with_every_kind_of_step(tmp_path):
    bench = Bench(tmp_path, full_plan())

    def builder(console):
        console.wait("9 steps in 4 stages", "Press enter to begin")
        console.press("\r", "CAUTION", "Mains and the tube")
        console.press("\r", "It must read 4.75 to 5.25 V", "enter type reading")
        console.press("5.04", "+ 5.04 V is within")
        console.press("\r", "- Look at hello", "y as expected")
        assert bench.board.screen().rows[0].startswith("HELLO"), "the board shows what is asked for"
        console.press("y", "- Look at more", "y as expected")
        assert bench.board.screen().rows[1].startswith("WORLD"), (
            "the screen goes on from the step before"
        )
        console.press("y", "- Look at corners", "y as expected")
        console.press("y", "- Look at solid", "y as expected")
        console.press("y", "Set duplex to half.")
        console.press("y", "Set duplex to full.")
        console.press("y", "came    · · · ·", "x type anew")
        bench.board.type("an")
        console.wait("came    a n · ·", "2 of 4 right")
        bench.board.type("y\r")
        console.wait("The board's keyboard has proven y and n.")
        while "ANSWER ON THIS KEYBOARD" not in bench.board.screen().rows[0]:
            console.wait("proven")
        bench.board.type("y")
        console.wait("- Look at bell", "answer here or on the board's own keyboard")
        bench.board.type("n")
        console.wait("Is the lamp lit?", "y yes")
        console.press("y", "Every step has its verdict: 8 pass, 1 fail", "Look at bell")
        console.press("q")

    assert bench.hold(builder) is False
    assert bench.verdicts() == {**{one.id: "pass" for one in full_plan().steps}, "bell": "fail"}
    assert [record.answer.observer for record in bench.records(Answered)][-4:] == [
        "builder",
        "board keyboard",
        "board keyboard",
        "builder",
    ]
    assert [(record.option, record.position) for record in bench.records(OptionSet)] == [
        ("duplex", "half"),
        ("duplex", "full"),
    ]
    assert len(bench.records(CautionRead)) == 1 and len(bench.records(Finished)) == 1


def test_what_was_seen_is_marked_and_typed_on_the_expected_screen(tmp_path):
    bench = Bench(tmp_path, two_looks())

    def builder(console):
        console.press("\r", "- Look at first", "y as expected")
        console.press("n", "at row 0, column 0; marked: nothing yet")
        console.press("t", "Characters seen from row 0, column 0 on")
        console.press("ANE\r", "marked: row 0 column 0")
        console.press(DOWN + DOWN + RIGHT + " ", "marked: row 0 column 0; row 2 column 4")
        console.press("+", "What differs, in words")
        console.press("a dot\r", 'remark "a dot"')
        console.press("\r", "- Look at second")

    bench.hold(builder)
    (record,) = bench.records(Answered)
    answer = record.answer
    assert answer.word == "differs" and answer.note == "a dot"
    assert answer.seen[0].rstrip() == "ANE" and answer.seen[2][4] == "\ufffd"
    (first, _, _) = bench.judged()
    assert first.verdict == "fail" and [found[:2] for found in first.differs] == [(0, 0), (2, 4)]


def test_repeat_slower_skip_dispute_back_and_answer_again(tmp_path):
    bench = Bench(tmp_path, two_looks())

    def builder(console):
        console.press("\r", "- Look at first", "y as expected")
        console.press("r", "* sent again", "y as expected")
        console.press("l", "each character takes 2 times as long", "y as expected")
        console.press("u", "- Look at second", "y as expected")
        console.press("b", "- Look at first", "answered before: unsure", "ready")
        console.press("y", "- Look at second", "y as expected")
        console.press("s", "Why skip the step")
        console.press("\r", "must be told")
        console.press("no screen fitted\r", "- Look at third", "ready")
        console.press("d", "What is wrong with the expectation")
        console.press("the manual says so\r", "Every step has its verdict")

    bench.hold(builder)
    assert bench.verdicts() == {"first": "pass", "second": "skipped", "third": "disputed"}
    assert [(record.step, record.answer.word) for record in bench.records(Answered)] == [
        ("first", "unsure"),
        ("first", "as-expected"),
        ("second", "skipped"),
        ("third", "disputed"),
    ], "both answers are kept"


def test_jumping_pausing_and_notes(tmp_path):
    bench = Bench(tmp_path, two_looks())

    def builder(console):
        console.press("\r", "- Look at first", "y as expected")
        console.press("j" + DOWN + DOWN, " > . unanswered Look at third")
        console.press("\r", "stage 1 of 1: Screen - Look at third", "ready")
        console.press("p", "Paused.")
        console.press("p", "y as expected")
        console.press("+", "Note (@FILE: photo):")
        console.press("tube warm\r", "* noted")
        console.press("y", "- Look at first", "y as expected")
        console.press("q", "Stop the session?")
        console.press("n", "y as expected")
        console.press("qy")

    assert bench.hold(builder) is False
    assert [record.text for record in bench.records(Noted)] == [
        "paused",
        "pause ended",
        "tube warm",
    ]
    assert bench.verdicts() == {"first": "unanswered", "second": "unanswered", "third": "pass"}
    assert bench.records(Stopped)[-1].reason == "stopped by the builder"


def test_an_interrupt_ends_at_once_with_a_valid_run_file_and_breaks_a_long_send_off(tmp_path):
    bench = Bench(tmp_path, plan(look("long", "screen", text("*" * 1900))))

    def builder(console):
        console.press("\r", ">> sending")
        console.press(INTERRUPT)

    assert bench.hold(builder) is True
    assert bench.records(Stopped)[-1].reason == "interrupted"
    assert not bench.records(LineGone), "stopping is no fault of the line"


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM, signal.SIGHUP])
def test_a_signal_ends_it_as_an_interrupt_does(tmp_path, number):
    bench = Bench(tmp_path, plan(look("long", "screen", text("*" * 1900))))

    def builder(console):
        console.press("\r", ">> sending")
        os.kill(os.getpid(), number)
        bench.worker.join(10)

    assert bench.hold(builder) is True
    assert bench.records(Stopped)[-1].reason == "interrupted"


def test_an_answer_that_was_given_right_before_the_end_is_in_the_run_file(tmp_path):
    bench = Bench(tmp_path, two_looks())

    def builder(console):
        console.press("\r", "- Look at first", "y as expected")
        console.press("y" + INTERRUPT)

    assert bench.hold(builder) is True
    assert bench.verdicts()["first"] == "pass"


@pytest.mark.parametrize("where", ["key", "event", "drawing"])
def test_a_mistake_in_the_session_ends_it_with_a_valid_run_file(tmp_path, monkeypatch, where):
    bench = Bench(tmp_path, two_looks())

    def broken(*arguments):
        raise ZeroDivisionError("made for the test")

    def builder(console):
        console.press("\r", "- Look at first", "y as expected")
        if where == "key":
            keys = (ModeKey("u", broken, "", ""), *LOOK.keys)
            monkeypatch.setitem(MODES, "look", dataclasses.replace(LOOK, keys=keys))
        elif where == "event":
            monkeypatch.setattr("termprobe.session.react.hearing.hear", broken)
        else:
            monkeypatch.setattr("termprobe.session.app.draw_console", broken)
        console.pipe.send_text("u")
        bench.worker.join(10)

    with pytest.raises(ZeroDivisionError):
        bench.hold(builder)
    assert read(bench.path).damages == ()
    (stopped,) = bench.records(Stopped)
    assert stopped.reason == "the program failed: ZeroDivisionError: made for the test"


def test_a_full_disk_ends_the_session_loudly(tmp_path):
    bench = Bench(tmp_path, two_looks())

    def builder(console):
        console.press("\r", "- Look at first", "y as expected")

        def full(*arguments, **fields):
            raise JournalError("the disk must take the run file, but it is full")

        bench.journal.append = full
        console.pipe.send_text("y")
        bench.worker.join(10)

    with pytest.raises(JournalError):
        bench.hold(builder)


def test_unplugging_pauses_and_replugging_goes_on_without_losing_a_step(tmp_path):
    bench = Bench(tmp_path, two_looks())

    def builder(console):
        console.press("\r", "- Look at first", "y as expected")
        console.press("y", "- Look at second", "y as expected")
        bench.unplugged = LinkLostError("/dev/made-up: the adapter vanished")
        console.wait("THE LINE IS GONE", "the adapter vanished", "GONE", "goes on by itself")
        bench.board.power_up()
        bench.unplugged = None
        console.wait("- Look at second", "the line is back", "ready")
        assert bench.board.screen().rows[0].startswith("TWO"), "the step was sent again"
        console.press("y", "- Look at third", "y as expected")
        console.press("y", "Every step has its verdict: 3 pass")

    bench.hold(builder)
    assert set(bench.verdicts().values()) == {"pass"}
    assert len(bench.records(LineGone)) == 1 and len(bench.records(Linked)) == 1


def test_a_line_that_is_held_is_told_and_tried_again_by_a_key(tmp_path):
    bench = Bench(tmp_path, two_looks())

    def builder(console):
        console.press("\r", "- Look at first", "y as expected")
        bench.unplugged = LinkError("the board holds the line")
        console.wait("TROUBLE WITH THE LINE", "the board holds the line")
        bench.unplugged = None
        console.press("\r", "- Look at first", "ready")
        console.press("y", "- Look at second")

    bench.hold(builder)
    assert bench.verdicts()["first"] == "pass"
    assert len(bench.records(LineGone)) == 1, "trouble that lasts is written down once"


def test_resuming_goes_on_at_the_first_step_that_waits_and_says_what_changed(tmp_path):
    bench = Bench(tmp_path, two_looks())
    bench.hold(
        lambda console: (
            console.press("\r", "- Look at first", "y as expected"),
            console.press("y", "- Look at second"),
        )
    )
    edited = two_looks()
    changed = dataclasses.replace(edited.steps[0], question="Another question?", hash="another")
    again = Bench(
        tmp_path,
        dataclasses.replace(edited, steps=(changed, *edited.steps[1:])),
        resume=True,
        changed=("first", "third"),
    )

    def builder(console):
        console.wait(
            "The run goes on: 0 of 3 steps have an answer already.",
            "Profile or script was edited since.",
            "they are asked again: Look at first.",
            "not answered yet: Look at third.",
        )
        console.press("\r", "Another question?", "y as expected")
        console.press("y", "- Look at second")

    again.hold(builder)
    assert again.records(Resumed)


def test_playing_a_step_shows_after_each_group_what_the_board_must_show(tmp_path):
    bench = Bench(tmp_path, full_plan(), is_practice=True)

    def builder(console):
        console.press("\r", "CAUTION")
        console.press("j" + DOWN * 3, "> ")
        console.press("\r", "stage 2 of 4: Screen - Look at corners", "ready")
        console.press("t", "group 0 of 7", "next: clear 1A: SUB")
        for count in range(1, 8):
            console.press(RIGHT, f"group {count} of 7")
            at_s = bench.clock.now_s() + 5
            while (
                bench.board.screen().rows != tuple(_expected_rows(console))
                and bench.clock.now_s() < at_s
            ):
                pass
            assert bench.board.screen().rows == tuple(_expected_rows(console))
        console.press(LEFT, "group 6 of 7", "next: home 1E: RS")
        console.press("t", "y as expected", "Look at corners")

    bench.hold(builder)


def _expected_rows(console):
    rows = console.text().split("\n")
    first = next(place for place, row in enumerate(rows) if "┌" in row) + 1
    return [row[3:83].ljust(80) for row in rows[first : first + 24]]


def test_the_loop_sends_until_any_key_and_the_line_is_as_before(tmp_path):
    bench = Bench(tmp_path, two_looks())

    def builder(console):
        console.press("\r", "- Look at first", "y as expected")
        console.press("w", "A square wave of 4.8 kHz, half the bit rate")
        console.press("r", "Speed in baud")
        console.press("19200\r", "A square wave of 9.6 kHz")
        console.press("\r", ">> sending, until any key")
        while not bench.board.screen().rows[3].startswith("UUUU"):
            console.wait(">> sending, until any key")
        console.press("x", "ended after", "the line is at 9600 baud 7E1 again")
        console.press("w", "- Look at first", "y as expected")
        assert bench.board.screen().rows[0].rstrip() == "ONE"

    bench.hold(builder)
    assert "characters sent" in bench.records(Noted)[0].text
    assert not [record for record in bench.records(Sent) if b"UUU" in record.data], (
        "a loop does not fill the run file"
    )


def test_a_wrong_reply_is_held_for_the_builder_to_see_and_may_be_disputed(tmp_path):
    bench = Bench(
        tmp_path,
        plan(
            step("identity", "link", "reply", reply=b"\x1bX"), look("first", "screen", text("ONE"))
        ),
    )

    def builder(console):
        console.press("\r", "must come back, not nothing", "go on")
        console.press("d", "What is wrong")
        console.press("no reply on this revision\r", "- Look at first", "ready")

    bench.hold(builder)
    answers = [record.answer for record in bench.records(Answered)]
    assert [(answer.word, answer.observer) for answer in answers] == [
        ("differs", "returned bytes"),
        ("disputed", "builder"),
    ]


def test_practice_hides_the_fault_and_tells_it_at_the_end(tmp_path):
    bench = Bench(tmp_path, two_looks(), fault="bank-1-data/stuck/3/0", is_practice=True)

    def builder(console):
        shown = [
            console.wait("Practice", "fault that is not told before the end"),
            console.press("\r", "- Look at first", "y as expected"),
            console.press("v", "the simulated board shows this"),
            console.press("y", "- Look at second", "ready"),
            console.press("y", "- Look at third", "ready"),
        ]
        assert not any("hidden fault" in text or "bank-1" in text for text in shown)
        console.press("y", "Every step has its verdict", "The hidden fault was a made-up one.")

    bench.hold(builder)


def test_bytes_from_the_board_never_reach_the_console_unescaped(tmp_path):
    bench = Bench(tmp_path, two_looks())
    console = Console()

    def builder(console):
        console.press("\r", "- Look at first", "y as expected")
        bench.board.press("escape")
        bench.board.type("[2J")
        console.wait('received: ESC "[" "2" "J"')
        written = "".join(console.written)
        assert written.count("\x1b[2J") <= 1, (
            "only the session itself may clear its console, when it begins"
        )

    bench.hold(builder, console)
