"""What to ask next where nothing shows or comes, and which cause the answers name."""

from collections.abc import Mapping
from math import log2

from termprobe.line.silence import CAUSES, QUESTIONS, SilenceCause, SilenceQuestion

SLIP = 0.05
"""How often a question is answered wrongly; from experience, and high for a meter's."""
SURE = 0.9
"""Probability at which a cause is named."""
LEAST_GAIN_BITS = 0.02
"""A question that tells less is not asked."""

Answers = Mapping[str, bool | None]
"""Name of a question: yes or no, None where it could not be answered."""


def probabilities(answers: Answers) -> dict[str, float]:
    """Return for each cause by its name how probable `answers` make it; they sum to 1."""
    weights = {cause.name: cause.cases * _likelihood(cause, answers) for cause in CAUSES}
    total = sum(weights.values())
    return {name: weight / total for name, weight in weights.items()}


def leader(answers: Answers) -> tuple[SilenceCause, float]:
    """Return the most probable cause, and its probability."""
    odds = probabilities(answers)
    cause = max(CAUSES, key=lambda cause: odds[cause.name])
    return cause, odds[cause.name]


def next_question(answers: Answers) -> SilenceQuestion | None:
    """Return what tells most for each second that it takes; None where a cause is named.

    None also where nothing that is left tells anything.
    """
    odds = probabilities(answers)
    if max(odds.values()) >= SURE:
        return None
    gains = {
        question: _gain_bits(question, odds)
        for question in QUESTIONS
        if question.name not in answers
    }
    telling = [question for question, gain in gains.items() if gain >= LEAST_GAIN_BITS]
    if not telling:
        return None
    return max(telling, key=lambda question: gains[question] / question.seconds)


def _likelihood(cause: SilenceCause, answers: Answers) -> float:
    found = 1.0
    for name, answer in answers.items():
        if answer is not None:
            found *= _chance(cause, name, answer)
    return found


def _chance(cause: SilenceCause, question: str, answer: bool) -> float:
    """Return the chance of this answer where `cause` is there."""
    expected = cause.answers.get(question)
    if expected is None:
        return 0.5
    return 1 - SLIP if answer == expected else SLIP


def _gain_bits(question: SilenceQuestion, odds: Mapping[str, float]) -> float:
    """Return by how much the answer to `question` is expected to tell causes apart."""
    gain = 0.0
    for answer in (True, False):
        joint = [odds[cause.name] * _chance(cause, question.name, answer) for cause in CAUSES]
        total = sum(joint)
        gain += sum(part * log2(part / total) for part in joint)
    return gain - sum(part * log2(part) for part in odds.values() if part)
