"""The key walk: presses count where they belong, the console says what to press and what came."""

import dataclasses

from helpers.bench_state import LINE, console, course, judged
from termprobe.journal.records import Answered
from termprobe.link.base import Received
from termprobe.plan.compile import compile_plan
from termprobe.profile.load import load
from termprobe.report import words
from termprobe.report.keyboard_drawing import legend
from termprobe.script.load import load as load_script
from termprobe.session.messages import (
    Judged,
    PressHeard,
    PressKey,
    RecordAnswer,
    Send,
    Shown,
    TakeBack,
)
from termprobe.session.react import dispatch, hearing
from termprobe.session.state import State

PROFILE = load("singlebyte-24x80")
PLAN = compile_plan(PROFILE, load_script("keyboard"))


class Walk:
    """A session's state with a journal that only remembers answers."""

    def __init__(self, mode="pressing", step_id="press/q", **changes):
        self.records = []
        made = State(course(plan=PLAN), PROFILE, LINE, "board 0007", "sim:")
        self.state = dataclasses.replace(made, mode=mode, step_id=step_id, **changes)

    def heard(self, data):
        events = (Received(0.1, data),) if data else ()
        self._take(*hearing.hear(self.state, PressHeard(events), 1.0))

    def shown(self, step_id):
        self._take(*hearing.hear(self.state, Shown(step_id, 1.0), 1.0))

    def key(self, name):
        self._take(*dispatch.press(self.state, name, 2.0))

    def _take(self, state, requests):
        self.state, self.requests = state, requests
        for request in requests:
            if isinstance(request, RecordAnswer):
                self.records.append(Answered(request.step_id, request.answer))
                event = Judged(course(self.records, PLAN), request.step_id)
                self._take(*hearing.hear(self.state, event, 1.0))
                sent = [one for one in self.requests if isinstance(one, Send)]
                if sent:
                    self.shown(sent[0].step_id)

    def answered(self):
        """Return the ids of the steps answered."""
        return [record.step for record in self.records]

    def verdict(self, step_id):
        """Return the verdict of a step by the answers so far."""
        return course(self.records, PLAN).verdict(step_id)

    def screen(self, columns=80, rows=24):
        return console(self.state, columns, rows)


def test_a_right_press_is_recorded_and_the_next_key_asked_for():
    walk = Walk()
    walk.heard(b"q")
    assert walk.answered() == ["press/q"] and walk.state.mode == "pressing"
    assert walk.state.step_id == "press/1"  # the first of the walk without an answer
    assert 'Last: "Q": right: "q" came' in walk.screen()


def test_a_wrong_press_shows_its_code_and_whose_it_is():
    walk = Walk()
    walk.heard(b"w")
    screen = walk.screen()
    assert (
        'WRONG: "w" came, the code of key "W", not "q": bit 1 is 1, bit 2' in screen
        and "|Q  |" in screen
    )
    assert any(line.startswith(" |   .|  x|  .|") for line in screen.splitlines())


def test_a_wrong_press_can_be_taken_back():
    walk = Walk()
    walk.heard(b"w")
    walk.key("x")
    assert walk.requests[0] == TakeBack("press/q") and walk.state.step_id == "press/q"
    assert "undone" in walk.state.notice


def test_a_look_after_the_press_taken_back_stays_in_the_trail():
    walk = Walk(step_id="press/w", is_known=True)
    trail = ("press/q", "press/escape", "press/q", "diodes")
    walk.state = dataclasses.replace(walk.state, course=course(plan=PLAN, trail=trail))
    walk.key("x")
    assert walk.requests[0] == TakeBack("press/q")
    assert walk.state.course.trail == ("press/escape", "diodes")
    assert walk.state.notice == "undone; press it again"


def test_pressing_again_keeps_what_came_before():
    walk = Walk()
    walk.heard(b"")
    walk.key("r")
    assert (
        not any(isinstance(request, TakeBack) for request in walk.requests)
        and walk.state.step_id == "press/q"
    )


def test_nothing_came_is_an_answer_of_its_own():
    walk = Walk()
    walk.key("m")
    assert walk.records[0].answer.heard.events == ()
    assert words.reason(walk.verdict("press/q")) == (
        'no code received, not "q"; nothing had come from the board yet: '
        "try cable, adapter and local mode first"
    )


