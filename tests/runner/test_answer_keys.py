"""What a code of the board's own keyboard answers; modes/test_waiting.py: what proves its keys."""

import pytest

from helpers.scripts import acceptance
from termprobe.journal.records import AS_EXPECTED, DIFFERS, KEYBOARD, Answer, Answered
from termprobe.plan.model import Look
from termprobe.runner.answer_keys import are_proven, letter_of, word_of
from termprobe.runner.course import course_of


@pytest.mark.parametrize(
    "code, letter, word",
    [(0x79, "y", AS_EXPECTED), (0xD9, "y", AS_EXPECTED), (0x4E, "n", DIFFERS), (0x58, None, None)],
)
def test_capitals_and_an_eighth_bit_do_not_matter(code, letter, word):
    assert (letter_of(code), word_of(code)) == (letter, word)


def test_in_an_acceptance_they_are_proven_before_the_first_look():
    plan = acceptance()
    step = plan.step("any-key")
    answer = Answer(AS_EXPECTED, data=step.typed, strength=KEYBOARD)
    assert are_proven(course_of(plan, [Answered(step.id, answer, step.hash)]))
    looks = [plan.index[look.id] for look in plan.steps if isinstance(look, Look)]
    assert plan.index[step.id] < plan.index["first-character"] < min(looks)
