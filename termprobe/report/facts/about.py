"""What is to be known of a report beside what it shows: texts, program, model, cautions. Pure."""

import datetime
from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

from termprobe.profile.model import UNVERIFIED, Profile
from termprobe.report import words
from termprobe.report.facts.times import moment_in_words
from termprobe.report.record import RunReport
from termprobe.report.step_groups import NOT_TRIED
from termprobe.report.suspects import CAUTION, INFERRED
from termprobe.report.text_words import texts_in_words

MODELLED = (
    "causes are single faults of a simulated circuit: lines stuck, swapped or bridged, cells, "
    "counters, decoder, keyboard, line. Left out are supply, clock margins, levels, the tube, "
    "heat, noise, and contacts that come and go"
)
NO_MODEL = "the profile describes no circuit, so that no cause is sought among faults of one"


class CautionFacts(NamedTuple):
    """What is to be heeded, and where."""

    text: str
    where: tuple[str, ...]
    """Titles of stages, or of steps whose stage does not say it."""


DAMAGES_TOLD = 100
"""So many are told one by one: a file may be nothing but damage."""


@dataclass(frozen=True)
class AboutFacts:
    """What limits what a report says."""

    plan_hash: str
    tool: str
    texts: tuple[str, ...]
    """On profile and script, where these changed in the run."""
    unverified: tuple[str, ...]
    """What of the profile has no source."""
    model: str
    """What the model of the board leaves out."""
    cautions: tuple[CautionFacts, ...]
    remarks: tuple[str, ...]
    """On the reading of the run file."""
    damages: tuple[str, ...]
    """What could not be read of it."""


def about(report: RunReport, zone: datetime.tzinfo | None = None) -> AboutFacts:
    """Return what limits what the report of a run says; times are those of `zone`."""

    def dated(at: str) -> str:
        return moment_in_words(at, zone)

    texts: tuple[str, ...] = ()
    if report.texts is not None:
        told = texts_in_words(report.texts, words.reason, report.plan.title_of, dated)
        texts = tuple(f"{first.strip()} {text}".strip() for first, text in told)
    has_circuit = report.profile is not None and report.profile.circuit is not None
    return AboutFacts(
        report.plan.hash,
        report.header.tool,
        texts,
        tuple(_unverified(report.profile)),
        MODELLED if has_circuit else NO_MODEL,
        _cautions(report),
        report.notes,
        _damages(report.damages),
    )


def _damages(damages: tuple[str, ...]) -> tuple[str, ...]:
    """Return the first of the damages, and how many more there are."""
    more = len(damages) - DAMAGES_TOLD
    if more <= 0:
        return damages
    return (*damages[:DAMAGES_TOLD], f"and {more:,} more")


def _unverified(profile: Profile | None) -> Iterator[str]:
    """Yield what of a profile has no source."""
    if profile is None:
        return
    parts: list[tuple[str, object]] = [
        ("printing", profile.display.printing),
        ("dots of characters", profile.display.dots),
        ("line", profile.link),
        ("coordinates", profile.coordinates),
        ("keyboard", profile.keyboard),
        ("circuit", profile.circuit),
    ]
    parts += [(f"command {command.name}", command) for command in profile.commands]
    parts += [(f"option {option.name}", option) for option in profile.options]
    for name, part in parts:
        if getattr(part, "source", "") == UNVERIFIED:
            yield name


def _cautions(report: RunReport) -> tuple[CautionFacts, ...]:
    """Return each caution once, with all stages and steps that give it."""
    where: dict[str, list[str]] = {}
    for text, title in _given(report):
        where.setdefault(text, []).append(title)
    return tuple(CautionFacts(text, tuple(dict.fromkeys(own))) for text, own in where.items())


def _given(report: RunReport) -> Iterator[tuple[str, str]]:
    """Yield (caution, title) of stages and steps that were tried, and those of probing."""
    of_stage = {stage.id: stage.caution for stage in report.plan.stages}
    open_ = {step.id for step in report.verdict.steps if step.verdict in NOT_TRIED}
    tried = [step for step in report.plan.steps if step.id not in open_]
    for stage in report.plan.stages:
        if stage.caution and any(step.stage == stage.id for step in tried):
            yield stage.caution, stage.title
    for step in tried:
        if step.caution and step.caution != of_stage.get(step.stage):
            yield step.caution, step.title
        if step.stop_if:
            yield f"Switch off at once when {step.stop_if}", step.title
    if report.diagnosis is not None and report.diagnosis.probes:
        yield CAUTION, "Probing"
        yield INFERRED, "Probing"
