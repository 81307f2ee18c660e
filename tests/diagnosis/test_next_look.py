"""The look that tells most next: by worked gains, and by what it does to the suspects."""

import functools

import pytest

from helpers.dictionaries import of_acceptance
from helpers.scripts import SINGLE, acceptance, look, plan_of
from helpers.virtual_builders import Eyes, Reader, looks_to_play, records_of
from termprobe.board.faults.model import block_of
from termprobe.diagnosis import next_look, typed_outlooks
from termprobe.diagnosis.diagnose import case_of, diagnose
from termprobe.diagnosis.dictionary import fault_dictionary
from termprobe.diagnosis.look_outlooks import Candidate, looks_with_outlooks
from termprobe.diagnosis.next_look import gain_of_yes_or_no
from termprobe.diagnosis.why_next import WhyNext
from termprobe.verdict.judge import judge

PLAN = plan_of(
    [
        look("stars", [{"pattern": "solid", "with": "*"}]),
        look("again", [{"pattern": "solid", "with": "*"}]),
        look("rows", [{"pattern": "row-tags"}]),
        look("parity", [{"pattern": "address-parity", "with": "_?"}]),
        look("up", [{"command": "down", "times": 3}, {"command": "up"}, {"text": "B"}]),
        '{id: typed, kind: typed-back, title: T, question: Q, word: "#.4FY"}',
    ]
)


@functools.cache
def known_faults():
    return fault_dictionary(SINGLE, PLAN)


LOOKS = {step.id: step for step in looks_to_play(PLAN)}


def after(name, looks, observer):
    records = records_of(SINGLE, PLAN, [name], observer, [LOOKS[one] for one in looks])
    return diagnose(SINGLE, PLAN, records, judge(PLAN, records), known_faults())


@pytest.mark.parametrize(
    "yes, error, bits",
    [
        *((4, 0, 1.0), (2, 0, 0.8113), (1, 0, 0.5436)),
        *((4, 0.05, 0.7136), (2, 0.05, 0.5622), (1, 0.05, 0.3539)),
    ],
)
def test_gains_of_eight_equal_hypotheses(yes, error, bits):
    """A split 4/4 without errors is one bit; the others follow from the entropy function."""
    chances = [1 - error] * yes + [error] * (8 - yes)
    assert gain_of_yes_or_no([1 / 8] * 8, chances) == pytest.approx(bits, abs=5e-5)


def test_the_same_look_again_is_not_what_tells_most():
    found = after("bank-0-data/stuck/1/0", ["stars"], Eyes(1))
    assert found.next not in ("stars", "again", None)


def test_it_names_nothing_that_was_answered_and_nothing_where_nothing_would_tell_more():
    asked = ["stars"]
    name = "decoder/dead/up"
    found = after(name, ["up"], Reader())
    while found.next in LOOKS:
        assert found.next not in asked
        asked.append(found.next)
        found = after(name, ["up", *asked], Reader())
    assert len(asked) < len(LOOKS) + 1 and name in found.suspects[0].faults


def test_following_it_parts_the_suspects():
    name = "bank-1-data/stuck/5/0"
    first = after(name, ["stars"], Reader())
    assert first.next in LOOKS
    second = after(name, ["stars", first.next], Reader())
    assert name in second.suspects[0].faults
    assert len(second.suspects[0].faults) <= len(first.suspects[0].faults)


ASKED = (
    *("column-tags", "solid-2a", "solid-55", "row-tags", "erase-to-end-of-line", "scroll-round"),
    *("return", "margin-bottom", "edges-without-scroll", "scroll-three", "erase-to-end-of-display"),
)
"""After these, what is left open hangs on whether one look was missed: `margin-bottom`."""


def test_where_no_other_look_tells_anything_that_one_is_asked_again_on_which_all_hangs():
    plan = acceptance()
    looks = [plan.step(look) for look in ASKED]
    records = records_of(SINGLE, plan, ["bank-1-address/stuck/5/0"], Eyes(1), looks)
    found = diagnose(SINGLE, plan, records, judge(plan, records), of_acceptance())
    assert found.suspects[0].probability < 0.95
    assert (found.next, found.why_next) == ("margin-bottom", WhyNext.TELLS_MOST_AGAIN)


def test_every_step_that_may_be_asked_says_by_each_cause_what_may_be_answered():
    """The look that was answered is among them: it may be asked once more."""
    records = records_of(SINGLE, PLAN, ["scroll/dead"], Eyes(1), [LOOKS["rows"]])
    verdict = judge(PLAN, records)
    case = case_of(SINGLE, PLAN, records, verdict)
    causes = [Candidate("scroll/dead", "scroll", 0.5), Candidate("decoder/dead/up", "decoder", 0.5)]
    pairs = looks_with_outlooks(case, causes, verdict, known_faults())
    found = {step.id: outlooks for step, outlooks in pairs}
    assert found.keys() == {*LOOKS, "typed"}
    for outlooks in found.values():
        for cause in causes:
            assert sum(outlooks[cause.name].values()) == pytest.approx(1)


def test_what_causes_have_in_common_is_worked_out_once(monkeypatch):
    """Of yes and no there are a few chances to be noticed, however many faults are weighed."""
    counted, entropy = [], next_look._entropy
    monkeypatch.setattr(next_look, "_entropy", lambda told: counted.append(1) or entropy(told))
    assert after("bank-0-data/stuck/1/0", ["stars"], Eyes(1)).next is not None
    blocks = {block_of(name) for name in known_faults().faults}
    chances, of_a_look = 6, len(blocks) + 1
    of_the_word = of_a_look + typed_outlooks.MOST_TYPED
    assert 0 < len(counted) <= len(LOOKS) * (of_a_look + chances) + of_the_word


def test_a_word_is_played_once_for_each_fault(monkeypatch):
    played, replay = [], typed_outlooks.replay
    monkeypatch.setattr(
        typed_outlooks, "replay", lambda *told: played.append(told) or replay(*told)
    )
    monkeypatch.setattr(typed_outlooks, "_known", [])
    first = after("bank-0-data/stuck/1/0", ["stars"], Eyes(1))
    count = len(played)
    assert count and after("bank-0-data/stuck/1/0", ["stars"], Eyes(1)) == first
    assert len(played) == count
