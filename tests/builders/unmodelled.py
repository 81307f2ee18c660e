"""Faults of kinds that are not in the catalogue: flagged, not explained, in at least 90 %."""

from helpers.virtual_builders import Eyes, Reader, looks_to_play, played

from . import stage
from .odd_boards import ODD_BOARDS
from .tables import heading, names, row, share


def play(request):
    heading(
        f"Kinds of faults that are not in the catalogue, all looks, {len(ODD_BOARDS)} kinds",
        *("who looks", "a look differs", "of these flagged: nothing said to explain it"),
    )
    odd = []
    for who, observer in (("whole screens", Reader()), ("yes and no", Eyes(request.seed))):
        found = {kind: _found(make, observer) for kind, make in ODD_BOARDS.items()}
        shown = {kind: one for kind, one in found.items() if one.suspects or one.blocks}
        held = {kind: one for kind, one in shown.items() if one.is_explained}
        row(who, share(len(shown), len(found)), share(len(shown) - len(held), len(shown)))
        odd += [
            f"{kind} held for {one.suspects[0].faults[0]} ({who})" for kind, one in held.items()
        ]
        odd += [f"{kind} not seen" for kind in found.keys() - shown.keys()]
    names(odd)


def _found(make, observer):
    board = make(stage.PROFILE)
    return stage.concluded(played(board, looks_to_play(stage.plan()), observer))
