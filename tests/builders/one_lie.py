"""Any one lie: by how many of them the final class changes (aim 0), and what it costs in looks.

First in a run of all looks, answered by yes and no: each answer in turn is the wrong one. Then
where each look is the one that tells most next: the sitting goes on until it is sure again.
"""

import random
from collections import Counter

from helpers.virtual_builders import Eyes, records_of
from termprobe.diagnosis.diagnose import all_accounts, case_of
from termprobe.diagnosis.ranking import ranked_classes
from termprobe.journal.records import AS_EXPECTED, DIFFERS, Answer, Answered
from termprobe.verdict.judge import judge

from . import stage
from .person import PICTURES, YES_OR_NO, Person, one_lie
from .sitting import played
from .tables import heading, names, row, share, spread

USUAL, USUAL_SITTINGS = 12, 5
OTHER = {AS_EXPECTED: DIFFERS, DIFFERS: AS_EXPECTED}


def play(request):
    _whole_runs(request)
    heading(
        "One lie where each look is the one that tells most next",
        *("answers", "lies that change the final class", "looks without a lie", "looks with one"),
    )
    odd = _sittings(request, PICTURES)
    odd += _sittings(request, YES_OR_NO)
    names(odd)


def _whole_runs(request):
    drawn = request.drawn(USUAL)
    heading(
        f"One lie in a run of all looks, yes and no, {len(drawn)} faults",
        *("lies that change the final class", "faults of which one does"),
    )
    changed, lies = Counter(), 0
    for name in drawn:
        records = records_of(stage.PROFILE, stage.plan(), [name], Eyes(1))
        honest = _leading(records)
        for other in _with_each_lie(records):
            lies += 1
            changed[name] += _leading(other) != honest
    odd = [name for name, count in changed.items() if count]
    row(share(changed.total(), lies), share(len(odd), len(drawn)))
    names([f"{name} ({changed[name]})" for name in odd])


def _with_each_lie(records):
    for number, one in enumerate(records):
        if isinstance(one, Answered):
            lie = Answered(one.step, Answer(OTHER[one.answer.word]), one.hash)
            yield [*records[:number], lie, *records[number + 1 :]]


def _leading(records):
    """Return what the leading faults have in common: by which looks they are shown."""
    verdict = judge(stage.plan(), records)
    case = case_of(stage.PROFILE, stage.plan(), records, verdict)
    healthy = case.of_nothing()
    found = ranked_classes(healthy, all_accounts(case, healthy, stage.dictionary()))
    shares = Counter()
    for of_class in found:
        for share_of, account in zip(of_class.shares, of_class.members, strict=True):
            shares[_shown_by(account.cause.name)] += share_of
    return shares.most_common(1)[0][0]


def _shown_by(name):
    performance = stage.dictionary().faults.get(name)
    if performance is None:
        return name
    return tuple(bool(sight.picture) for sight in performance.alone)


def _sittings(request, says):
    """Print a row; return the lies that changed the final class."""
    drawn = request.drawn(USUAL_SITTINGS)
    honest, lied, odd = [], [], []
    for name in drawn:
        first = _sit(request, name, says, None)
        honest.append(first.looks)
        for number in range(first.looks):
            found = _sit(request, name, says, number)
            lied.append(found)
            if not found.is_first:
                odd.append(f"{name} by lie {number + 1} of {first.looks}")
    row(
        f"{says}, {len(drawn)} faults",
        share(sum(not one.is_first for one in lied), len(lied)),
        spread(honest),
        spread([one.looks for one in lied]),
    )
    return odd


def _sit(request, name, says, lie):
    """Return the Sitting in which the answer with the number `lie` is wrong, None for none."""
    chance = random.Random(request.seed)
    person = Person(name, says, one_lie(lie), chance)
    return played(person, name, chance, request.is_fewest)
