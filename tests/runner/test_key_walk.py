"""The walk over a keyboard: listed and free order, presses taken back, missing and flaky keys.

All is judged from what came.
"""

import pytest

from helpers.key_walk_bench import LINE, PROFILE, Bench, no_hand
from termprobe.board.link import SimLink
from termprobe.journal.records import DIFFERS, Answer, Answered, Arrived, StepBegun
from termprobe.link.base import Received
from termprobe.report import keyboard_drawing
from termprobe.runner.key_walk import (
    AGAIN,
    FREE,
    KEEP_PRESS,
    LISTED,
    NO_CODE_CAME,
    SKIP_PRESS,
    STOP_WALK,
    TAKE_BACK,
    Asked,
    CountsNoMore,
    KeyWalk,
    PressTaken,
    Unnamed,
    WalkWish,
)

QWE = ("press/q", "press/w", "press/e")
AT_TIMES = "the contact works only sometimes"

CAME = Arrived(None, b"x")
"""Something has come over the line before."""


def test_a_good_keyboard_is_covered_press_by_press(tmp_path):
    bench = Bench(tmp_path)
    assert bench.walk.walk()
    assert bench.words() == {"pass"} and len(bench.verdicts()) == 137
    assert len(bench.told(Asked)) == 137


@pytest.mark.parametrize(
    "fault, press_id, reason",
    [
        (
            "keyboard-code/stuck/0/1",
            "press/2",
            '"3" came, the code of key "3 #", not "2": bit 0 is 1',
        ),
        ("key-matrix/key-dead/q", "press/q", 'no code received, not "q"'),
        ("key-matrix/row-open/2", "press/w", 'no code received, not "w"'),
        (
            "key-matrix/shift-dead",
            "press/q+shift",
            '"q" came, the code of key "Q", not "Q": bit 5 is 1',
        ),
        ("key-matrix/control-dead", "press/q+control", '"q" came'),
        ("transmitter-data/swapped/0-1", "press/2", '"1" came'),
    ],
)
def test_what_a_fault_does_to_a_press(tmp_path, fault, press_id, reason):
    bench = Bench(tmp_path, press_id, fault=fault)
    bench.run.journal.append(CAME)
    assert bench.walk.walk()
    word, said = bench.verdicts()[press_id]
    assert word == "fail" and said.startswith(reason)


def test_a_bounce_is_noticed_by_its_time(tmp_path):
    bench = Bench(tmp_path, "press/q", fault="key-matrix/key-bounces/q")
    bench.walk.walk()
    assert bench.verdicts()["press/q"] == (
        "fail",
        '"q" came twice, 8 ms apart: the contact bounces',
    )


def test_a_press_by_hand_is_judged_at_once_and_again_where_more_follows(tmp_path):
    bench = Bench(tmp_path, "press/q", "press/w", order=FREE, wait_s=2.0)
    clock, moments = bench.run.clock, {0.2: b"q", 0.23: b"q", 0.35: b"w"}

    class Line(SimLink):
        def read(self, wait_s):
            due = [at_s for at_s in moments if at_s <= clock.now_s() + wait_s]
            if not due:
                clock.sleep_until(clock.now_s() + wait_s)
                return ()
            clock.sleep_until(max(clock.now_s(), due[0]))
            return (Received(due[0], moments.pop(due[0])),)

    bench.run.relink(Line(bench.board, clock, LINE))
    assert bench.walk.walk()
    assert [event.data for event in bench.told(PressTaken)] == [b"q", b"qq", b"w"]
    assert bench.verdicts()["press/q"][0] == "fail" and bench.verdicts()["press/w"][0] == "pass"
    amended = [one.amends for one in bench.journal.records if isinstance(one, Answered)]
    assert amended == [False, True, False] and bench.run.course.trail == ("press/q", "press/w")
    assert bench.run.course.verdict("press/q").answers == 1


