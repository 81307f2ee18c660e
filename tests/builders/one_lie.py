"""Any one lie: by how many of them the final class changes (aim 0), and what it costs in looks.

First in a run of all looks, answered by yes and no: each answer in turn is the wrong one. Then
where each look is the one that tells most next: the sitting goes on until it is sure again. In both
the class is confirmed before it is concluded, by looks that were not asked yet or once more. Where
the class is wrong without a lie, none can change it.
"""

import random
import statistics
from collections import Counter
from typing import NamedTuple

from .person import PICTURES, REGIONS, YES_OR_NO, Person, one_lie
from .sitting import confirmed, played
from .tables import heading, names, row, share, spread

USUAL, USUAL_SITTINGS = 12, 5


def play(request):
    heading(
        "One lie in a run of all looks",
        *("answers", "lies that change the final class", "faults of which one does"),
        "looks asked once more: without a lie, with one",
    )
    odd = _whole_runs(request, YES_OR_NO)
    heading(
        "One lie where each look is the one that tells most next",
        *("answers", "lies that change the final class", "looks without a lie", "looks with one"),
        "of these to confirm: without a lie, with one",
    )
    odd += _sittings(request, PICTURES)
    odd += _sittings(request, YES_OR_NO)
    odd += _sittings(request, REGIONS)
    names(odd)


class _Run(NamedTuple):
    """What a run of all looks comes to."""

    first: object
    """The class that comes first."""
    answers: int
    again: int
    """How many looks were asked once more."""


def _whole_runs(request, says):
    """Print a row; return the faults of which a lie changed the final class."""
    drawn = request.drawn(USUAL)
    changed, honest, lied = Counter(), [], []
    for name in drawn:
        true = _run(request, name, says, None)
        honest.append(true)
        for number in range(true.answers):
            found = _run(request, name, says, number)
            lied.append(found)
            changed[name] += found.first != true.first
    odd = [name for name, count in changed.items() if count]
    row(
        f"{says}, {len(drawn)} faults",
        share(changed.total(), len(lied)),
        share(len(odd), len(drawn)),
        f"{_mean_again(honest)}, {_mean_again(lied)}",
    )
    return [f"{name} ({changed[name]})" for name in odd]


def _mean_again(runs):
    return f"{statistics.mean(one.again for one in runs):.1f}"


def _run(request, name, says, lie):
    """Return the _Run in which the answer with the number `lie` is wrong, None for none."""
    chance = random.Random(request.seed)
    person = Person(name, says, one_lie(lie), chance)
    person.look_at_all()
    person.conclude()
    again = confirmed(person)
    return _Run(person.first_class(), person.answers, again)


def _sittings(request, says):
    """Print a row; return the lies that changed the final class."""
    drawn = request.drawn(USUAL_SITTINGS)
    honest, lied, odd = [], [], []
    for name in drawn:
        first = _sit(request, name, says, None)
        honest.append(first)
        if not first.is_first:
            odd.append(f"{name} without a lie, {says}")
            continue
        for number in range(first.answers):
            found = _sit(request, name, says, number)
            lied.append(found)
            if not found.is_first:
                odd.append(f"{name} by lie {number + 1} of {first.answers}, {says}")
    row(
        f"{says}, {len(drawn)} faults, {sum(one.is_first for one in honest)} right without a lie",
        share(sum(not one.is_first for one in lied), len(lied)),
        spread([one.looks for one in honest]),
        spread([one.looks for one in lied]),
        f"{_mean_confirming(honest)}, {_mean_confirming(lied)}",
    )
    return odd


def _mean_confirming(sittings):
    return f"{statistics.mean(one.confirming for one in sittings):.1f}"


def _sit(request, name, says, lie):
    """Return the Sitting in which the answer with the number `lie` is wrong, None for none."""
    chance = random.Random(request.seed)
    person = Person(name, says, one_lie(lie), chance)
    return played(person, name, chance, request.is_fewest)
