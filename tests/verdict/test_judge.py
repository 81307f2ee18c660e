"""Verdicts follow from plan and records alone.

The last answer, what can be compared, needs, and the run as a whole.
"""

import dataclasses

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.bench import look, plan
from helpers.bench_plan import press, step
from termprobe.journal.records import (
    AS_EXPECTED,
    DIFFERS,
    DISPUTED,
    DUMP,
    SKIPPED,
    UNSURE,
    Answer,
    Answered,
    Arrived,
    Finished,
    Heard,
    Resumed,
    Sent,
    TakenBack,
)
from termprobe.link.base import Received
from termprobe.plan.earlier import EarlierForms
from termprobe.plan.readings import Band
from termprobe.plan.reply_form import ReplyForm
from termprobe.report import words
from termprobe.terminal.screen import UNKNOWN_CHARACTER
from termprobe.verdict import model
from termprobe.verdict.judge import heard_as, judge
from termprobe.verdict.model import Changed, Differing, Earlier, Measured, Pressed, Returned
from termprobe.verdict.noticed import Missing, Rate, Right

RAIL = step("rail", "power", "measure", unit="V", low=4.75, high=5.25, source="TTL data")
WORDS = (AS_EXPECTED, DIFFERS, UNSURE, DISPUTED, SKIPPED)


def answer(step_id, word=AS_EXPECTED, hash="", **fields):
    return Answered(step_id, Answer(word, observer="builder", **fields), hash)


def one(step, *answers):
    return judge(plan(step), answers).steps[0]


def verdicts(steps, *answers):
    return [step.verdict for step in judge(plan(*steps), answers).steps]


# -- the answers of a step -------------------------------------------------------------------------


def test_each_word_gives_its_verdict():
    expected = {
        "as-expected": "pass",
        "differs": "fail",
        "unsure": "unsure",
        "disputed": "disputed",
        "skipped": "skipped",
    }
    assert {word: one(look("a"), answer("a", word)).verdict for word in expected} == expected
    assert one(look("a")).verdict == "unanswered"
    assert one(look("a"), answer("a", "unheard-of")).verdict == "unanswered"


def test_the_last_answer_counts_and_all_are_counted():
    found = one(look("a"), answer("a", DIFFERS), answer("a", AS_EXPECTED))
    assert (found.verdict, found.answers, found.observer) == ("pass", 2, "builder")


def test_what_was_taken_back_counts_no_more():
    found = one(look("a"), answer("a", DIFFERS), TakenBack("a"))
    assert (found.verdict, found.answers) == ("unanswered", 0)
    found = one(look("a"), answer("a", DIFFERS), TakenBack("a"), answer("a"), TakenBack("b"))
    assert (found.verdict, found.answers) == ("pass", 1)


def test_answers_before_the_one_that_counts_are_judged_alone_and_kept():
    found = one(look("a"), answer("a", UNSURE, note="dim"), answer("a", DIFFERS), answer("a"))
    assert found.earlier == (Earlier("unsure", note="dim"), Earlier("fail"))
    assert one(look("a"), answer("a")).earlier == ()


def test_a_reading_taken_again_keeps_the_first_one():
    rail = step("m", "s", "measure", unit="V", low=4.75, high=5.25)
    found = one(rail, answer("m", value=5.5), answer("m", value=5.0))
    (first,) = found.earlier
    assert (found.verdict, first.verdict, first.because.value) == ("pass", "fail", 5.5)


def test_answers_taken_back_are_kept_before_the_others_once_there_is_one_that_counts():
    taken_back = answer("a", DIFFERS), TakenBack("a")
    found = one(look("a"), *taken_back, answer("a", UNSURE), answer("a"))
    assert found.earlier == (Earlier("fail", is_taken_back=True), Earlier("unsure"))
    assert one(look("a"), *taken_back).earlier == ()


def test_a_blocked_step_keeps_its_earlier_answers():
    bad, needing = look("a"), look("b", needs=("a",))
    given = answer("a", DIFFERS), answer("b", UNSURE), answer("b")
    _, found = judge(plan(bad, needing), given).steps
    assert found.verdict == "blocked" and found.earlier == (Earlier("unsure"),)


def test_a_note_is_kept_with_the_verdict():
    assert one(look("a"), answer("a", SKIPPED, note="not stuffed")).note == "not stuffed"
    assert one(look("a"), answer("a", DIFFERS, note="dim"), answer("a")).note == ""


# -- screens ---------------------------------------------------------------------------------------


