"""What was answered, and what the line had shown of itself by then."""

import pytest

from helpers.bench import look, plan, screen_of
from helpers.bench_plan import step
from termprobe.journal.asked_again import AskedAgain
from termprobe.journal.records import (
    AS_EXPECTED,
    DIFFERS,
    SKIPPED,
    Answer,
    Answered,
    Arrived,
    Heard,
    Resumed,
    StepBegun,
    TakenBack,
)
from termprobe.link.base import Received
from termprobe.report import words
from termprobe.verdict.given import given, shows_hearing
from termprobe.verdict.judge import judge

Q, W = step("press/q", "keyboard", "press"), step("press/w", "keyboard", "press", key="w")
REPLY = step("r", "s", "reply", reply=b"ok")
TYPED = step("t", "s", "typed-back", word="yn")
HELLO, BLANK = look("a"), look("b", expected=screen_of(""))
BLANK_ROWS = ("", "", "")


def pressed(step_id, data=b""):
    events = (Received(0.1, data),) if data else ()
    return Answered(step_id, Answer(DIFFERS, data=data, heard=Heard(9600, 7, events)))


def answered(step_id, word=DIFFERS, **fields):
    return Answered(step_id, Answer(word, **fields))


def run_of(steps, *records):
    return judge(plan(*steps), records)


def words_of(steps, *records):
    return [found.verdict for found in run_of(steps, *records).steps]


# -- a line over which nothing comes ---------------------------------------------------------------


@pytest.mark.parametrize(
    "tried, record",
    [
        (Q, pressed("press/q")),
        (REPLY, answered("r", data=b"")),
        (TYPED, answered("t", data=b"")),
    ],
)
def test_where_nothing_ever_came_nothing_has_failed(tried, record):
    found = run_of((tried,), record)
    assert (found.verdict, found.exit_code) == ("incomplete", 3)
    assert [one.verdict for one in found.silent] == ["blocked"]
    assert "nothing had come from the board yet" in words.reason(found.silent[0])


def test_once_something_comes_an_early_press_is_to_be_made_again():
    before = (pressed("press/q"), pressed("press/w", b"w"))
    assert words_of((Q, W), *before) == ["unanswered", "pass"]
    assert words_of((Q, W), *before, pressed("press/q")) == ["fail", "pass"]
    assert words_of((Q, W), *before, pressed("press/q", b"q")) == ["pass", "pass"]


def test_what_is_said_of_a_step_counts_on_a_silent_line_too():
    assert words_of((Q,), pressed("press/q"), answered("press/q", SKIPPED)) == ["skipped"]
    assert words_of((Q,), pressed("press/q"), TakenBack("press/q")) == ["unanswered"]


def test_a_rail_that_is_wrong_fails_whatever_the_line_does():
    rail = step("rail", "power", "measure", unit="V", low=4.75, high=5.25)
    found = run_of((rail, Q), answered("rail", value=3.0), pressed("press/q"))
    assert (found.verdict, found.exit_code) == ("fail", 1)
    assert [one.verdict for one in found.steps] == ["fail", "blocked"]


def test_a_board_that_shows_what_is_sent_hears_though_nothing_comes_back():
    found = run_of((HELLO, Q), answered("a", AS_EXPECTED), pressed("press/q"))
    assert found.exit_code == 3 and found.silent[0].because.is_heard
    assert "the wire that it sends on" in words.reason(found.silent[0])


def test_a_screen_that_stays_blank_is_no_failure_while_nothing_shows_that_the_board_hears():
    blank = answered("a", seen=BLANK_ROWS, strength=2)
    assert run_of((HELLO,), blank).exit_code == 3
    assert words_of((HELLO, Q), blank, pressed("press/q", b"q")) == ["fail", "pass"]
    seen = answered("a", seen=("HGLLO", "", ""), strength=2)
    assert run_of((HELLO,), seen).verdict == "fail"
    assert words_of((HELLO, look("c")), blank, answered("c", AS_EXPECTED)) == ["fail", "pass"]


@pytest.mark.parametrize(
    "tried, answer, has_passed, is_shown",
    [
        (HELLO, Answer(AS_EXPECTED), True, True),
        (BLANK, Answer(AS_EXPECTED), True, False),
        (HELLO, Answer(DIFFERS), False, True),
        (HELLO, Answer(DIFFERS, seen=BLANK_ROWS), False, False),
        (look("d", groups=()), Answer(AS_EXPECTED), True, False),
        (Q, Answer(AS_EXPECTED), True, False),
    ],
)
def test_what_shows_that_the_board_hears(tried, answer, has_passed, is_shown):
    assert shows_hearing(tried, answer, has_passed) == is_shown


# -- errors of the line ----------------------------------------------------------------------------


def arrived(data, error=""):
    return Arrived("t", data, 0.0, error)


def test_bytes_received_with_an_error_do_not_pass():
    good = [StepBegun("t"), *(arrived(bytes([code])) for code in b"yn\r")]
    bad = [StepBegun("t"), *(arrived(bytes([code]), "parity") for code in b"yn\r")]
    typed = answered("t", AS_EXPECTED, data=b"yn\r")
    assert words_of((TYPED,), *good, typed) == ["pass"]
    found = run_of((TYPED,), *bad, typed).steps[0]
    assert (found.verdict, found.because.errors) == ("fail", ("parity",))
    assert words.reason(found) == '"yn" CR came back; of a character its parity bit is wrong'


def test_a_reply_received_with_an_error_does_not_pass():
    records = [StepBegun("r"), arrived(b"o"), arrived(b"k", "framing")]
    assert words_of((REPLY,), *records, answered("r", data=b"ok")) == ["fail"]


def test_errors_of_bytes_that_were_typed_again_are_no_more():
    records = [StepBegun("t"), arrived(b"xx", "parity"), arrived(b"yn\r")]
    found = given(plan(TYPED), [*records, answered("t", data=b"yn\r")])
    assert found.answers["t"].errors == () and found.has_come


# -- a look that is asked once more ------------------------------------------------------------


def readings(*records):
    return [one.answer.word for one in given(plan(HELLO), records).answers["a"].readings]


def test_an_answer_counts_beside_those_before_where_the_look_was_asked_once_more():
    first, second = answered("a"), answered("a", AS_EXPECTED)
    assert readings(first, second) == [AS_EXPECTED]
    assert readings(first, AskedAgain("a"), second) == [DIFFERS, AS_EXPECTED]
    assert words_of((HELLO,), first, AskedAgain("a"), second) == ["pass"]


def test_a_correction_takes_the_place_of_the_last_reading_alone():
    first, second = answered("a"), answered("a", AS_EXPECTED)
    assert readings(first, AskedAgain("a"), second, first) == [DIFFERS, DIFFERS]
    assert readings(first, AskedAgain("a"), second, TakenBack("a")) == []
    assert readings(first, AskedAgain("a"), Resumed(), second) == [AS_EXPECTED]
    assert readings(AskedAgain("a"), first) == [DIFFERS]
