"""What may be answered to a look by causes that the dictionary has not: one cell, or one dot.

There are thousands, and looks that say yes or no part few of them: such a cause stands for many, of
which a look shows a share.
"""

from collections.abc import Hashable, Mapping, Sequence
from typing import NamedTuple

from termprobe.diagnosis.accounts import Case
from termprobe.diagnosis.dictionary import FaultDictionary
from termprobe.diagnosis.evident import Evident
from termprobe.diagnosis.shown import AS_WANTED
from termprobe.diagnosis.single_cells import ONE_CELL, looks_of_cells
from termprobe.diagnosis.single_dots import ONE_DOT, looks_of_dots

NO_BIT = "no bit"
SIGHTS = {ONE_CELL.picture: ONE_CELL, ONE_DOT.picture: ONE_DOT, NO_BIT: AS_WANTED}
"""How a look differs by a cell or a dot that it shows, and by one that it does not, by a name."""
PARTS = 20
"""A share is rounded to so many parts, so that many causes have one Outlook."""


class Bits(NamedTuple):
    """The cells or dots for which one cause stands."""

    sight: str
    """The name of what is seen of one."""
    looks: Mapping[Evident, int]
    """How many have the same looks, by these."""

    def share_at(self, number: int) -> float:
        """Return how many of them the look of this number shows, as a share."""
        shown = sum(count * _chance_at(number, looks) for looks, count in self.looks.items())
        return round(PARTS * shown / sum(self.looks.values())) / PARTS


def _chance_at(number: int, looks: Evident) -> float:
    """Return the chance that one is shown by the look of this number."""
    return ((looks.surely >> number & 1) + (looks.perhaps >> number & 1)) / 2


def bits_of_causes(
    case: Case, names: Sequence[str], dictionary: FaultDictionary
) -> dict[str, Bits]:
    """Return the Bits of each cause of `names` that is a cell or a dot."""
    others = [name for name in names if name not in dictionary.faults]
    cells, dots = looks_of_cells(case, others), looks_of_dots(case, others, dictionary)
    found = {name: Bits(ONE_CELL.picture, looks) for name, looks in cells.items()}
    return found | {name: Bits(ONE_DOT.picture, looks) for name, looks in dots.items()}


def with_bits(
    outlooks: Mapping[str, Mapping[Hashable, float]], bits: Mapping[str, Bits], number: int
) -> dict[str, Mapping[Hashable, float]]:
    """Return `outlooks` of the look of this number with those of `bits`.

    `outlooks` has those of all SIGHTS. Causes of which a look shows as much have one Outlook.
    """
    found = dict(outlooks)
    known: dict[tuple[str, float], Mapping[Hashable, float]] = {}
    for name, one in bits.items():
        key = one.sight, one.share_at(number)
        if key not in known:
            known[key] = _mixed(outlooks[one.sight], outlooks[NO_BIT], key[1])
        found[name] = known[key]
    return found


def _mixed(
    shown: Mapping[Hashable, float], hidden: Mapping[Hashable, float], share: float
) -> Mapping[Hashable, float]:
    """Return what may be answered where a share is shown."""
    answers = dict.fromkeys([*shown, *hidden])
    return {
        answer: share * shown.get(answer, 0.0) + (1 - share) * hidden.get(answer, 0.0)
        for answer in answers
    }
