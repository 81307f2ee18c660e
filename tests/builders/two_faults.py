"""Two faults at once, all looks answered by whole screens: are both named?"""

from helpers.virtual_builders import Reader, records_of
from termprobe.journal.records import Answered

from . import stage
from .tables import heading, names, row, share

USUAL = 40


def play(request):
    drawn = request.pairs(USUAL)
    heading(
        f"Two faults at once, whole screens read, {len(drawn)} pairs",
        *(
            "both named as a pair",
            "one of them the first suspect",
            "held for one fault",
            "of these no look shows that there are two",
        ),
    )
    found = [(pair, _found(pair)) for pair in drawn]
    named = [pair for pair, one in found if _has_pair(pair, one)]
    row(
        share(len(named), len(drawn)),
        share(sum(_leads(pair, one) for pair, one in found), len(drawn)),
        share(sum(one.is_explained for _, one in found), len(drawn)),
        sum(one.is_explained and _looks_like_one(pair) for pair, one in found),
    )
    names([" with ".join(pair) for pair in drawn if pair not in named])


def _found(pair):
    return stage.concluded(records_of(stage.PROFILE, stage.plan(), pair, Reader()))


def _looks_like_one(pair):
    """Return whether all looks show what they show with one of the two alone."""
    both = _seen(pair)
    return any(_seen([name]) == both for name in pair)


def _seen(faults):
    records = records_of(stage.PROFILE, stage.plan(), faults, Reader())
    return [one.answer for one in records if isinstance(one, Answered)]


def _has_pair(pair, found):
    return any(set(one.faults) == set(pair) for one in found.pairs)


def _leads(pair, found):
    return bool(found.suspects) and not set(pair).isdisjoint(found.suspects[0].faults)