def test_of_a_screen_that_no_board_can_have_shown_the_part_in_reach_is_compared():
    rows = ("HELP" + "x" * 100_000, *["y"] * 100_000)
    found = one(look("a"), answer("a", AS_EXPECTED, seen=rows, strength=DUMP))
    screen = look("a").expected.rows
    most = 16 * len(screen) * len(screen[0])
    assert found.verdict == "fail" and 0 < found.because.cells <= most


def test_what_was_seen_overrules_the_word():
    found = one(look("a"), answer("a", AS_EXPECTED, seen=("HELP",)))
    assert found.verdict == "fail"
    assert found.differs == ((0, 3, "L", "P"), (0, 4, "O", " "))
    assert found.because == Differing(2, is_counted=False)
    assert words.reason(found) == "2 cells marked, perhaps not all"
    dumped = one(look("a"), answer("a", AS_EXPECTED, seen=("HELP",), strength=DUMP))
    assert dumped.because == Differing(2) and words.reason(dumped) == "2 cells differ"


def test_a_picture_that_was_chosen_tells_the_whole_screen():
    said = answer("a", DIFFERS, seen=("HELP",), chosen="aa", offered=("aa", "bb"))
    found = one(look("a"), said)
    assert found.because == Differing(2) and words.reason(found) == "2 cells differ"


def test_a_builder_who_sees_a_difference_is_believed_also_without_marks():
    found = one(look("a"), answer("a", DIFFERS, seen=("HELLO",), note="dim"))
    assert (found.verdict, found.because, found.differs) == (
        "fail",
        Differing(0, is_counted=False),
        (),
    )
    assert words.reason(found) == "seen to differ" and "note: dim" in words.evidence(found)


def test_cursor_and_bells_are_compared_where_they_are_known():
    seen = {"seen": ("HELLO",), "strength": DUMP}
    assert one(look("a"), answer("a", cursor=(0, 5), bells=0, **seen)).verdict == "pass"
    assert one(look("a"), answer("a", cursor=None, **seen)).verdict == "pass"
    moved = one(look("a"), answer("a", cursor=(1, 0), **seen))
    assert moved.because == Differing(0, cursor=((0, 5), (1, 0)))
    assert words.reason(moved) == "the cursor must be at row 0, column 5, not at row 1, column 0"
    rung = one(look("a"), answer("a", bells=1, **seen))
    assert rung.because == Differing(0, bells=(0, 1))
    assert words.reason(rung) == "the bell must ring never, not once"


def test_wrong_dots_fail_a_look_whose_characters_are_the_right_ones():
    drawn = (("L", "#../#../#.."), ("cursor", "missing"))
    seen = {"seen": ("HELLO",), "strength": DUMP}
    assert one(look("a"), answer("a", misdrawn=(), **seen)).verdict == "pass"
    assert one(look("a"), answer("a", misdrawn=None, **seen)).verdict == "pass"
    found = one(look("a"), answer("a", misdrawn=drawn, **seen))
    assert found.verdict == "fail" and found.because == Differing(0, misdrawn=drawn)
    told = "L is drawn with wrong dots; the cursor is not to be seen"
    assert words.reason(found) == told


def test_cells_that_are_only_marked_differ_and_tell_nothing_of_the_bits():
    found = one(look("a"), answer("a", DIFFERS, seen=(f"HEL{UNKNOWN_CHARACTER}O",)))
    assert found.differs == ((0, 3, "L", UNKNOWN_CHARACTER),)
    assert found.evidence.explanation is None and found.evidence.told == ()
    assert words.evidence(found) == ("marked at row 0, column 3; what is seen there is not told",)


@pytest.mark.parametrize("strength, is_whole", [(1, False), (DUMP, True)])
def test_only_eyes_leave_unmarked_cells_unknown(strength, is_whole):
    found = one(look("a"), answer("a", DIFFERS, seen=("IELLO",), strength=strength))
    assert found.evidence.is_whole is is_whole


# -- readings and bytes ----------------------------------------------------------------------------


def test_readings_are_judged_against_the_plan():
    assert one(RAIL, answer("rail", value=4.75)).verdict == "pass"
    assert one(RAIL, answer("rail", value=5.25)).verdict == "pass"
    low = one(RAIL, answer("rail", value=4.7499))
    assert low.verdict == "fail"
    assert low.because == Measured(4.7499, "V", "5 V \u00b1 5 %", False, "TTL data")
    assert words.reason(low) == "4.7499 V, outside the limits, 5 V \u00b1 5 %"
    assert words.evidence(low) == ("limits from TTL data",)
    at_least = one(step("r", "s", "measure", low=3.0), answer("r", value=2.0))
    assert words.reason(at_least) == "2, outside the limits, at least 3"
    noted = one(step("r", "s", "measure", unit="V"), answer("r", value=2.0))
    assert words.reason(noted) == "2 V, noted; no limits are given"


