"""Stated odds: within 3 points of what happened, in ten bins.

A board is drawn as often as it is thought to be common, a good one too, and answers are wrong as
often as they are thought to be. Some looks are answered, drawn as well; then the odds of the
leading class are held against whether it is the true one.
"""

from helpers.virtual_builders import Eyes, looks_to_play, played
from termprobe.board.board import Board
from termprobe.diagnosis.causes import NO_CAUSE, weight_of
from termprobe.diagnosis.diagnose import all_accounts, case_of
from termprobe.diagnosis.ranking import ranked_classes
from termprobe.verdict.judge import judge

from . import stage
from .tables import heading, row, share

USUAL = 400
BINS = 10
MOST_LOOKS = 12


def play(request):
    count = request.how_many(USUAL)
    heading(
        f"Stated odds of every class that has 2 % or more, {count} boards, yes and no",
        *("stated", "classes", "stated on average", "so it was", "points apart"),
    )
    chance = request.chance()
    told = [one for _ in range(count) for one in _told(chance)]
    for number in range(BINS):
        inside = [one for one in told if min(int(one[0] * BINS), BINS - 1) == number]
        if inside:
            _show(number, inside)


def _show(number, inside):
    stated = sum(odds for odds, _ in inside) / len(inside)
    right = sum(is_right for _, is_right in inside)
    row(
        f"{number * 100 // BINS} to {(number + 1) * 100 // BINS} %",
        len(inside),
        f"{stated:.1%}",
        share(right, len(inside)),
        f"{100 * abs(stated - right / len(inside)):.1f}",
    )


LEAST_STATED = 0.02


def _told(chance):
    """Return (stated odds, whether it is the true one) of each class of one board."""
    name = _drawn(chance)
    looks = looks_to_play(stage.plan())
    chosen = chance.sample(looks, chance.randint(2, MOST_LOOKS))
    chosen = _with_their_beginnings(chosen)
    faults = [name] if name else []
    records = played(Board(stage.PROFILE, faults), chosen, Eyes(chance.random(), None))
    verdict = judge(stage.plan(), records)
    case = case_of(stage.PROFILE, stage.plan(), records, verdict)
    healthy = case.of_nothing()
    found = ranked_classes(healthy, all_accounts(case, healthy, stage.dictionary()))
    true = name or NO_CAUSE.name
    for one in found:
        if one.probability >= LEAST_STATED:
            yield one.probability, true in [member.cause.name for member in one.members]


def _with_their_beginnings(chosen):
    """Return looks in the order of the plan, without those that go on from another."""
    index = stage.plan().index
    alone = [step for step in chosen if not step.continues]
    return sorted(alone, key=lambda step: index[step.id])


def _drawn(chance):
    """Return the name of a fault, or nothing for a good board."""
    names = stage.detectable()
    weights = [weight_of(name).weight for name in names]
    return chance.choices(["", *names], [NO_CAUSE.weight, *weights])[0]
