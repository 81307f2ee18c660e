"""Verdicts follow from plan and records alone: last answer, what can be compared, needs, and the run as a whole."""

from hypothesis import given
from hypothesis import strategies as st

from helpers.bench import look, plan
from termprobe.plan.model import Step
from termprobe.verdict import model
from termprobe.verdict.judge import changed, judge

RAIL = Step(
    "rail", "power", "measure", "Rail", "", unit="V", low=4.75, high=5.25, source="TTL data"
)


def answer(step, word="as-expected", **fields):
    return {
        "kind": "answer",
        "step": step,
        "word": word,
        "observer": "builder",
        "strength": 1,
        **fields,
    }


def one(step, *answers):
    return judge(plan(step), answers).steps[0]


def verdicts(steps, *answers):
    return [step.verdict for step in judge(plan(*steps), answers).steps]


def test_each_word_gives_its_verdict():
    words = {
        "as-expected": "pass",
        "differs": "fail",
        "unsure": "unsure",
        "disputed": "disputed",
        "skipped": "skipped",
    }
    assert {word: one(look("a"), answer("a", word)).verdict for word in words} == words
    assert one(look("a")).verdict == "unanswered"


def test_the_last_answer_counts_and_all_are_counted():
    found = one(look("a"), answer("a", "differs"), answer("a", "as-expected"))
    assert (found.verdict, found.answers, found.observer) == ("pass", 2, "builder")


def test_what_was_seen_overrules_the_word():
    found = one(look("a"), answer("a", "as-expected", seen=["HELP"]))
    assert found.verdict == "fail" and found.differs == ((0, 3, "L", "P"), (0, 4, "O", " "))
    assert found.reason == "2 cells differ"


def test_a_builder_who_sees_a_difference_is_believed_also_without_marks():
    found = one(look("a"), answer("a", "differs", seen=["HELLO"], note="dim"))
    assert (found.verdict, found.reason, found.differs) == (
        "fail",
        "seen to differ",
        (),
    ) and "note: dim" in found.evidence


def test_cursor_and_bells_are_compared_where_they_are_known():
    seen = {"seen": ["HELLO"], "strength": 2}
    assert one(look("a"), answer("a", cursor=[0, 5], bells=0, **seen)).verdict == "pass"
    assert one(look("a"), answer("a", cursor=None, **seen)).verdict == "pass"
    assert (
        one(look("a"), answer("a", cursor=[1, 0], **seen)).reason
        == "the cursor must be at row 0, column 5, not at row 1, column 0"
    )
    assert (
        one(look("a"), answer("a", bells=1, **seen)).reason == "the bell must ring never, not once"
    )


def test_readings_are_judged_against_the_plan():
    assert (
        one(RAIL, answer("rail", value=4.75)).verdict
        == one(RAIL, answer("rail", value=5.25)).verdict
        == "pass"
    )
    low = one(RAIL, answer("rail", value=4.7499))
    assert (low.verdict, low.reason, low.evidence) == (
        "fail",
        "4.7499 V, outside the limits, 4.75 to 5.25 V",
        ("limits from TTL data",),
    )
    assert (
        one(Step("r", "s", "measure", "R", "", low=3.0), answer("r", value=2.0)).reason
        == "2, outside the limits, at least 3"
    )
    assert (
        one(Step("r", "s", "measure", "R", "", unit="V"), answer("r", value=2.0)).reason
        == "2 V, noted; no limits are given"
    )


def test_a_blank_reading_is_not_measured_and_never_passed():
    found = one(RAIL, answer("rail", "as-expected", value=None))
    assert (found.verdict, found.reason) == ("unanswered", "not measured")


def test_replies_and_typed_words_are_compared_as_bytes():
    reply = Step("r", "s", "reply", "R", "", reply=b"\x1b/K")
    assert one(reply, answer("r", data="1b2f4b")).verdict == "pass"
    wrong = one(reply, answer("r", data="1b2f5a"))
    assert (wrong.verdict, wrong.reason) == ("fail", 'ESC "/K" must come back, not ESC "/Z"')
    assert one(reply, answer("r", data="")).reason == 'ESC "/K" must come back, not nothing'
    typed = Step("t", "s", "typed-back", "T", "", word="OK\r")
    assert one(typed, answer("t", "differs", data="4f4b0d")).verdict == "pass"
    assert one(typed, answer("t", data="4f4b")).verdict == "fail"


def test_a_failed_need_blocks_through_others_and_says_why():
    steps = (look("a"), look("b", needs=("a",)), look("c", needs=("b",)), look("d"))
    found = judge(plan(*steps), [answer("a", "differs"), answer("d")]).steps
    assert [step.verdict for step in found] == ["fail", "blocked", "blocked", "pass"]
    assert found[1].reason == "needs a, which failed"
    assert found[2].reason == "needs b, which is blocked: needs a, which failed"