def test_a_reading_within_its_limits_that_is_not_usual_passes_with_a_warning():
    rail = step(
        "rail", "power", "measure", unit="V", low=10, high=12.6, usual=Band(11.4), source="it"
    )
    warned = one(rail, answer("rail", value=10.2))
    assert warned.verdict == "pass"
    wanted = "10.2 V, within the limits, 10 to 12.6 V; WARNING: at least 11.4 V is usual"
    assert words.reason(warned) == wanted
    assert "WARNING" not in words.reason(one(rail, answer("rail", value=11.9)))
    assert "WARNING" not in words.reason(one(rail, answer("rail", value=9.9)))


def test_a_blank_reading_is_not_measured_and_never_passed():
    found = one(RAIL, answer("rail", AS_EXPECTED, value=None))
    assert (found.verdict, words.reason(found)) == ("unanswered", "not measured")
    assert words.evidence(found) == ()


def test_replies_and_typed_words_are_compared_as_bytes():
    reply = step("r", "s", "reply", reply=b"\x1b/K")
    assert one(reply, answer("r", data=b"\x1b/K")).verdict == "pass"
    wrong = one(reply, answer("r", data=b"\x1b/Z"))
    assert wrong.because == Returned(b"\x1b/K", b"\x1b/Z") and wrong.verdict == "fail"
    assert words.reason(wrong) == 'ESC "/K" must come back, not ESC "/Z"'
    silent = one(reply, CAME, answer("r", data=b""))
    assert words.reason(silent) == 'ESC "/K" must come back, not nothing'
    typed = step("t", "s", "typed-back", word="OK\r")
    assert one(typed, answer("t", DIFFERS, data=b"OK\r")).verdict == "pass"
    assert one(typed, answer("t", data=b"OK")).verdict == "fail"


def test_a_reply_that_is_known_by_its_form_is_compared_by_it():
    reply = step("r", "s", "reply", reply=b"\x1b[1c", form=ReplyForm(b"\x1b[", b"c"))
    right = one(reply, answer("r", data=b"\x1b[?6c"))
    assert (right.verdict, words.reason(right)) == ("pass", 'ESC "[?6c" came back')
    wrong = one(reply, answer("r", data=b"\x1b[0c"))
    assert wrong.verdict == "fail" and not wrong.evidence
    assert words.reason(wrong) == 'ESC "[" parameters "c" must come back, not ESC "[0c"'


# -- presses ---------------------------------------------------------------------------------------

Q = step("press/q", "keyboard", "press")


CAME = Arrived(None, b"x")
"""Something has come over the line."""


def heard(*events, word=DIFFERS):
    data = b"".join(event.data for event in events)
    return answer("press/q", word, data=data, heard=Heard(9600, 8, events))


def test_a_press_is_judged_by_what_came_whatever_the_word():
    right = one(Q, heard(Received(1.0, b"q")))
    assert (right.verdict, right.because) == ("pass", Pressed((Right(b"q"),), Rate(1, 1)))
    dead = one(Q, CAME, heard(word=AS_EXPECTED))
    assert (dead.verdict, dead.because) == ("fail", Pressed((Missing(b"q"),), Rate(0, 1)))


def test_the_last_press_counts_but_a_contact_that_works_only_sometimes_fails():
    found = one(Q, CAME, heard(), heard(Received(1.0, b"q")))
    assert (found.verdict, found.because) == ("fail", Pressed((Right(b"q"),), Rate(1, 2)))
    found = one(Q, heard(), TakenBack("press/q"), heard(Received(1.0, b"q")))
    assert found.verdict == "pass"
    found = one(Q, heard(Received(1.0, b"w")), heard(Received(1.0, b"q")))
    assert found.verdict == "pass"


def test_a_press_without_what_was_heard_goes_by_its_word():
    skipped = one(Q, heard(), answer("press/q", SKIPPED, note="no keycap"))
    assert (skipped.verdict, words.reason(skipped)) == ("skipped", "no keycap")
    assert one(Q, answer("press/q", DIFFERS)).verdict == "fail"


