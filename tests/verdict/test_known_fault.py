"""Verdicts of a run that goes on with a known fault: what passes, what fails, what blocks."""

import dataclasses

from helpers.bench import look, plan, screen_of
from termprobe.journal.kept import ShownWithFaults
from termprobe.journal.known_fault import KnownFault
from termprobe.journal.records import AS_EXPECTED, DIFFERS, DUMP, Answer, Answered
from termprobe.terminal.screen import UNKNOWN_CHARACTER
from termprobe.verdict.judge import judge
from termprobe.verdict.known_fault import expected_with
from termprobe.verdict.model import AsOfGoodBoard, AsWithFault, Covered, Differing, Hidden

STUCK = "bank-0-data/stuck/2/0"
WITH_FAULT = screen_of("HALLO", cursor=(0, 5))
SHOWN = ShownWithFaults((STUCK,), WITH_FAULT.rows, WITH_FAULT.cursor)


def known(*explains, hidden=()):
    return KnownFault(STUCK, (), "line 2 is stuck at 0", explains, hidden)


def dump(step_id, text, word=DIFFERS, against=None):
    screen = screen_of(text)
    answer = Answer(word, screen.rows, (0, 5), 0, strength=DUMP)
    return Answered(step_id, answer, against=against)


def eyes(step_id, word, against=None):
    return Answered(step_id, Answer(word), against=against)


def judged(steps, *records):
    return judge(plan(*steps), records)


def verdicts(found):
    return [step.verdict for step in found.steps]


def test_a_screen_as_the_known_fault_shows_it_passes_and_the_board_does_not():
    steps = look("a"), look("b"), look("c")
    failed = dump("a", "HALLO"), dump("b", "HALLO")
    found = judged(steps, *failed, known("a", "b"), dump("c", "HALLO", AS_EXPECTED, SHOWN))
    assert verdicts(found) == ["fail", "fail", "pass"]
    assert found.steps[2].because == AsWithFault((STUCK,))
    assert (found.verdict, found.exit_code) == ("fail", 1)
    assert [fault.fault for fault in found.known_faults] == [STUCK]


def test_eyes_are_believed_of_the_screen_that_they_were_shown():
    found = judged([look("a")], known(), eyes("a", AS_EXPECTED, SHOWN))
    assert found.steps[0].because == AsWithFault((STUCK,))
    assert verdicts(judged([look("a")], known(), eyes("a", DIFFERS, SHOWN))) == ["fail"]


def test_the_board_fails_though_every_step_has_passed():
    found = judged([look("a")], known(), eyes("a", AS_EXPECTED))
    assert (verdicts(found), found.verdict) == (["pass"], "fail")
    assert judged([look("a")], known()).verdict == "fail"


def test_a_second_fault_stands_out_against_the_screen_of_the_first():
    found = judged([look("a")], known(), dump("a", "HALLA", DIFFERS, SHOWN)).steps[0]
    assert found.verdict == "fail" and isinstance(found.because, Differing)
    assert [(cell.column, cell.expected, cell.seen) for cell in found.differs] == [(4, "O", "A")]


def test_what_is_as_on_a_good_board_passes_and_says_that_the_fault_was_not_seen():
    found = judged([look("a")], known(), dump("a", "HELLO", DIFFERS, SHOWN)).steps[0]
    assert (found.verdict, found.because) == ("pass", AsOfGoodBoard((STUCK,)))


def test_cells_of_which_nothing_is_known_may_hold_anything():
    unknown = dataclasses.replace(SHOWN, rows=(f"HALL{UNKNOWN_CHARACTER}   ", *SHOWN.rows[1:]))
    found = judged([look("a")], known(), dump("a", "HALLX", AS_EXPECTED, unknown)).steps[0]
    assert (found.verdict, found.differs) == ("pass", ())


def test_what_the_known_fault_explains_blocks_nothing_and_anything_else_does():
    steps = look("a"), look("b"), look("c", needs=("a",)), look("d", needs=("b",))
    found = judged(steps, eyes("a", DIFFERS), eyes("b", DIFFERS), known("a"))
    assert verdicts(found) == ["fail", "fail", "unanswered", "blocked"]
    assert [step.known_fault for step in found.steps] == [STUCK, "", "", ""]


def test_a_look_that_fails_again_with_the_fault_known_is_not_explained():
    found = judged([look("a")], eyes("a", DIFFERS), known("a"), eyes("a", DIFFERS, SHOWN))
    assert (found.steps[0].verdict, found.steps[0].known_fault) == ("fail", "")


def test_what_the_fault_hides_is_blocked_until_it_is_answered_all_the_same():
    steps = look("a"), look("b", needs=("a",))
    found = judged(steps, known(hidden=("a",)))
    assert verdicts(found) == ["blocked", "unanswered"]
    assert found.steps[0].because == Hidden(STUCK)
    assert verdicts(judged(steps, known(hidden=("a",)), eyes("a", AS_EXPECTED)))[0] == "pass"


def test_a_look_that_passed_with_the_fault_covers_no_other():
    steps = look("a"), look("b", covered_by=("a",))
    assert verdicts(judged(steps, known(), eyes("a", AS_EXPECTED, SHOWN))) == ["pass", "unanswered"]
    found = judged(steps, known(), eyes("a", AS_EXPECTED))
    assert found.steps[1].because == Covered(("a",))


def test_the_screen_with_a_fault_is_shown_in_the_variant_that_the_plan_expects():
    national = dataclasses.replace(screen_of("HÄLLO"), variant="german", renditions={(0, 0): "d"})
    found = expected_with(look("a", expected=national), SHOWN)
    assert (found.rows, found.cursor, found.variant) == (SHOWN.rows, (0, 5), "german")
    assert found.renditions == {(0, 0): "d"} and expected_with(look("a"), SHOWN) == WITH_FAULT