def test_what_follows_the_last_press_is_waited_for(tmp_path):
    bench = Bench(tmp_path, "press/q", order=FREE, wait_s=2.0, fault=None)

    def hear(event):
        bench.events.append(event)
        if isinstance(event, PressTaken) and len(bench.told(PressTaken)) == 1:
            bench.board.press("q")

    bench.board.press("q")
    bench.walk._tell = hear
    bench.walk._run.poll = lambda wait_s=0.0: b""
    assert bench.walk.walk()
    assert bench.verdicts()["press/q"][0] == "fail"


def test_two_keys_at_once_are_both_named(tmp_path):
    bench = Bench(tmp_path, "press/q", fault="key-matrix/rows-bridged/3-5")
    bench.walk.walk()
    _, said = bench.verdicts()["press/q"]
    assert "besides" in said and '"s"' in said


def test_a_press_that_is_not_made_in_time_is_missing(tmp_path):
    bench = Bench(tmp_path, "press/q", hand=no_hand, wait_s=3.0)
    bench.run.journal.append(CAME)
    bench.walk.walk()
    assert bench.verdicts()["press/q"] == ("fail", 'no code received, not "q"')
    assert bench.run.clock.now_s() >= 3.0


def test_without_a_limit_the_walk_waits_until_it_is_told(tmp_path):
    commands = [None] * 40 + [WalkWish(NO_CODE_CAME), WalkWish(SKIP_PRESS, "no keycap")]
    bench = Bench(tmp_path, "press/q", "press/w", hand=no_hand, wait_s=None, commands=commands)
    bench.run.journal.append(CAME)
    assert bench.walk.walk()
    assert bench.verdicts()["press/q"][0] == "fail"
    assert bench.verdicts()["press/w"] == ("skipped", "no keycap")
    assert bench.run.verdicts().steps[1].observer == "builder"


def test_a_skip_without_a_reason_says_so_and_stop_ends_the_walk(tmp_path):
    commands = [WalkWish(SKIP_PRESS, "  "), WalkWish(STOP_WALK)]
    bench = Bench(tmp_path, "press/q", "press/w", hand=no_hand, wait_s=None, commands=commands)
    assert not bench.walk.walk()
    assert list(bench.verdicts().values()) == [("skipped", "no reason given"), ("unanswered", "")]


def test_a_wrong_press_is_taken_back_and_counts_no_more(tmp_path):
    slips, words_of_q = iter("wqw"), []
    bench = Bench(tmp_path, "press/q", "press/w", wait_s=None)

    def hand(step):
        if step.id == "press/q" or words_of_q:
            bench.board.press(next(slips))

    def command():
        words_of_q.append(bench.verdicts()["press/q"][0])
        return WalkWish(TAKE_BACK)

    def hear(event):
        bench.events.append(event)
        if isinstance(event, CountsNoMore):
            words_of_q.append(bench.verdicts()["press/q"][0])

    bench.walk._hand, bench.walk._command, bench.walk._tell = hand, command, hear
    assert bench.walk.walk()
    assert words_of_q == ["fail", "unanswered"]
    assert bench.told(CountsNoMore) == [CountsNoMore(bench.run.plan.steps[0])]
    asked = [event.step.id for event in bench.told(Asked)]
    assert asked == ["press/q", "press/w", "press/q", "press/w"]
    assert bench.words() == {"pass"}


@pytest.mark.parametrize("word", (TAKE_BACK, AGAIN))
def test_before_the_first_press_there_is_none_to_take_back(tmp_path, word):
    commands = [WalkWish(word), WalkWish(NO_CODE_CAME)]
    bench = Bench(tmp_path, "press/q", wait_s=None, hand=no_hand, commands=commands)
    bench.run.journal.append(CAME)
    assert bench.walk.walk()
    assert CountsNoMore(None) in bench.events and bench.verdicts()["press/q"][0] == "fail"


def test_a_press_of_an_earlier_sitting_can_be_taken_back(tmp_path):
    bench = Bench(tmp_path, "press/q", "press/w")
    press_q = bench.run.plan.steps[0]
    bench.run.record(press_q, Answer(DIFFERS, data=b"w"))
    commands = iter([WalkWish(TAKE_BACK), WalkWish(TAKE_BACK), WalkWish(STOP_WALK)])
    resumed = KeyWalk(bench.run, command=lambda: next(commands), listener=bench.events.append)
    assert not resumed.walk()
    assert bench.told(CountsNoMore) == [CountsNoMore(press_q), CountsNoMore(None)]
    assert bench.words() == {"unanswered"}


