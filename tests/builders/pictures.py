"""Eight pictures: looks to the true class, at most 5 on average, and 10 in the 90th percentile.

What is counted goes until a class is sure; those that confirm it stand beside it.

Faults are drawn each once, rare kinds too, and as often as they are thought to be common. Who sees
none of the pictures says no more than that; or marks a cell, as the session then asks.
"""

import statistics

from . import halving
from .halving import fewest
from .person import PICTURES, PICTURES_AND_MARKS
from .sitting import sit
from .tables import heading, milliseconds, names, row, share, spread

USUAL, MOST_WANTED = 16, 10


def play(request):
    odd = []
    heading(
        "Eight pictures, each look the one that tells most next",
        *("faults", "wrong answers", "true class first", "named by the first suspect", "stated"),
        *("looks until sure: mean, 90 %, most", "at most 10 looks", "looks to confirm, mean"),
        "pictures there: median, 90 %",
    )
    for words, says, drawn in _samples(request):
        for errors in request.errors:
            found = [
                sit(name, says, errors, request.seed + number, request.is_fewest)
                for number, name in enumerate(drawn)
            ]
            _show(f"{len(drawn)}, {words}", errors, found)
            odd += [f"{one.name} at {errors:.0%}" for one in found if not one.is_first]
    names(odd)
    best = fewest(halving.pictures, str)
    print(f"In the best order, no answer wrong, the first one too: {1 + best.looks:.1f} looks with")
    print(f"faults as often as common, {1 + best.looks_of_each:.1f} with each once")


def _samples(request):
    """Return (words, what the builder says, faults) of each sample to play."""
    once = request.drawn(USUAL)
    samples = [("each once", PICTURES, once)]
    if not request.is_every:
        common = request.drawn_by_weight(USUAL)
        samples.append(("as often as common", PICTURES, common))
    marks = "each once; of none of them a cell marked"
    return [*samples, (marks, PICTURES_AND_MARKS, once)]


def _show(words, errors, found):
    row(
        *(words, f"{errors:.0%}"),
        share(sum(one.is_first for one in found), len(found)),
        share(sum(one.is_named for one in found), len(found)),
        f"{statistics.mean(one.stated for one in found):.1%}",
        spread([one.looks - one.confirming for one in found]),
        share(sum(one.looks - one.confirming <= MOST_WANTED for one in found), len(found)),
        f"{statistics.mean(one.confirming for one in found):.1f}",
        milliseconds([wait_s for one in found for wait_s in one.pictures_s]),
    )
