"""Which looks spare which others: worked out by what each shows on boards with each fault.

A look is covered by looks asked before it of which at least one fails wherever it would. Each
fault that can be shown by two looks is shown by two of those that are asked.
"""

from collections.abc import Collection, Iterable, Iterator, Sequence
from functools import reduce
from operator import or_

from termprobe.diagnosis.cheapest import Want, cheapest_choice
from termprobe.diagnosis.cover import numbers_of
from termprobe.diagnosis.dictionary import FaultDictionary
from termprobe.diagnosis.evident import Evident
from termprobe.plan.covered import Covering
from termprobe.plan.effort import step_ms
from termprobe.plan.model import Plan, Step

TWICE = 2
"""By so many looks a fault is to be shown, where so many show it."""


def covering_of(dictionary: FaultDictionary, plan: Plan, character_s: float) -> Covering:
    """Return the Covering of `plan`, of which `dictionary` tells.

    The looks that are asked cost the builder the fewest seconds, on a line whose characters take
    `character_s`.
    """
    looks = [plan.step(step_id) for step_id in dictionary.looks]
    evident = set(_trusted(dictionary))
    asked = _asked(looks, evident, character_s)
    spared = numbers_of(~asked & _before(len(looks)))
    return {looks[number].id: _coverers(number, evident, asked, looks) for number in spared}


def _trusted(dictionary: FaultDictionary) -> Iterator[Evident]:
    """Yield by which looks each fault is shown, of the looks that a good board passes."""
    for surely, perhaps in dictionary.evident():
        yield Evident(surely & ~dictionary.untrusted, perhaps & ~dictionary.untrusted)


def _asked(looks: Sequence[Step], evident: Collection[Evident], character_s: float) -> int:
    """Return the looks that are asked, as bits.

    Of a look that shows nothing, or that a good board fails, nothing is known: it is asked.
    """
    costs = [step_ms(look, character_s) for look in looks]
    known = reduce(or_, (perhaps for _, perhaps in evident), 0)
    unknown = ~known & _before(len(looks))
    always = {Want(1 << number, 1) for number in numbers_of(unknown)}
    return cheapest_choice(costs, always.union(_wants(evident))).items


def _wants(evident: Iterable[Evident]) -> Iterator[Want]:
    """Yield what the looks that are asked must meet."""
    for surely, perhaps in evident:
        yield Want(surely, min(TWICE, surely.bit_count()))
        for look in numbers_of(perhaps):
            yield Want(1 << look | surely & _before(look), 1)


def _before(look: int) -> int:
    return (1 << look) - 1


def _coverers(
    look: int, evident: Iterable[Evident], asked: int, looks: Sequence[Step]
) -> tuple[str, ...]:
    """Return the fewest looks, of those asked before `look`, of which one fails where it would."""
    before = asked & _before(look)
    shown = (each for each in evident if each.perhaps >> look & 1)
    wants = {Want(each.surely & before, 1) for each in shown}
    chosen = cheapest_choice([1] * look, wants).items
    return tuple(looks[number].id for number in numbers_of(chosen))
