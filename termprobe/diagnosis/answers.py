"""What was answered in a run that tells something of the board: the evidence.

Steps that are blocked, skipped, unsure, disputed, covered or changed since tell nothing.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from termprobe.board.memory import codes_of
from termprobe.diagnosis.picked import Picked
from termprobe.diagnosis.shown import Sight, Sought, count_differing, sight_of, wanted_of
from termprobe.journal.records import (
    AS_EXPECTED,
    DIFFERS,
    EYES,
    Answer,
    Answered,
    OptionSet,
    Record,
    Sent,
    StepBegun,
)
from termprobe.plan.model import Look, Plan, Reply, Step, TypedBack
from termprobe.plan.typed_word import word_shown
from termprobe.terminal.dots import Misdrawn
from termprobe.terminal.screen import UNKNOWN_CHARACTER, Screen
from termprobe.verdict.given import StepAnswers, given
from termprobe.verdict.model import FAIL, PASS, Covered, RunVerdict

Mark = int | None
"""The code seen in a cell that was marked, None where only that it differs is known."""
TO_THE_BOARD = (StepBegun, Sent, OptionSet)
"""Records of what was done to the board."""


@dataclass(frozen=True)
class LookAnswer:
    """What was said of a screen. Cells go by numbers, row after row."""

    step_id: str
    has_passed: bool
    wanted: Sought
    columns: int
    codes: bytes | None = None
    """Of each cell, where the whole screen was read; None where eyes looked."""
    cursor: tuple[int, int] | None = None
    bells: int | None = None
    """Cursor and bells, where they were told."""
    misdrawn: tuple[Misdrawn, ...] | None = None
    """What was drawn with wrong dots, where that was told."""
    marks: Mapping[int, Mark] | None = None
    """The cells that eyes marked; None where they marked none."""
    picked: Picked | None = None
    """What was chosen of the pictures that were offered; None where there were none."""
    regions: tuple[tuple[str, bool], ...] = ()
    """(region, whether anything in it is wrong), as was asked of a screen that differs."""
    before: tuple["LookAnswer", ...] = ()
    """What was said of the same screen before it was looked at once more."""
    moment: int = 0
    """When: so many records of what was done to the board stand before the answer."""

    @property
    def readings(self) -> tuple["LookAnswer", ...]:
        """All that count, this one the last."""
        return (*self.before, self)

    def is_as(self, other: "LookAnswer") -> bool:
        """Return whether `other` says the same."""
        return (self.has_passed, self.picked) == (other.has_passed, other.picked)

    @property
    def is_by_eyes(self) -> bool:
        """Whether eyes looked, which may slip; no program that reads screens."""
        return self.codes is None

    @cached_property
    def sight(self) -> Sight | None:
        """How what was read differs, where cursor and bells were told as well as characters."""
        if self.codes is None or self.cursor is None or self.bells is None:
            return None
        return sight_of(self.codes, self.cursor, self.bells, self.wanted, self.misdrawn or ())

    @property
    def sees_dots(self) -> bool:
        """Whether wrong dots would have been seen: a dump sees none."""
        return self.codes is None or self.misdrawn is not None

    @cached_property
    def cells(self) -> int:
        """How many cells are known to differ."""
        if self.codes is None:
            return len(self.marks or ())
        return count_differing(self.codes, self.wanted.codes)


@dataclass(frozen=True)
class TypedAnswer:
    """A word was read off the screen and typed on the board's own keyboard."""

    step_id: str
    has_passed: bool
    wanted: bytes
    """What must come, RETURN included."""
    came: bytes
    first_cell: int
    """Where the word begins on the screen."""
    moment: int = 0
    """As that of a LookAnswer."""


@dataclass(frozen=True)
class ReplyAnswer:
    """Bytes that came back by themselves."""

    step_id: str
    has_passed: bool
    wanted: bytes
    came: bytes
    moment: int = 0
    """As that of a LookAnswer."""


Observation = LookAnswer | TypedAnswer | ReplyAnswer


def evidence_of(
    plan: Plan, records: Sequence[Record], verdict: RunVerdict
) -> tuple[Observation, ...]:
    """Return what was answered to looks, replies and words, in the order of the plan."""
    found, moments = given(plan, records), moments_of(records)
    answers: list[Observation] = []
    for judged in verdict.steps:
        is_own = judged.answers and not isinstance(judged.because, Covered)
        if judged.verdict in (PASS, FAIL) and is_own:
            step, has_passed = plan.step(judged.id), judged.verdict == PASS
            answers += _answered(step, has_passed, found.answers[step.id], moments)
    return tuple(answers)


def done_to_board(records: Iterable[Record]) -> int:
    """Return how many of `records` are of what was done to the board."""
    return sum(isinstance(one, TO_THE_BOARD) for one in records)