def test_an_answer_behind_a_failed_need_means_nothing_until_that_is_answered_again():
    steps = (look("a"), look("b", needs=("a",)))
    assert verdicts(steps, answer("b"), answer("a", "differs")) == ["fail", "blocked"]
    assert verdicts(steps, answer("b"), answer("a", "differs"), answer("a")) == ["pass", "pass"]


def test_only_failure_blocks():
    steps = (look("a"), look("b", needs=("a", "unheard-of")))
    for word in ("unsure", "skipped", "disputed", "as-expected"):
        assert verdicts(steps, answer("a", word), answer("b"))[1] == "pass"
    assert verdicts((look("a", not_fitted="no such command"), steps[1]), answer("b")) == [
        "not-fitted",
        "pass",
    ]
    assert verdicts(steps, answer("b")) == ["unanswered", "pass"]


def test_needs_in_a_circle_or_backwards_end():
    steps = (look("c", needs=("b",)), look("b", needs=("a", "c")), look("a"))
    assert verdicts(steps, answer("a", "differs")) == ["blocked", "blocked", "fail"]
    assert verdicts((look("a", needs=("b",)), look("b", needs=("a",)))) == ["unanswered"] * 2


def test_a_step_that_nobody_answered_passes_with_a_look_that_settles_it():
    steps = (look("a"), look("b"), look("c", covered_by=("a", "b")))
    found = judge(plan(*steps), [answer("a", "differs"), answer("b")]).steps[2]
    assert (found.verdict, found.reason, found.answers) == ("pass", "covered by b, which passed", 0)
    assert verdicts(steps, answer("a"), answer("b"), answer("c", "differs"))[2] == "fail", (
        "an answer of its own counts"
    )
    for word in ("differs", "unsure", "disputed", "skipped"):
        assert verdicts(steps, answer("a", word))[2] == "unanswered"
    assert verdicts((look("c", covered_by=("elsewhere",)),)) == ["unanswered"], (
        "the looks that cover it are no part of this run"
    )


def test_what_is_blocked_or_settled_itself_settles_nothing():
    steps = (look("a"), look("b", needs=("a",)), look("c", covered_by=("b",)))
    assert verdicts(steps, answer("a", "differs"), answer("b")) == ["fail", "blocked", "unanswered"]
    chain = (look("a"), look("b", covered_by=("a",)), look("c", covered_by=("b",)))
    assert verdicts(chain, answer("a")) == ["pass", "pass", "unanswered"]
    assert (
        verdicts(
            (look("a"), look("n"), look("b", covered_by=("a",), needs=("n",))),
            answer("a"),
            answer("n", "differs"),
        )[2]
        == "blocked"
    )


def test_what_is_not_fitted_stays_so_whatever_it_needs():
    assert (
        verdicts(
            (look("a"), look("b", needs=("a",), not_fitted="no bell")), answer("a", "differs")
        )[1]
        == "not-fitted"
    )


def test_a_run_passes_only_where_everything_fitted_passed_or_is_disputed():
    def run(*words):
        steps = [look(str(number)) for number in range(len(words))]
        return judge(
            plan(*steps), [answer(str(number), word) for number, word in enumerate(words) if word]
        ).verdict

    assert run("as-expected", "disputed") == "pass"
    assert run("disputed") == "incomplete"  # nothing is proven by it
    for word in ("unsure", "skipped", None):
        assert run("as-expected", word) == "incomplete"
        assert run("differs", word) == "fail"
    assert judge(plan(), []).verdict == "incomplete"
    assert judge(plan(look("a", not_fitted="x")), []).verdict == "incomplete"


def test_other_records_and_unknown_steps_do_not_matter():
    noise = [
        {"kind": "sent", "step": "a", "data": "41"},
        {"kind": "resumed"},
        answer("gone", "differs"),
        {"kind": "finished", "verdict": "fail"},
    ]
    assert judge(plan(look("a")), [*noise, answer("a")]).verdict == "pass"


def test_steps_changed_since_they_were_answered_are_named():
    steps = plan(look("a"), look("b"), look("c"))
    records = [answer("a", hash="hash of a"), answer("b", hash="another")]
    assert changed(steps, records) == ("b",)
    assert judge(steps, records).steps[1].evidence == (
        "answered before the step was changed; answer it again",
    )


@given(
    st.lists(
        st.tuples(
            st.integers(0, 5),
            st.sampled_from(["as-expected", "differs", "unsure", "disputed", "skipped"]),
        ),
        max_size=30,
    )
)
def test_judging_with_what_is_known_gives_the_same(events):
    steps = plan(*(look(str(n), needs=(str(n - 1),) if n % 2 else ()) for n in range(6)))
    records, known = [], {}
    for number, word in events:
        records.append(answer(str(number), word))
        assert judge(steps, records, known) == judge(steps, records)
    found = judge(steps, records)
    assert (
        sum(
            found.count(word)
            for word in (
                model.PASS,
                model.FAIL,
                model.UNSURE,
                model.DISPUTED,
                model.SKIPPED,
                model.BLOCKED,
                model.UNANSWERED,
            )
        )
        == 6
    )
