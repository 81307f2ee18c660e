"""What may be typed back of a word that is read off the screen, by each cause."""

from collections.abc import Hashable, Mapping, Sequence

from termprobe.board.faults.catalogue import catalogue
from termprobe.board.faults.model import Fault
from termprobe.diagnosis.accounts import Case, typed_off
from termprobe.diagnosis.answers import TypedAnswer, question_of
from termprobe.diagnosis.replay import records_of_step, replay
from termprobe.plan.model import Plan, TypedBack
from termprobe.profile.model import Profile

MOST_TYPED = 30
"""For so many it is played what would be typed back. With 12 instead, answers of yes and no needed
1.6 looks more and named one fault of 12 less."""
A_SLIP = "a slip"

Words = dict[tuple[str, str], bytes]
"""By the id of a step and the name of a fault what is read off the screen."""

_known: list[tuple[Profile, Plan, Mapping[str, Fault], Words]] = []
"""What was played last: a session asks for the same again after every answer."""


def outlooks_of_typed(
    case: Case, names: Sequence[str], step: TypedBack
) -> dict[str, Mapping[Hashable, float]]:
    """Return by each cause of these `names` what may be typed, with its probability.

    The most probable come first; of those far behind it is the right word. It is empty where the
    word does not stand on the screen.
    """
    asked = question_of(step)
    if asked is None:
        return {}
    faults, words = _played_by_now(case)
    slip = case.rates.slip
    typed: dict[str, bytes] = dict.fromkeys(names, asked.wanted)
    for name in names[:MOST_TYPED]:
        if name in faults:
            typed[name] = _word(case, asked, step, faults[name], words)
    alike: dict[bytes, Mapping[Hashable, float]] = {
        word: {word: 1 - slip, A_SLIP: slip} for word in set(typed.values())
    }
    return {name: alike[word] for name, word in typed.items()}


def _played_by_now(case: Case) -> tuple[Mapping[str, Fault], Words]:
    """Return the faults of the board of `case`, and what was played of its plan."""
    for profile, plan, faults, words in _known:
        if profile is case.profile and plan is case.plan:
            return faults, words
    _known[:] = [(case.profile, case.plan, catalogue(case.profile), {})]
    return _known[0][2:]


def _word(case: Case, asked: TypedAnswer, step: TypedBack, fault: Fault, words: Words) -> bytes:
    key = step.id, fault.name
    if key not in words:
        (shown,) = replay(case.profile, case.plan, records_of_step(step), [asked], fault)
        words[key] = typed_off(shown, asked)
    return words[key]
