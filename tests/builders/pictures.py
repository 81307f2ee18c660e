"""Eight pictures: looks to the true class, at most 5 on average, and 10 in the 90th percentile."""

from .sitting import sit
from .tables import heading, milliseconds, names, row, share, spread

USUAL = 30


def play(request):
    drawn, odd = request.drawn(USUAL), []
    heading(
        f"Eight pictures, {len(drawn)} faults, each look the one that tells most next",
        *("wrong answers", "true class first", "named by the first suspect"),
        *("looks: mean, 90th percentile, most", "pictures there: median, 90th percentile"),
    )
    for errors in request.errors:
        found = [
            sit(name, True, errors, request.seed + number, request.is_fewest)
            for number, name in enumerate(drawn)
        ]
        row(
            f"{errors:.0%}",
            share(sum(one.is_first for one in found), len(found)),
            share(sum(one.is_named for one in found), len(found)),
            spread([one.looks for one in found]),
            milliseconds([wait_s for one in found for wait_s in one.pictures_s]),
        )
        odd += [f"{one.name} at {errors:.0%}" for one in found if not one.is_first]
    names(odd)
