"""Checks of the line in a run: what goes over it is in the run file, and hands come first."""

import pytest

from helpers.bench import look, screen_of
from helpers.run_bench import RunBench
from helpers.sending_board import busy_board
from termprobe.board.cable.link import CableLink
from termprobe.journal.records import (
    AS_EXPECTED,
    DIFFERS,
    SKIPPED,
    UNSURE,
    Answer,
    Arrived,
    LineGone,
    Sent,
)
from termprobe.link.base import LineFormat
from termprobe.observer.scripted import ScriptedObserver
from termprobe.plan.model import Ask, Group, LineCheck
from termprobe.runner.line_of_run import Demands, LineOfRun
from termprobe.runner.stage_skipped import skip_stage
from termprobe.runner.walk import carry_out

PLUG = Ask("plug", "stage", "A plug", "Is it in?")
CHECK = LineCheck("echo", "stage", "Nothing comes back", needs=("plug",), check="no-echo")


def words(tmp_path, *answers, react=lambda data: b""):
    observers = [ScriptedObserver({"plug": Answer(answer)}) for answer in answers]
    bench = RunBench(tmp_path, PLUG, CHECK, observers=observers, react=react)
    carry_out(bench.run)
    return [step.verdict for step in bench.run.verdicts().steps], bench


def test_a_check_is_made_once_what_it_needs_is_done(tmp_path):
    told, bench = words(tmp_path, AS_EXPECTED)
    assert told == ["pass", "pass"]
    (sent,) = bench.records(Sent)
    assert (sent.step, sent.data) == ("echo", b"UTP#75")


def test_what_comes_back_is_kept_and_fails(tmp_path):
    told, bench = words(tmp_path, AS_EXPECTED, react=lambda data: data)
    assert told == ["pass", "fail"]
    assert [one.data for one in bench.records(Arrived)] == [b"UTP#75"]


def test_a_check_of_which_nobody_has_prepared_anything_is_not_made(tmp_path):
    told, bench = words(tmp_path)
    assert told == ["unanswered", "unanswered"] and bench.records(Sent) == []


def test_where_the_plug_was_skipped_its_checks_are_blocked(tmp_path):
    assert words(tmp_path, SKIPPED)[0] == ["skipped", "blocked"]


def test_a_check_that_was_skipped_with_its_plug_keeps_its_own_reason(tmp_path):
    bench = RunBench(tmp_path, PLUG, CHECK)
    skip_stage(bench.run, PLUG, "no plug here")
    found = bench.run.verdict(CHECK)
    assert (found.verdict, found.note) == ("skipped", "no plug here")
    bench.run.record(PLUG, Answer(DIFFERS))
    assert bench.run.verdict(CHECK).verdict == "blocked", "one that failed blocks as ever"


SEEN = Ask("seen", "stage", "Seen", needs=("echo", "look"), continues=True, expected=screen_of("A"))


def test_a_question_about_the_screen_that_a_check_has_left_waits_for_that_check_alone(tmp_path):
    """Not for a look that it needs: that one blocks it where it fails, and no other way."""
    bench = RunBench(tmp_path, look("look"), PLUG, CHECK, SEEN)
    assert not bench.run.course.can_be_asked(SEEN)
    bench.run.record(CHECK, Answer(UNSURE))
    assert not bench.run.course.can_be_asked(SEEN)
    bench.run.record(CHECK, Answer(AS_EXPECTED))
    assert bench.run.course.can_be_asked(SEEN)
    bench.run.record(bench.plan.step("look"), Answer(DIFFERS))
    assert bench.verdicts()[-1] == "blocked"


def test_the_control_lines_are_those_of_the_link(tmp_path):
    bench = RunBench(tmp_path, PLUG)
    line = LineOfRun(bench.run)
    assert line.lines() == bench.link.lines() and line.link_format == bench.link.format
    line.set_line("rts", False)
    assert bench.records(LineGone) == []


def test_another_format_is_the_links_alone(tmp_path):
    bench = RunBench(tmp_path, PLUG)
    line, before = LineOfRun(bench.run), bench.link.format
    line.set_format(LineFormat(110))
    assert bench.link.format == LineFormat(110) and line.link_format == before


KEY = Ask("key", "stage", "A key")
FINDS = LineCheck("finds", "stage", "Finds", check="wiring", told_by=(("key", "key"), ("no", "x")))


def test_a_check_is_told_what_earlier_steps_of_its_own_have_told(tmp_path):
    bench = RunBench(tmp_path, KEY, FINDS, react=lambda data: data)
    line = LineOfRun(bench.run)
    bench.run.begin(KEY)
    line.write(b"A")
    bench.run.poll()
    bench.run.begin(FINDS)
    assert (line.told("key"), line.came("key"), line.handshake) == (None, None, "none")
    bench.run.record(KEY, Answer(AS_EXPECTED))
    assert (line.told("key"), line.came("key")) == (True, b"A")
    assert line.told("no") is line.came("no") is line.told("other") is None


def test_a_check_is_told_what_an_earlier_one_has_measured(tmp_path):
    bench = RunBench(tmp_path, KEY, FINDS)
    line = LineOfRun(bench.run)
    bench.run.begin(FINDS)
    assert line.measured("key") is line.measured("other") is None
    bench.run.record(KEY, Answer(AS_EXPECTED, value=0.016))
    bench.run.begin(FINDS)
    assert line.measured("key") == 0.016
    bench.run.record(KEY, Answer(SKIPPED))
    bench.run.begin(FINDS)
    assert line.measured("key") is None


@pytest.mark.parametrize(
    "check, is_whole, verdict",
    [("host-sees-busy", True, "unsure"), ("busy-ignored", False, "pass")],
)
def test_what_a_slow_board_loses_is_seen_on_its_screen_in_a_run(tmp_path, check, is_whole, verdict):
    """The run's own sender obeys the board; the check does, or does not.

    How late the adapter is was not measured, so that nothing is said of what is seen then.
    """
    slow = busy_board("rts-cts")
    numbers = Group(slow.text, "numbers")
    step = LineCheck("busy", "stage", "Busy", groups=(numbers,), check=check)
    bench = RunBench(tmp_path, step, demands=Demands(handshake="rts-cts"))
    bench.clock.sleep_until(slow.clock.now_s())
    side = slow.link.cable.board.side
    link = CableLink(slow.board, bench.clock, side=side)
    bench.run.relink(link)
    carry_out(bench.run)
    link.read(1.0)
    assert bench.verdicts() == [verdict]
    assert (slow.board.screen().rows[0].strip() == slow.text[1:].decode()) is is_whole
    assert (link.cable.board.lost == 0) is is_whole
