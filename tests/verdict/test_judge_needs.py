"""What other steps say of a step: one that it needs failed, or one that covers it passed."""

from helpers.bench import look, plan
from termprobe.journal.records import AS_EXPECTED, DIFFERS, Answer, Answered, TakenBack
from termprobe.report import words
from termprobe.verdict.judge import judge
from termprobe.verdict.model import Blocked, Covered


def answer(step_id, word=AS_EXPECTED):
    return Answered(step_id, Answer(word, observer="builder"))


def verdicts(steps, *answers):
    return [step.verdict for step in judge(plan(*steps), answers).steps]


def test_a_failed_need_blocks_through_others_and_says_why():
    steps = (look("a"), look("b", needs=("a",)), look("c", needs=("b",)), look("d"))
    found = judge(plan(*steps), [answer("a", DIFFERS), answer("d")]).steps
    assert [step.verdict for step in found] == ["fail", "blocked", "blocked", "pass"]
    assert [step.because for step in found[1:3]] == [Blocked(("a",)), Blocked(("b", "a"))]
    assert words.reason(found[1]) == "needs a, which failed"
    assert words.reason(found[2]) == "needs b, which is blocked: needs a, which failed"


def test_an_answer_behind_a_failed_need_means_nothing_until_that_is_answered_again():
    steps = (look("a"), look("b", needs=("a",)))
    assert verdicts(steps, answer("b"), answer("a", DIFFERS)) == ["fail", "blocked"]
    assert verdicts(steps, answer("b"), answer("a", DIFFERS), answer("a")) == ["pass", "pass"]
    found = judge(plan(*steps), [answer("b"), answer("a", DIFFERS)]).steps[1]
    assert (found.because, found.answers) == (Blocked(("a",), ignored="pass"), 1)


def test_only_failure_blocks():
    steps = (look("a"), look("b", needs=("a", "unheard-of")))
    for word in ("unsure", "skipped", "disputed", "as-expected"):
        assert verdicts(steps, answer("a", word), answer("b"))[1] == "pass"
    unfitted = (look("a", not_fitted="no such command"), steps[1])
    assert verdicts(unfitted, answer("b")) == ["not-fitted", "pass"]
    assert verdicts(steps, answer("b")) == ["unanswered", "pass"]


def test_needs_in_a_circle_or_backwards_end():
    steps = (look("c", needs=("b",)), look("b", needs=("a", "c")), look("a"))
    assert verdicts(steps, answer("a", DIFFERS)) == ["blocked", "blocked", "fail"]
    assert verdicts((look("a", needs=("b",)), look("b", needs=("a",)))) == ["unanswered"] * 2


def test_a_step_that_nobody_answered_passes_with_the_looks_that_cover_it():
    steps = (look("a"), look("b"), look("c", covered_by=("a", "b")))
    found = judge(plan(*steps), [answer("a"), answer("b")]).steps[2]
    assert (found.verdict, found.because, found.answers) == ("pass", Covered(("a", "b")), 0)
    assert words.reason(found) == "covered by a and b, which passed"
    own = verdicts(steps, answer("a"), answer("b"), answer("c", DIFFERS))
    assert own[2] == "fail", "an answer of its own counts"


def test_a_step_passes_by_no_look_that_was_not_seen_to_be_right():
    steps = (look("a"), look("b"), look("c", covered_by=("a", "b")))
    for word in ("differs", "unsure", "disputed", "skipped"):
        assert verdicts(steps, answer("a", word), answer("b"))[2] == "unanswered"
        assert verdicts(steps, answer("a"), answer("b", word))[2] == "unanswered"
    assert verdicts(steps, answer("a"))[2] == "unanswered"
    taken_back = [answer("a"), answer("b"), TakenBack("b")]
    assert verdicts(steps, *taken_back)[2] == "unanswered"
    unfitted = (look("a"), look("b", not_fitted="no bell"), steps[2])
    assert verdicts(unfitted, answer("a"))[2] == "unanswered"
    elsewhere = (look("c", covered_by=("elsewhere",)),)
    assert verdicts(elsewhere) == ["unanswered"], "what covers it is no part of this run"


def test_what_is_blocked_or_covered_itself_covers_nothing():
    steps = (look("a"), look("b", needs=("a",)), look("c", covered_by=("b",)))
    assert verdicts(steps, answer("a", DIFFERS), answer("b")) == ["fail", "blocked", "unanswered"]
    chain = (look("a"), look("b", covered_by=("a",)), look("c", covered_by=("b",)))
    assert verdicts(chain, answer("a")) == ["pass", "pass", "unanswered"]
    needing = (look("a"), look("n"), look("b", covered_by=("a",), needs=("n",)))
    assert verdicts(needing, answer("a"), answer("n", DIFFERS))[2] == "blocked"


def test_what_is_not_fitted_stays_so_whatever_it_needs():
    steps = (look("a"), look("b", needs=("a",), not_fitted="no bell"))
    assert verdicts(steps, answer("a", DIFFERS))[1] == "not-fitted"
