"""Which faults of a simulated board would show just what was seen of the screen.

What a run has sent is sent again, to a board with each fault of the catalogue in turn.
"""

from collections.abc import Iterator, Sequence

from termprobe.board.board import Board
from termprobe.board.faults.catalogue import catalogue
from termprobe.board.faults.model import Fault
from termprobe.board.link import SimLink
from termprobe.clock import CrankedClock
from termprobe.journal.records import EYES, Answer, Answered, OptionSet, Record, Sent, StepBegun
from termprobe.plan.model import Look, Plan
from termprobe.profile.model import Profile


def faults_that_show(profile: Profile, plan: Plan, records: Sequence[Record]) -> tuple[str, ...]:
    """Return the names of the faults under each of which every screen is as the run saw it.

    Eyes may miss a cell, so only what other observers saw is compared. None is returned where no
    screen tells of a fault, since a healthy board shows the same.
    """
    if all(_replayed(Board(profile), plan, records)):
        return ()
    faults = catalogue(profile).values()
    return tuple(fault.name for fault in faults if _shows(profile, fault, plan, records))


def _is_seen(plan: Plan, record: Record) -> bool:
    return (
        isinstance(record, Answered)
        and record.answer.seen is not None
        and record.answer.strength > EYES
        and record.step in plan.index
        and isinstance(plan.step(record.step), Look)
    )


def _shows(profile: Profile, fault: Fault, plan: Plan, records: Sequence[Record]) -> bool:
    """Return whether a board with `fault` shows all that was seen."""
    return all(_replayed(Board(profile, [fault]), plan, records))


def _replayed(board: Board, plan: Plan, records: Sequence[Record]) -> Iterator[bool]:
    """Yield of each screen that was seen whether `board` shows it."""
    link = SimLink(board, CrankedClock())
    fresh = {record.step for record in records if isinstance(record, Answered)}
    fresh &= {step.id for step in plan.steps if isinstance(step, Look) and not step.continues}
    bells = 0
    for record in records:
        match record:
            case StepBegun(step=step) if step in fresh:
                bells = board.screen().bells
            case Sent(data=data):
                link.write(data)
            case OptionSet(option=option, position=position):
                board.set_option(option, position)
            case Answered(answer=answer) if _is_seen(plan, record):
                yield _is_as_seen(board, answer, bells)


def _is_as_seen(board: Board, answer: Answer, bells_before: int) -> bool:
    """Return whether the screen of `board` is what the answer tells of it."""
    shown = board.screen()
    is_cursor_the_same = answer.cursor in (None, shown.cursor)
    is_bell_the_same = answer.bells in (None, shown.bells - bells_before)
    is_same = is_cursor_the_same and is_bell_the_same
    return is_same and _without_ends(answer.seen or ()) == _without_ends(shown.rows)


def _without_ends(rows: Sequence[str]) -> list[str]:
    """Return rows without the blanks at their ends."""
    return [row.rstrip(" ") for row in rows]
