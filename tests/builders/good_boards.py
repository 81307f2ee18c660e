"""A good board called bad: at most 0.5 %, by a report of all looks or while the run goes on."""

from helpers.virtual_builders import Eyes, looks_to_play, played
from termprobe.board.board import Board
from termprobe.diagnosis.naming import name_cause
from termprobe.journal.records import DIFFERS, Answered
from termprobe.verdict.judge import judge

from . import stage
from .tables import heading, row, share

USUAL = 200


def play(request):
    count = request.how_many(USUAL)
    heading(
        f"A good board, yes and no to all looks, {count} runs",
        *("wrong answers", "a fault said to explain it", "a fault named on the way"),
    )
    for errors in request.errors:
        runs = [_records(errors, request.seed + number) for number in range(count)]
        row(
            f"{errors:.0%}",
            share(sum(map(_is_accused, runs)), count),
            share(sum(map(_is_named_on_the_way, runs)), count),
        )


def _records(errors, seed):
    return played(Board(stage.PROFILE), looks_to_play(stage.plan()), Eyes(seed, errors))


def _is_accused(records):
    found = stage.concluded(records)
    return found.is_explained and bool(found.suspects)


def _is_named_on_the_way(records):
    """Return whether after one of the looks that were said to differ a fault was named."""
    plan = stage.plan()
    for number, one in enumerate(records):
        if isinstance(one, Answered) and one.answer.word == DIFFERS:
            so_far = records[: number + 1]
            verdict = judge(plan, so_far)
            if name_cause(stage.PROFILE, plan, so_far, verdict, stage.dictionary()).cause:
                return True
    return False
