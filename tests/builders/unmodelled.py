"""Faults of kinds that are not in the catalogue: flagged, not explained, in at least 90 %."""

import random

from helpers.virtual_builders import Eyes, Reader, looks_to_play, played

from . import stage
from .odd_boards import ODD_BOARDS
from .person import REGIONS, Person, by_errors
from .tables import heading, names, row, share


def play(request):
    heading(
        f"Kinds of faults that are not in the catalogue, all looks, {len(ODD_BOARDS)} kinds",
        *("who looks", "a look differs", "of these flagged: nothing said to explain it"),
    )
    ways = {
        "whole screens": _by(Reader()),
        "yes and no": _by(Eyes(request.seed)),
        "yes and no, of regions too": lambda make: _of_regions(make, request.seed),
    }
    odd = []
    for who, found_of in ways.items():
        found = {kind: found_of(make) for kind, make in ODD_BOARDS.items()}
        shown = {kind: one for kind, one in found.items() if one.suspects or one.blocks}
        held = {kind: one for kind, one in shown.items() if one.is_explained}
        row(who, share(len(shown), len(found)), share(len(shown) - len(held), len(shown)))
        odd += [
            f"{kind} held for {one.suspects[0].faults[0]} ({who})" for kind, one in held.items()
        ]
        odd += [f"{kind} not seen ({who})" for kind in found.keys() - shown.keys()]
    names(odd)


def _by(observer):
    """Return what concludes from all looks at a board, answered by `observer`."""
    looks = looks_to_play(stage.plan())
    return lambda make: stage.concluded(played(make(stage.PROFILE), looks, observer))


def _of_regions(make, seed):
    """Return the Diagnosis of all looks at a board by one who is asked of regions too."""
    chance = random.Random(seed)
    person = Person("", REGIONS, by_errors(0, chance), chance, board=make(stage.PROFILE))
    person.look_at_all()
    return stage.concluded(person.records)