def test_a_press_made_twice_is_taken_back_once(tmp_path):
    commands = [WalkWish(NO_CODE_CAME), WalkWish(NO_CODE_CAME)]
    commands += [WalkWish(word) for word in (AGAIN, NO_CODE_CAME, TAKE_BACK, TAKE_BACK, STOP_WALK)]
    bench = Bench(tmp_path, *QWE, wait_s=None, hand=no_hand, commands=commands)
    assert not bench.walk.walk()
    press_q, press_w, _ = bench.run.plan.steps
    assert bench.told(CountsNoMore) == [CountsNoMore(press_w), CountsNoMore(press_q)]


def test_a_contact_that_works_only_sometimes_gets_a_rate(tmp_path):
    bench = Bench(tmp_path, "press/q", fault="key-matrix/key-flaky/q")
    bench.walk.walk()
    for _ in range(3):
        bench.walk._obey(WalkWish(AGAIN), None)
        assert bench.walk.walk()
    assert bench.words() == {"fail"}
    assert f"2 of 4 presses came: {AT_TIMES}" in bench.evidence("press/q")


def test_in_free_order_the_last_key_can_be_pressed_again_but_no_key_that_nobody_named(tmp_path):
    bench = Bench(tmp_path, "press/q", "press/w", order=FREE, wait_s=None)
    press_q, press_w = "q", "w"
    wishes = iter(
        [
            WalkWish(NO_CODE_CAME),
            WalkWish(SKIP_PRESS, "no keycap"),
            press_q,
            WalkWish(TAKE_BACK),
            press_q,
            WalkWish(AGAIN),
            press_q,
            WalkWish(AGAIN),
            WalkWish(NO_CODE_CAME),
            press_w,
        ]
    )

    def command():
        wish = next(wishes)
        if isinstance(wish, WalkWish):
            return wish
        return bench.press_by_hand(wish)

    bench.walk._command = command
    assert bench.walk.walk()
    assert len(bench.told(Unnamed)) == 2
    named = [event.step.id for event in bench.told(Asked) if event.step]
    assert named == ["press/q", "press/q"]
    assert bench.verdicts()["press/w"][0] == "pass" and bench.verdicts()["press/q"][0] == "fail"
    assert f"2 of 3 presses came: {AT_TIMES}" in bench.evidence("press/q")


def test_free_order_covers_what_comes_and_names_what_does_not_fit(tmp_path):
    presses = iter([("w", ()), ("z", ()), ("q", ()), ("q", ("shift",))])
    bench = Bench(tmp_path, "press/q", "press/q+shift", "press/w", order=FREE, wait_s=5.0)

    def command():
        following = next(presses, None)
        if following:
            bench.press_by_hand(*following)

    bench.walk._command = command
    assert bench.walk.walk()
    assert bench.words() == {"pass"}
    heard = [(event.step and event.step.id, event.data) for event in bench.told(PressTaken)]
    assert heard == [("press/w", b"w"), (None, b"z"), ("press/q", b"q"), ("press/q+shift", b"Q")]


def test_a_walk_needs_nobody_who_commands_or_listens(tmp_path):
    bench = Bench(tmp_path, "press/q", "press/w")
    walk = KeyWalk(bench.run, wait_s=1.0, hand=bench._press)
    assert walk.walk() and bench.words() == {"pass"}


def test_free_order_ends_where_nothing_comes_in_time(tmp_path):
    bench = Bench(tmp_path, "press/q", order=FREE, wait_s=2.0)
    assert not bench.walk.walk()
    assert bench.words() == {"unanswered"} and bench.run.clock.now_s() >= 2.0


