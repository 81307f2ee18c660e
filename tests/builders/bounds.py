"""How much answers can tell at all of kinds of faults that are not in the catalogue.

Where a fault of the catalogue has the same answers nothing can flag the kind, whatever the rule:
the answers are those of a known fault. All answers here are right, and given to all looks.
"""

from termprobe.diagnosis.error_rates import USUAL_RATES
from termprobe.diagnosis.explained import ONE_MISSED_OF
from termprobe.diagnosis.regions import regions_of
from termprobe.diagnosis.shown import sight_of, wanted_of

from . import stage
from .odd_boards import ODD_BOARDS
from .tables import heading, row


def show_bounds():
    """Print with how many of the kinds a fault of the catalogue has the same answers."""
    heading(
        "Kinds of faults that are not in the catalogue: what right answers to all looks can tell",
        *("answers", "kinds that show", "a fault has just the same", "or within the usual errors"),
        "could be flagged",
    )
    kinds = [sights for sights in map(_sights_of, ODD_BOARDS.values()) if any(map(_word, sights))]
    faults = {way for name in stage.detectable() for way in _ways_of(name)}
    for words, is_same, is_usual in (
        ("yes and no", _have_same_words, _have_usual_words),
        ("each region of each look that differs", _have_same_regions, _have_usual_regions),
    ):
        same = sum(any(is_same(way, kind) for way in faults) for kind in kinds)
        usual = sum(any(is_usual(way, kind) for way in faults) for kind in kinds)
        row(words, len(kinds), same, usual, len(kinds) - usual)


def _word(sight):
    """Return whether it is said to differ."""
    return bool(sight.picture)


def _ways_of(name):
    """Yield how the looks differ with a fault, alone and in their order."""
    performance, looks = stage.dictionary().faults[name], stage.dictionary().looks
    numbers = [looks.index(look) for look in stage.looks()]
    for sights in (performance.in_order, performance.alone):
        yield tuple(sights[number] for number in numbers)


def _sights_of(make):
    """Return how each look differs on a board that `make` makes, in their order."""
    board, sights, bells_before = make(stage.PROFILE), [], 0
    for step in stage.looks().values():
        if not step.continues:
            bells_before = board.bells
        for group in step.groups:
            board.receive(group.data)
        wanted, codes = wanted_of(step.expected, step.asks_dots), board.drawn()
        bells = board.bells - bells_before
        sights.append(sight_of(codes, board.cursor, bells, wanted, board.misdrawn(codes)))
    return tuple(sights)


def _have_same_words(way, kind):
    return list(map(_word, way)) == list(map(_word, kind))


def _have_usual_words(way, kind):
    """Return whether eyes that miss one look in so many would say the same of a known fault."""
    pairs = list(zip(map(_word, way), map(_word, kind), strict=True))
    missed = sum(shows and not said for shows, said in pairs)
    failed = sum(said for _, said in pairs)
    is_predicted = all(shows or not said for shows, said in pairs)
    return is_predicted and missed * (ONE_MISSED_OF - 1) <= failed


def _have_same_regions(way, kind):
    return _have_same_words(way, kind) and not _unlike_regions(way, kind)


def _have_usual_regions(way, kind):
    """Return whether no more regions are unlike than are said wrongly by the usual errors."""
    regions = len(regions_of(stage.plan().rows, stage.plan().columns))
    asked = regions * sum(map(_word, kind))
    slips = USUAL_RATES.false_alarm * asked
    return _have_usual_words(way, kind) and _unlike_regions(way, kind) <= slips


def _unlike_regions(way, kind):
    """Return in how many regions of looks that differ one is wrong and the other is not."""
    pairs = zip(way, kind, strict=True)
    return sum(
        ((one.where or 0) ^ (other.where or 0)).bit_count() for one, other in pairs if _word(other)
    )
