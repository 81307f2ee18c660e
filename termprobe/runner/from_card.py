"""Writes what a card says into a run file, as a run writes it; nothing is sent and nobody asked."""

from collections.abc import Iterable, Mapping

from termprobe.journal.file import Journal
from termprobe.journal.records import (
    AS_EXPECTED,
    SKIPPED,
    Answer,
    Answered,
    Noted,
    OptionSet,
    StepBegun,
)
from termprobe.plan.model import Plan, Step, Switch
from termprobe.runner.course import BY_BUILDER, course_of


def write_down(
    journal: Journal,
    plan: Plan,
    positions: Mapping[str, str],
    answers: Mapping[str, Answer],
    notes: Iterable[tuple[str, str]] = (),
    remarks: Iterable[str] = (),
) -> None:
    """Write answers by the ids of their steps, in the plan's order, with what was set for each.

    `positions` says where the board's options stood at first; `notes` are (step id, text), and
    `remarks` are of no step. The last record says whether anything is left to be answered.
    """
    standing = dict(positions)
    noted = list(notes)
    for text in remarks:
        journal.append(Noted(text))
    for step in plan.steps:
        for _, text in (one for one in noted if one[0] == step.id):
            journal.append(Noted(text, step.id))
        if step.id in answers:
            _write_answer(journal, step, answers[step.id], standing)
    journal.append(course_of(plan, journal.records, positions=positions).ending(BY_BUILDER))


def _write_answer(journal: Journal, step: Step, answer: Answer, standing: dict[str, str]) -> None:
    """Write an answer; before it the options that its step wants set, since the card says so."""
    if answer.word != SKIPPED and not isinstance(step, Switch):
        _set(journal, step.settings, standing)
    journal.append(StepBegun(step.id, step.hash))
    journal.append(Answered(step.id, answer, step.hash))
    if isinstance(step, Switch) and answer.word == AS_EXPECTED:
        _set(journal, [(step.option, step.position)], standing)


def _set(journal: Journal, settings: Iterable[tuple[str, str]], standing: dict[str, str]) -> None:
    for option, position in settings:
        if standing.get(option) != position:
            standing[option] = position
            journal.append(OptionSet(option, position))
