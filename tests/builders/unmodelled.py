"""Faults of kinds that are not in the catalogue: flagged, not explained, in at least 90 %.

Beside it stands the price: how many boards with one fault of the catalogue are flagged as well. And
what yes and no, and regions, can tell at all: with how many of the kinds a fault of the catalogue
has the same answers.
"""

import random

from helpers.virtual_builders import Eyes, Reader, looks_to_play, played
from termprobe.board.board import Board

from . import stage
from .bounds import show_bounds
from .odd_boards import ODD_BOARDS
from .person import PICTURES_AND_MARKS, REGIONS, Person, by_errors
from .sitting import go_on_in_order
from .tables import heading, names, row, share

USUAL_KNOWN = 8
"""So many known faults are played beside."""


def play(request):
    heading(
        f"Kinds of faults that are not in the catalogue, {len(ODD_BOARDS)} kinds",
        *("who looks", "a look differs", "of these flagged: nothing said to explain it"),
        "known faults flagged",
    )
    odd = []
    known = {name: _board_with(name) for name in request.drawn(USUAL_KNOWN)}
    for who, found_of in _ways(request.seed).items():
        odd += _show(who, found_of, known)
    names(odd)
    show_bounds()


def _board_with(name):
    return lambda profile: Board(profile, [stage.faults()[name]])


def _ways(seed):
    """Return what concludes from a board, by who looks."""
    return {
        "whole screens": _by(Reader()),
        "yes and no": _by(Eyes(seed)),
        "yes and no, of regions too": lambda make: _of_regions(make, seed),
        "pictures; of none of them a cell marked and typed, asked until sure": (
            lambda make: _of_pictures(make, seed)
        ),
    }


def _show(who, found_of, known):
    """Print a row; return the kinds that were held for a fault, or not seen."""
    found = {kind: found_of(make) for kind, make in ODD_BOARDS.items()}
    shown = {kind: one for kind, one in found.items() if one.suspects or one.blocks}
    held = {kind: one for kind, one in shown.items() if one.is_explained}
    flagged = [name for name, make in known.items() if not found_of(make).is_explained]
    row(
        who,
        share(len(shown), len(found)),
        share(len(shown) - len(held), len(shown)),
        share(len(flagged), len(known)),
    )
    odd = [f"{kind} held for {one.suspects[0].faults[0]} ({who})" for kind, one in held.items()]
    odd += [f"{kind} not seen ({who})" for kind in found.keys() - shown.keys()]
    return odd + [f"{name} flagged ({who})" for name in flagged]


def _by(observer):
    """Return what concludes from all looks at a board, answered by `observer`."""
    looks = looks_to_play(stage.plan())
    return lambda make: stage.concluded(played(make(stage.PROFILE), looks, observer))


def _of_regions(make, seed):
    """Return the Diagnosis of all looks at a board by one who is asked of regions too."""
    person = _person(make, REGIONS, seed)
    person.look_at_all()
    return stage.concluded(person.records)


def _of_pictures(make, seed):
    """Return the Diagnosis of what a session asks, once pictures are offered."""
    person = _person(make, PICTURES_AND_MARKS, seed)
    go_on_in_order(person)
    return stage.concluded(person.records)


def _person(make, says, seed):
    chance = random.Random(seed)
    return Person("", says, by_errors(0, chance), chance, board=make(stage.PROFILE))
