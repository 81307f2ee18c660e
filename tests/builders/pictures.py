"""Eight pictures: looks to the true class, at most 5 on average, and 10 in the 90th percentile."""

import statistics

from .sitting import sit
from .tables import heading, milliseconds, names, row, share, spread

USUAL = 20


def play(request):
    odd = []
    heading(
        "Eight pictures, each look the one that tells most next",
        *("faults", "wrong answers", "true class first", "named by the first suspect", "stated"),
        *("looks: mean, 90 %, most", "pictures there: median, 90 %"),
    )
    for words, drawn in _samples(request).items():
        for errors in request.errors:
            found = [
                sit(name, True, errors, request.seed + number, request.is_fewest)
                for number, name in enumerate(drawn)
            ]
            _show(words, errors, found)
            odd += [f"{one.name} at {errors:.0%}" for one in found if not one.is_first]
    names(odd)


def _samples(request):
    """Return the faults to play: each once, and each as often as it is common."""
    each_once = {"each once": request.drawn(USUAL)}
    if request.is_every:
        return each_once
    return each_once | {"as often as common": request.drawn_by_weight(USUAL)}


def _show(words, errors, found):
    row(
        *(words, f"{errors:.0%}"),
        share(sum(one.is_first for one in found), len(found)),
        share(sum(one.is_named for one in found), len(found)),
        f"{statistics.mean(one.stated for one in found):.1%}",
        spread([one.looks for one in found]),
        milliseconds([wait_s for one in found for wait_s in one.pictures_s]),
    )
