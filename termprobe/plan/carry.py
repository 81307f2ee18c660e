"""Compares the steps of a plan with what earlier texts of profile and script made of them. Pure.

A step is still the same where it sends, expects, asks and allows the same, wherever it stands now.
"""

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from termprobe.plan.document import Document, step_document
from termprobe.plan.earlier import EarlierForms
from termprobe.plan.model import Group, Step

_BESIDE = ("title", "stage", "needs", "source", "caution", "stop_if", "covered_by", "glances")
"""What may change of a step while its answer stays true."""
_COMPARED_APART = ("groups", "settings")


class EarlierStep(NamedTuple):
    """A step as it was asked under an earlier text."""

    step: Step
    hash: str
    """Under which its answers are in the run file."""
    normal: Mapping[str, str]
    """Option -> its normal position by the profile of then."""


def earlier_of(
    steps: Iterable[Step], normal: Mapping[str, str], earlier: Iterable[EarlierStep]
) -> EarlierForms:
    """Return the EarlierForms of the `steps` of a plan.

    `normal` holds the normal positions by its profile.
    """
    now = {step.id: step for step in steps}
    same: dict[str, frozenset[str]] = {}
    gone: set[str] = set()
    for before in earlier:
        step = now.get(before.step.id)
        if step is None:
            gone.add(before.step.id)
        elif before.hash != step.hash and is_same(step, normal, before.step, before.normal):
            same[step.id] = same.get(step.id, frozenset()) | {before.hash}
    return EarlierForms(same, frozenset(gone))


def is_same(
    step: Step, normal: Mapping[str, str], before: Step, normal_before: Mapping[str, str]
) -> bool:
    """Return whether an answer to the step `before` is one to `step` as well."""
    is_set_the_same = step.settings == before.settings or (
        {**normal, **dict(step.settings)} == {**normal_before, **dict(before.settings)}
    )
    sent, sent_before = map(_sent, (step.groups, before.groups))
    return is_set_the_same and sent == sent_before and _asked(step) == _asked(before)


def _sent(groups: Iterable[Group]) -> list[tuple[bytes, float]]:
    """Return what is sent, whatever it is called."""
    return [(group.data, group.settle_s) for group in groups]


def _asked(step: Step) -> Document:
    left_out = (*_BESIDE, *_COMPARED_APART)
    return {key: value for key, value in step_document(step).items() if key not in left_out}