def test_keys_that_send_the_same_code_need_a_press_each_in_free_order(tmp_path):
    bench = Bench(tmp_path, "press/line-feed", "press/down", order=FREE, wait_s=2.0)

    def command():
        if len(bench.events) < 4:
            bench.press_by_hand("down")

    bench.walk._command = command
    assert bench.walk.walk()
    assert len({event.step.id for event in bench.told(PressTaken)}) == 2


def test_a_press_made_while_the_one_before_is_judged_counts_and_one_before_the_walk_does_not(
    tmp_path,
):
    bench = Bench(tmp_path, "press/q", "press/w", hand=no_hand, wait_s=1.0)

    def hear(event):
        if isinstance(event, PressTaken):
            bench.board.press("w")

    def hand(step):
        if step.id == "press/q":
            bench.board.press("q")

    bench.board.press("z")
    bench.walk._tell, bench.walk._hand = hear, hand
    assert bench.walk.walk()
    assert bench.words() == {"pass"}


def test_a_press_belongs_to_the_step_that_had_begun(tmp_path):
    bench = Bench(tmp_path, "press/q", "press/w")
    bench.walk.walk()
    kept = [one for one in bench.journal.records if isinstance(one, StepBegun | Answered)]
    assert [(type(one), one.step) for one in kept] == [
        (StepBegun, "press/q"),
        (Answered, "press/q"),
        (StepBegun, "press/w"),
        (Answered, "press/w"),
    ]


def test_the_drawing_shows_each_state_by_its_mark(tmp_path):
    keys = "qwer"
    bench = Bench(tmp_path, *(f"press/{key}" for key in keys), fault="key-matrix/key-dead/w")
    bench.walk.walk()
    verdicts = {verdict.id: verdict for verdict in bench.run.verdicts().steps}
    steps = bench.run.plan.steps
    found = keyboard_drawing.states(PROFILE.keyboard, steps, verdicts, asked=steps[3])
    assert (found["q"], found["w"], found["r"], found["t"]) == (
        keyboard_drawing.RIGHT,
        keyboard_drawing.ALL_MISSING,
        keyboard_drawing.ASKED,
        keyboard_drawing.NONE,
    )
    lines = keyboard_drawing.drawing(PROFILE.keyboard, found)
    assert lines[4].startswith("|    |  +|  0|  +|  >|   |")
    assert max(map(len, lines)) <= 79


def decided(tmp_path, pressed, *words):
    """Return the bench of a walk over q and w at which a hand presses so, and wishes these."""
    wishes, keys = [WalkWish(word) for word in words], list(pressed)
    bench = Bench(tmp_path, "press/q", "press/w", order=LISTED, wait_s=None)

    def command():
        if keys:
            bench.press_by_hand(keys.pop(0))

    def decide():
        bench.board.press("z")
        return wishes.pop(0)

    bench.walk = KeyWalk(bench.run, LISTED, None, command, None, bench.events.append, decide)
    bench.is_over = bench.walk.walk()
    assert not wishes
    return bench


def test_a_wrong_press_waits_for_a_decision_and_what_is_pressed_meanwhile_does_not_count(tmp_path):
    kept = decided(tmp_path, "ew", KEEP_PRESS)
    assert kept.is_over
    assert [word for word, _ in kept.verdicts().values()] == ["fail", "pass"]


def test_it_is_pressed_again_or_taken_back(tmp_path):
    for word, answers in ((AGAIN, 2), (TAKE_BACK, 1)):
        folder = tmp_path / word
        folder.mkdir()
        bench = decided(folder, "eqw", word)
        assert bench.words() == {"pass"}
        assert bench.run.course.verdict("press/q").answers == answers


def test_the_walk_may_stop_there_and_the_last_press_waits_too(tmp_path):
    for number, (pressed, words) in enumerate([("e", [STOP_WALK]), ("qew", [TAKE_BACK])]):
        folder = tmp_path / str(number)
        folder.mkdir()
        bench = decided(folder, pressed, *words)
        assert bench.is_over == (words != [STOP_WALK])


def test_a_right_press_and_a_missing_one_are_not_decided_about(tmp_path):
    assert decided(tmp_path, "qw").words() == {"pass"}
