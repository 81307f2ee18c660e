"""Known fault: a run goes on with the first of two faults; is the second one still found?

Each look is compared with what a board with the first alone would show. A dump reads every screen;
eyes are not asked those of which the known fault changes most.
"""

from dataclasses import replace

from helpers.virtual_builders import Reader
from termprobe.board.board import Board
from termprobe.diagnosis.foreseen import foreseen
from termprobe.diagnosis.naming import MOST_CHANGED
from termprobe.journal.records import AS_EXPECTED, Sent, StepBegun
from termprobe.verdict.known_fault import expected_with

from . import stage
from .tables import heading, names, row, share

USUAL = 60


def play(request):
    drawn = request.pairs(USUAL)
    heading(
        f"A known fault and a second one, {len(drawn)} pairs",
        *("who looks", "second one found", "no look could differ by it"),
    )
    odd = []
    for who, is_asked in (("a dump", _all_looks), ("eyes", _looks_of_eyes)):
        found = [_looks_before_found(*pair, is_asked(pair[0])) is not None for pair in drawn]
        missed = [pair for pair, is_found in zip(drawn, found, strict=True) if not is_found]
        hidden = sum(_is_hidden(*pair) for pair in missed)
        row(who, share(sum(found), len(drawn)), share(hidden, len(drawn)))
        odd += [f"{' then '.join(pair)} ({who})" for pair in missed if not _is_hidden(*pair)]
    names(odd)


def _all_looks(_known):
    return set(stage.looks())


def _looks_of_eyes(known):
    """Return the ids of the looks of which the known fault changes no more than half."""
    dictionary = stage.dictionary()
    most = MOST_CHANGED * stage.plan().rows * stage.plan().columns
    shown = zip(dictionary.looks, dictionary.faults[known].in_order, strict=True)
    return {look for look, sight in shown if sight.cells <= most}


def _looks_before_found(known, second, asked):
    """Return how many looks are answered before one differs from what is foreseen, else None."""
    board = Board(stage.PROFILE, [known, second])
    records, bells_before, answered = [], 0, 0
    for step in stage.looks().values():
        records.append(StepBegun(step.id, step.hash))
        if not step.continues:
            bells_before = board.bells
        for group in step.groups:
            records.append(Sent(step.id, group.data))
            board.receive(group.data)
        if step.id in asked:
            answered += 1
            expected = _expected(records, step, known)
            said = Reader().answer(expected, board, board.bells - bells_before)
            if said.word != AS_EXPECTED:
                return answered
    return None


def _expected(records, step, known):
    shown = foreseen(stage.PROFILE, stage.plan(), records, step, [known])
    if shown is None:
        return step
    return replace(step, expected=expected_with(step, shown))


def _is_hidden(known, second):
    """Return whether a board with both shows in every look what one with the first shows."""
    boards = Board(stage.PROFILE, [known]), Board(stage.PROFILE, [known, second])
    for step in stage.looks().values():
        for board in boards:
            board.receive(step.data)
        one, other = boards
        if (one.drawn(), one.cursor, one.bells) != (other.drawn(), other.cursor, other.bells):
            return False
    return True