def test_in_free_order_a_press_counts_where_it_fits_and_nowhere_else():
    walk = Walk(is_free=True)
    walk.heard(b"Z")
    assert walk.answered()[-1] == "press/z+shift"
    walk.heard(b"\x7e\x7e\x7e")
    walk.key("enter")
    walk.shown(walk.state.step_id)
    assert (
        len(walk.records) == 2
    )  # "~" is the first of it: the rest is noticed as more than one code
    walk.heard(b"Z")
    assert len(walk.records) == 2 and "which no press left sends" in walk.state.notice
    assert "Press any key" in walk.screen()


def test_presses_count_only_while_a_key_is_asked_for():
    walk = Walk(mode="help", beneath=("pressing",))
    walk.heard(b"q")
    assert not walk.records


def test_a_press_that_comes_before_its_question_is_on_the_screen_counts_for_it():
    walk = Walk(mode="waiting", step_id="press/q")
    walk.heard(b"q")
    walk.heard(b"")
    assert not walk.records
    walk.shown("press/q")
    (record,) = walk.records
    assert (record.step, record.answer.word) == ("press/q", "as-expected")
    assert walk.state.early == ()


def test_in_free_order_a_key_to_be_pressed_again_is_asked_for_by_name():
    walk = Walk(is_free=True)
    walk.heard(b"Z")
    walk.key("r")
    walk.shown("press/z+shift")
    assert 'Press "Z" with SHIFT' in walk.screen() and walk.state.mode == "pressing"
    walk.heard(b"Z")
    walk.key("r")
    walk.shown("press/z+shift")
    walk.key("m")
    assert walk.answered() == ["press/z+shift"] * 3 and "Press any key" in walk.screen()
    told = words.evidence(walk.verdict("press/z+shift"))
    assert "2 of 3 presses came: the contact works only sometimes" in told


def test_in_free_order_no_press_is_missed():
    walk = Walk(is_free=True)
    walk.heard(b"")
    assert not walk.records and walk.state.mode == "pressing"
    practice = Walk(is_free=True, is_practice=True)  # there the key of the step was pressed
    practice.heard(b"")
    assert practice.answered() == ["press/q"]


def test_practice_presses_the_key_of_the_step():
    walk = Walk(is_practice=True)
    walk.key("enter")
    assert walk.requests == (PressKey("press/q"),)
    walk.key("a")
    assert walk.state.is_walking and walk.requests == (PressKey("press/q"),)


def test_on_a_real_board_the_keys_of_the_practice_do_nothing():
    for mode, key in (
        ("pressing", "enter"),
        ("pressing", "a"),
        ("look", "i"),
        ("look", "v"),
        ("waiting", "a"),
    ):
        walk = Walk(mode=mode)
        walk.key(key)
        assert walk.requests == () and not walk.state.is_walking and walk.state.mode == mode, key


def test_a_walk_in_practice_can_be_stopped_while_a_press_is_made_ready():
    walk = Walk(is_practice=True, is_walking=True, mode="waiting")
    walk.key("a")
    assert not walk.state.is_walking and walk.requests == ()


def test_in_free_order_nothing_is_said_of_a_key_that_nobody_asked_for():
    walk = Walk(is_free=True)
    for key in "msd":
        walk.key(key)
        assert (
            walk.state.mode == "pressing"
            and not walk.records
            and "of which key?" in walk.state.notice
        )
    assert "Keys - any key" in walk.screen()
    walk.key("o")
    walk.key("m")
    assert walk.answered()[0] == "press/q"


def test_what_the_marks_mean_is_in_sight_on_80_columns_and_in_the_help():
    walk = Walk()
    walk.heard(b"w")
    assert legend() in walk.screen(80, 24)
    walk.key("?")
    assert legend() in walk.screen(100, 60)


def test_a_press_taken_back_is_asked_for_once_only():
    """A second question would come while its answer is written, and hold the session there."""
    walk = Walk(is_known=True)
    walk.heard(b"w")
    walk.key("x")
    assert [type(request) for request in walk.requests] == [
        TakeBack,
        Send,
    ] and walk.state.mode == "waiting"
    state, requests = hearing.hear(walk.state, judged((), "press/q", plan=PLAN), 1.0)
    assert requests == () and state.mode == "waiting" and state.step_id == "press/q"


def test_the_request_names_place_and_matrix_for_keyboards_without_keycaps():
    screen = Walk().screen(100, 32)
    assert (
        'Press "Q" (row 2 of 5, key 2 from the left, matrix row 3 column 0) once, and let go.'
        in screen
    )
    assert "|LOCK|REPEAT|_  |SPACE" in screen and "> asked" in screen
