"""What speaks for the verdict of a step, as facts; report/words.py puts them into words. Pure."""

from collections.abc import Hashable, Iterator
from dataclasses import dataclass

from termprobe.verdict.evidence import Evidence
from termprobe.verdict.model import (
    DISPUTED,
    SKIPPED,
    UNSURE,
    Because,
    Blocked,
    Measured,
    Pressed,
    StepVerdict,
)
from termprobe.verdict.noticed import Noticed, Rate
from termprobe.verdict.whereabouts import gist


@dataclass(frozen=True)
class LimitsFrom:
    """Where the limits of a reading come from."""

    source: str


@dataclass(frozen=True)
class Unheeded:
    """An answer was given that means nothing, since the step is blocked."""

    verdict: str


@dataclass(frozen=True)
class WithNote:
    """What the observer noted."""

    text: str


@dataclass(frozen=True)
class CharactersOnly:
    """The screen was compared by its characters; of the rest something was not seen."""

    not_seen: tuple[str, ...]


Support = LimitsFrom | Noticed | Rate | Unheeded | Evidence | WithNote | CharactersOnly


def supports(step: StepVerdict) -> Iterator[Support]:
    """Yield what speaks for the verdict beside its reason, the most important first."""
    if step.because is not None:
        yield from _of_because(step.because)
    if step.evidence is not None:
        yield step.evidence
    if step.note and not is_note_the_reason(step):
        yield WithNote(step.note)
    if step.not_seen:
        yield CharactersOnly(step.not_seen)


def _of_because(because: Because) -> Iterator[Support]:
    match because:
        case Measured(value=None):
            pass
        case Measured(limits=limits, source=source) if limits and source:
            yield LimitsFrom(source)
        case Pressed(noticed, rate):
            yield from noticed[1:]
            if rate.is_flaky:
                yield rate
        case Blocked(ignored=ignored) if ignored:
            yield Unheeded(ignored)


def is_note_the_reason(step: StepVerdict) -> bool:
    """Return whether the step has its verdict for what the observer noted, and nothing else."""
    return step.because is None and step.verdict in (UNSURE, DISPUTED, SKIPPED)


def likeness(step: StepVerdict) -> Hashable:
    """Return what steps have in common that failed alike: equal for them, and for no others."""
    telling = (one for one in supports(step) if not isinstance(one, CharactersOnly))
    first = next(telling, None)
    if first is None:
        return step.id
    return gist(first) if isinstance(first, Evidence) else first
