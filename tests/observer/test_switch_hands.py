"""Hands that move a switch without a person."""

from helpers.bench import look
from helpers.bench_plan import step
from termprobe.journal.records import AS_EXPECTED, Answer
from termprobe.observer.switch_hands import HandsObserver

SWITCH = step("w", "s", "switch", option="echo", position="on")


def test_hands_set_the_option_that_a_step_asks_for_and_claim_no_other():
    done = []
    hands = HandsObserver(lambda *option: done.append(option), ["echo"])
    elsewhere = HandsObserver(lambda *option: done.append(option), ["parity"])
    assert hands.can_answer(SWITCH) and not elsewhere.can_answer(SWITCH)
    assert not hands.can_answer(look("a"))
    assert hands.answer(SWITCH) == Answer(AS_EXPECTED)
    assert done == [("echo", "on")]
