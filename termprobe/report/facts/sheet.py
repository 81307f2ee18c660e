"""All facts of the report of one run, from which every format is laid out. Pure."""

import datetime
from dataclasses import dataclass

from termprobe.report.after_words import changes_in_words
from termprobe.report.attention_words import checks_in_words
from termprobe.report.block_shown import BlockShown
from termprobe.report.facts.about import AboutFacts, about
from termprobe.report.facts.clipping import clipped
from termprobe.report.facts.first_page import FirstPage, first_page
from termprobe.report.facts.keyboard import KeyboardFacts, keyboard_facts
from termprobe.report.facts.notes import NoteFacts, all_notes
from termprobe.report.facts.readings import ReadingFacts
from termprobe.report.facts.stages import StageFacts, stages
from termprobe.report.facts.suspects import SuspectsFacts, suspects
from termprobe.report.known_fault_words import of_fault
from termprobe.report.record import RunReport


@dataclass(frozen=True)
class Sheet:
    """What is told of one run, whatever the format."""

    first: FirstPage
    known_faults: tuple[str, ...]
    """Those that the run went on with."""
    changes: tuple[str, ...]
    """What has changed since the run before, a line each."""
    checks: str
    """How the attention checks went; empty where none were wanted."""
    suspects: tuple[SuspectsFacts, ...]
    blocks: tuple[BlockShown, ...]
    readings: tuple[ReadingFacts, ...]
    keyboard: KeyboardFacts | None
    stages: tuple[StageFacts, ...]
    notes: tuple[NoteFacts, ...]
    """All that was noted, in order."""
    about: AboutFacts


def sheet(report: RunReport, zone: datetime.tzinfo | None = None) -> Sheet:
    """Return what is told of a run; times are those of `zone`, this computer's by default.

    Each text in it is of a length that a page can hold. What came from the board or from a person
    is as it came: a format escapes it.
    """
    first = first_page(report, zone)
    told = stages(report, first.causes, zone)
    readings = [step.reading for stage in told for step in stage.steps if step.reading]
    made = Sheet(
        first,
        tuple(map(of_fault, report.verdict.known_faults)),
        tuple(changes_in_words(report.changes, report.plan.title_of)),
        checks_in_words(report.checks, report.plan.title_of),
        suspects(report),
        report.blocks,
        tuple(readings),
        keyboard_facts(report),
        told,
        all_notes(report, zone),
        about(report, zone),
    )
    return clipped(made)
