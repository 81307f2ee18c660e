"""What the session begins with: the first State, and what is to be said before the first step.

Pure.
"""

from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path

from termprobe.folding import first_of
from termprobe.journal.card import is_from_card
from termprobe.journal.records import Answered, BoardUnderTest, Record, Resumed
from termprobe.link.base import LineFormat
from termprobe.plan.model import Plan
from termprobe.profile.model import Profile
from termprobe.report.facts.numbers import is_or_are
from termprobe.report.headline import board_name
from termprobe.runner.course import Course, course_of
from termprobe.runner.time_left import paces_by
from termprobe.session.state import State
from termprobe.verdict.model import NOT_FITTED

NAMED = 12
"""So many steps are told one by one."""
PRACTICE = (
    "Practice: a simulated board with a fault that is not told before the end. "
    "Where the console is 165 columns wide its screen stands beside the expected one; "
    "elsewhere v shows it. i types on its keyboard."
)
REHEARSAL = (
    "A simulated board. Where the console is 165 columns wide its screen stands beside the "
    "expected one; elsewhere v shows it."
)


def first_state(
    plan: Plan,
    profile: Profile,
    line_format: LineFormat,
    board: BoardUnderTest,
    link_name: str,
    records: Sequence[Record] = (),
    changed: Sequence[str] = (),
    practice: bool | None = None,
    path: str | Path = "",
    positions: Mapping[str, str] | None = None,
    ending: Iterable[str] = (),
    left_out: int = 0,
    order: Iterable[str] = (),
) -> State:
    """Return the State to begin with.

    `records` are those of a run that is resumed, before it was;
    `changed` the ids of the steps that are not what they were; `practice` is None for a real board,
    else whether the fault is hidden; `positions` says where the options stand, `ending` what is
    told at the end, `left_out` how many steps of the script that are fitted are not in the plan,
    `order` what is told of the order of a run that comes after another.
    """
    so_far = [*records, Resumed()] if records else []
    course = course_of(plan, so_far, positions=positions)
    so_far_told, words = resumed(plan, records, changed), _practice_words(practice)
    return State(
        course,
        profile,
        line_format,
        _board_words(board),
        link_name,
        is_practice=practice is not None,
        opening=(_size(course, left_out), *_where(path), *order, *so_far_told, *words),
        looks_s=paces_by(records),
        path=str(path),
        ending=tuple(ending),
        left_out=left_out,
        is_from_card=is_from_card(records),
    )


def _board_words(board: BoardUnderTest) -> str:
    """Return serial number and revision of the board."""
    serial = board_name(board.serial)
    return f"{serial} rev. {board.revision}" if board.revision else serial


def _size(course: Course, left_out: int) -> str:
    """Return how many steps there are, of how many where they are a part."""
    found, stages = course.counts, course.plan.stages
    told = f"{found.all} steps in {len(stages)} stage{'s' * (len(stages) > 1)}"
    if left_out:
        told += f", a part: the script has {found.all + left_out}"
    if found.not_fitted:
        told += (
            f"; {found.not_fitted} more {is_or_are(found.not_fitted)} {NOT_FITTED} on this terminal"
        )
    return f"{told}."


def _where(path: str | Path) -> tuple[str, ...]:
    return (f"Run file: {path}",) if path else ()


def _practice_words(practice: bool | None) -> tuple[str, ...]:
    if practice is None:
        return ()
    return (PRACTICE,) if practice else (REHEARSAL,)


def _answered(plan: Plan, records: Iterable[Record]) -> tuple[str, ...]:
    """Return the ids of the steps of the plan that were answered, in order."""
    known = {step.id for step in plan.steps}
    return tuple(step_id for step_id in _all_answered(records) if step_id in known)


def _all_answered(records: Iterable[Record]) -> list[str]:
    """Return the ids of the steps that were answered, in order, of the plan or not."""
    return [record.step for record in records if isinstance(record, Answered)]


def resumed(plan: Plan, records: Sequence[Record], changed: Sequence[str]) -> tuple[str, ...]:
    """Return sentences on how far the run was, and which steps have changed since."""
    if not records:
        return ()
    answered = set(_answered(plan, records))
    gone = set(_all_answered(records)) - answered
    found = course_of(plan, records).counts
    how_far = f"The run goes on: {found.done} of {found.all} steps have an answer already."
    if not (changed or gone):
        return how_far, "Profile and script are what they were."
    edited = _edited(plan, answered, gone, changed)
    return how_far, "Profile or script was edited since.", *edited


def _edited(plan: Plan, answered: set[str], gone: set[str], changed: Iterable[str]) -> list[str]:
    """Return sentences on the steps that have changed, by their titles, and those that are gone."""
    again = [plan.title_of(step) for step in changed if step in answered]
    fresh = [plan.title_of(step) for step in changed if step not in answered]
    told = []
    if again:
        told.append(
            "Answered, but changed since then, so that they are asked again: "
            f"{first_of(again, NAMED)}."
        )
    if fresh:
        told.append(f"Changed or new, not answered yet: {first_of(fresh, NAMED)}.")
    if gone:
        told.append(f"Answered, but no longer in the script: {first_of(sorted(gone), NAMED)}.")
    return told