def test_a_code_that_came_is_named_by_the_plan_s_keys():
    steps = dataclasses.replace(plan(Q), key_codes=((b"w", ('key "W"',)),))
    found = judge(steps, [heard(Received(1.0, b"w"))]).steps[0]
    assert words.reason(found).startswith('"w" came, the code of key "W", not "q"')


def test_what_was_heard_is_noticed_with_the_speed_of_its_line():
    twice = (Received(1.0, b"q"), Received(1.009, b"q"))

    def kinds(speed_baud):
        noticed = heard_as(press("press/q"), Heard(speed_baud, 7, twice), {})
        return [one.kind for one in noticed]

    assert kinds(300) == ["right", "extra"] and kinds(9600) == ["right", "bounce"]


# -- the run ---------------------------------------------------------------------------------------


def run_of(*given):
    """Return the verdict of a run whose steps were answered by these words, None for none."""
    steps = [look(str(number)) for number in range(len(given))]
    records = [answer(str(number), word) for number, word in enumerate(given) if word]
    return judge(plan(*steps), records).verdict


def test_a_run_passes_only_where_everything_fitted_passed():
    assert run_of(AS_EXPECTED, AS_EXPECTED) == "pass"
    for word in (DISPUTED, UNSURE, SKIPPED, None):
        assert run_of(AS_EXPECTED, word) == "incomplete"
        assert run_of(DIFFERS, word) == "fail"
    assert judge(plan(), []).verdict == "incomplete"
    assert judge(plan(look("a", not_fitted="x")), []).verdict == "incomplete"


def test_other_records_and_unknown_steps_do_not_matter():
    noise = [Sent("a", b"A"), Resumed(), answer("gone", DIFFERS), Finished("fail")]
    assert judge(plan(look("a")), [*noise, answer("a")]).verdict == "pass"


def test_a_step_that_has_changed_since_it_was_answered_is_open_again():
    steps = plan(look("a"), look("b", covered_by=("a",)), look("c"))
    records = [answer("a", hash="hash of a"), answer("b", hash="another"), answer("c", DIFFERS)]
    found = judge(steps, records).steps
    assert [step.verdict for step in found] == ["pass", "unanswered", "fail"]
    assert [step.because for step in found] == [None, Changed(), None]
    assert judge(steps, [*records, TakenBack("b")]).steps[1].verdict == "pass", "it is covered"


def test_an_answer_counts_under_the_hashes_of_the_same_step_of_earlier_texts():
    earlier = EarlierForms(same={"a": frozenset({"old"})})
    steps = dataclasses.replace(plan(look("a")), earlier=earlier)
    assert judge(steps, [answer("a", hash="old")]).verdict == "pass"
    assert judge(steps, [answer("a", hash="older")]).verdict == "incomplete"
    between = [answer("a", hash="old"), answer("a", DIFFERS, hash="other")]
    assert judge(steps, between).verdict == "incomplete", "the last answer was to another step"
    assert judge(steps, [*between, answer("a", hash="hash of a")]).steps[0].answers == 1


EVENTS = st.lists(
    st.tuples(st.integers(0, 5), st.sampled_from([*WORDS, "taken-back"])), max_size=30
)


def record_of(number, word):
    return TakenBack(str(number)) if word == "taken-back" else answer(str(number), word)


@given(EVENTS)
def test_judging_with_what_is_known_gives_the_same(events):
    needs = {n: (str(n - 1),) * (n % 2) for n in range(6)}
    steps = plan(*(look(str(n), needs=needs[n]) for n in range(6)))
    records, known = [], {}
    for number, word in events:
        records.append(record_of(number, word))
        assert judge(steps, records, known) == judge(steps, records)
    found = judge(steps, records)
    of_fitted = (
        model.PASS,
        model.FAIL,
        model.UNSURE,
        model.DISPUTED,
        model.SKIPPED,
        model.BLOCKED,
        model.UNANSWERED,
    )
    assert sum(map(found.count, of_fitted)) == 6


def test_an_answer_that_amends_takes_the_place_of_the_one_before():
    made, known = plan(step("press/q", "keys", "press")), {}

    def heard(data, amends=False):
        events = tuple(Received(0.1 + 0.01 * at, bytes([one])) for at, one in enumerate(data))
        answer = Answer("differs", data=data, heard=Heard(9600, 7, events))
        return Answered("press/q", answer, amends=amends)

    (right,) = judge(made, [heard(b"q")], known).steps
    (bounced,) = judge(made, [heard(b"q"), heard(b"qq", amends=True)], known).steps
    assert (right.verdict, bounced.verdict) == ("pass", "fail")
    assert right.answers == bounced.answers == 1