def moments_of(records: Iterable[Record]) -> Mapping[int, int]:
    """Return of each answer, by the id of its object, the moment."""
    found: dict[int, int] = {}
    done = 0
    for one in records:
        if isinstance(one, TO_THE_BOARD):
            done += 1
        elif isinstance(one, Answered):
            found[id(one)] = done
    return found


def _answered(
    step: Step, has_passed: bool, of_step: StepAnswers, moments: Mapping[int, int]
) -> Iterator[Observation]:
    """Yield what the last answer to `step` tells, if it tells anything."""
    last = of_step.given[-1]
    answer, moment = last.answer, moments[id(last)]
    match step:
        case Look(expected=Screen() as expected):
            look = _as_was_expected(_of_look(step, expected, has_passed, answer), expected, last)
            before = _readings(step, expected, of_step.readings[:-1], moments)
            yield replace(look, before=tuple(before), moment=moment)
        case TypedBack() if answer.data is not None:
            asked = question_of(step)
            if asked is not None:
                yield replace(asked, has_passed=has_passed, came=answer.data, moment=moment)
        case Reply() if answer.data is not None and not of_step.errors:
            yield ReplyAnswer(step.id, has_passed, step.reply, answer.data, moment)


def readings_so_far(plan: Plan, records: Sequence[Record], look: Look) -> tuple[LookAnswer, ...]:
    """Return what eyes have said of `look` that will count beside its next answer.

    That is nothing unless it is being asked once more. The screen of `look` must be known.
    """
    assert look.expected is not None
    of_step = given(plan, records).answers.get(look.id, StepAnswers())
    if not of_step.is_asked_again:
        return ()
    return tuple(_readings(look, look.expected, of_step.readings, moments_of(records)))


def _readings(
    step: Look, expected: Screen, answers: Iterable[Answered], moments: Mapping[int, int]
) -> Iterator[LookAnswer]:
    """Yield what eyes said in these answers."""
    for record in answers:
        said = record.answer
        if said.strength <= EYES and said.word in (AS_EXPECTED, DIFFERS):
            look = _of_look(step, expected, said.word == AS_EXPECTED, said)
            look = _as_was_expected(look, expected, record)
            yield replace(look, moment=moments[id(record)])


def _as_was_expected(look: LookAnswer, expected: Screen, record: Answered) -> LookAnswer:
    """Return `look` as eyes meant it: what they found as expected may be a screen with faults.

    Then it differs from what the plan expects, just as that screen does.
    """
    against, said = record.against, record.answer
    is_by_eyes = said.strength <= EYES and said.seen is None
    if against is None or not is_by_eyes or said.word != AS_EXPECTED:
        return look
    text = "".join(_rows(against.rows, len(expected.rows), look.columns))
    marks = {cell: code for cell, code in _marks(expected, text) if code is not None}
    return replace(look, has_passed=False, marks=marks or None)


def question_of(step: TypedBack) -> TypedAnswer | None:
    """Return the answer that `step` must have; None where its word does not stand on the screen."""
    if step.expected is None:
        return None
    first_cell = "".join(step.expected.rows).find(word_shown(step))
    if first_cell < 0:
        return None
    return TypedAnswer(step.id, True, step.typed, step.typed, first_cell)


def _of_look(step: Look, expected: Screen, has_passed: bool, answer: Answer) -> LookAnswer:
    step_id, columns = step.id, len(expected.rows[0])
    wanted = wanted_of(expected, step.asks_dots)
    picked = None
    if answer.offered:
        picked = Picked(answer.chosen, answer.offered)
    regions = answer.regions
    if answer.seen is None or answer.chosen:
        return LookAnswer(step_id, has_passed, wanted, columns, picked=picked, regions=regions)
    text = "".join(_rows(answer.seen, len(expected.rows), columns))
    if answer.strength > EYES:
        codes = codes_of([text], expected.variant)
        told = codes, answer.cursor, answer.bells, answer.misdrawn
        return LookAnswer(step_id, has_passed, wanted, columns, *told)
    marks = dict(_marks(expected, text))
    told_of_cells = marks or None
    return LookAnswer(
        step_id,
        has_passed,
        wanted,
        columns,
        marks=told_of_cells,
        picked=picked,
        regions=regions,
    )


def _rows(seen: tuple[str, ...], count: int, columns: int) -> Iterator[str]:
    """Yield `count` rows of `columns` characters: blanks that were left out are put in."""
    for row in (*seen, *[""] * count)[:count]:
        yield row[:columns].ljust(columns)


def _marks(expected: Screen, seen: str) -> Iterator[tuple[int, Mark]]:
    for cell, (wanted, character) in enumerate(zip("".join(expected.rows), seen, strict=True)):
        if character == UNKNOWN_CHARACTER:
            yield cell, None
        elif character != wanted:
            yield cell, codes_of([character], expected.variant)[0]
