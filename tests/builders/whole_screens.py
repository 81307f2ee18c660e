"""Full read-out: all looks answered by whole screens; the true class first for all faults."""

from helpers.virtual_builders import Reader, records_of

from . import stage
from .tables import heading, names, row, share

USUAL = 100


def play(request):
    drawn = request.drawn(USUAL)
    heading(
        f"Whole screens read, all looks, {len(drawn)} faults",
        *("true class first", "in the first three", "said to be explained"),
    )
    found = {name: _found(name) for name in drawn}
    places = {name: place_of(name, one) for name, one in found.items()}
    first = [name for name, place in places.items() if place == 0]
    row(
        share(len(first), len(drawn)),
        share(sum(place in (0, 1, 2) for place in places.values()), len(drawn)),
        share(sum(one.is_explained for one in found.values()), len(drawn)),
    )
    names([name for name in drawn if places[name] != 0])


def _found(name):
    return stage.concluded(records_of(stage.PROFILE, stage.plan(), [name], Reader()))


def place_of(name, found):
    """Return which of the suspects has the fault, from 0; None where none has."""
    for number, suspect in enumerate(found.suspects):
        if name in suspect.faults:
            return number
    return None
