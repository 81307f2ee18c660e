"""Cascade: answers asked of a builder with each fault, before one is named (aim 6), and without.

Without naming, each run goes to its end. With it, it stops once a fault is named.
"""

from collections import Counter

from helpers import named_in_time
from helpers.dictionaries import profile_text
from helpers.scripts import spared
from termprobe.cli.kept_dictionary import kept_dictionary

from . import stage
from .tables import heading, names, row, share, spread

USUAL_OF_EACH, AIM = 1, 6
BUILDERS = {
    "reads whole screens": named_in_time.read_out,
    "tells all that differs": named_in_time.picture,
    "yes and no": named_in_time.yes_or_no,
}


def play(request):
    plan = named_in_time.looks_alone(spared("acceptance", stage.PROFILE.id))
    dictionary = kept_dictionary(plan, stage.PROFILE, profile_text())
    foresight = named_in_time.Foreseeing(stage.PROFILE, plan, dictionary)
    drawn = _drawn(request, dictionary)

    def found_of(tells, *foresight):
        boards = [stage.faults()[name] for name in drawn]
        return [
            named_in_time.until_named(stage.PROFILE, plan, fault, tells, *foresight)
            for fault in boards
        ]

    heading(
        f"Answers before a fault is named, {len(drawn)} faults of all kinds and blocks",
        *(
            "builder",
            "named",
            "the true one",
            "answers from the first that differed: mean, 90 %, most",
        ),
        *(f"at most {AIM} of these", "looks that differed: mean, 90 %, most"),
    )
    before = found_of(named_in_time.read_out)
    row(
        *("no fault is named", "-", "-", spread([one.since_first for one in before])),
        *(_in_time(before), spread([one.failed for one in before])),
    )
    late = Counter()
    for who, tells in BUILDERS.items():
        found = found_of(tells, foresight)
        late += _show(who, drawn, found)
    names([f"{kind} ({count})" for kind, count in late.most_common()])


def _drawn(request, dictionary):
    if request.is_every:
        return named_in_time.sampled(dictionary, len(dictionary.faults), request.seed)
    return named_in_time.sampled(dictionary, request.how_many(USUAL_OF_EACH), request.seed)


def _in_time(found):
    return share(sum(one.since_first <= AIM for one in found), len(found))


def _show(who, drawn, found):
    """Print a row; return of which blocks faults were named late."""
    named = [(name, one) for name, one in zip(drawn, found, strict=True) if one.named]
    right = sum(name in one.named for name, one in named)
    told = [one for _, one in named]
    row(
        who,
        share(len(named), len(drawn)),
        share(right, max(len(named), 1)),
        spread([one.since_first for one in told] or [0]),
        _in_time(told),
        spread([one.failed for one in told] or [0]),
    )
    late = [name for name, one in named if one.since_first > AIM]
    return Counter(f"{name.split('/')[0]}, {who}" for name in late)
