"""What was noted in a run, with the photos that were put to it. Pure."""

import datetime
from typing import NamedTuple

from termprobe.journal.kept import KeptPhoto
from termprobe.report.facts.times import clock_time, moment_in_words
from termprobe.report.record import RunReport
from termprobe.report.run_notes import RunNote, of_step

AFTERWARDS = "afterwards"
NOT_SOUGHT = "was not looked for"


class PhotoFacts(NamedTuple):
    """A photo that stands beside the run file."""

    name: str
    """Of its file."""
    trouble: str
    """Why it is not shown, as `is not beside the run file`; empty where it is as it was kept."""
    digest: str
    """SHA-256 of the file as it was kept."""
    size_bytes: int
    width: int
    """In pixels, and so is the height."""
    height: int

    @property
    def told(self) -> str:
        """`photo 0042-photo-1.jpg`, and what is wrong with it."""
        return " ".join(filter(None, (f"photo {self.name}", self.trouble and f"({self.trouble})")))


class NoteFacts(NamedTuple):
    """What was noted at a step, or at none."""

    time: str
    step: str
    """The step's title; empty where it was noted at none."""
    text: str
    photo: PhotoFacts | None = None

    @property
    def told(self) -> str:
        """The text, and the name of the photo behind it."""
        return "; ".join(filter(None, (self.text, self.photo and self.photo.told)))


def all_notes(report: RunReport, zone: datetime.tzinfo | None) -> tuple[NoteFacts, ...]:
    """Return all that was noted, in order, each with its date."""
    return tuple(note_facts(report, note, _dated(note, zone)) for note in report.noted)


def notes_at(
    report: RunReport, step_id: str, zone: datetime.tzinfo | None
) -> tuple[NoteFacts, ...]:
    """Return what was noted at a step, with the time of day; afterwards, with the date."""
    noted = of_step(report.noted, step_id)
    return tuple(note_facts(report, note, _time(note, zone)) for note in noted)


def note_facts(report: RunReport, note: RunNote, time: str) -> NoteFacts:
    """Return the facts of a note that is told to be of `time`."""
    title = report.plan.title_of(note.step) if note.step else ""
    return NoteFacts(time, title, note.text, _photo(report, note.photo))


def _time(note: RunNote, zone: datetime.tzinfo | None) -> str:
    return _dated(note, zone) if note.is_afterwards else clock_time(note.time, zone)


def _dated(note: RunNote, zone: datetime.tzinfo | None) -> str:
    """Return the date and time of a note, and whether it is of afterwards."""
    moment = moment_in_words(note.time, zone)
    return f"{moment}, {AFTERWARDS}" if note.is_afterwards else moment


def _photo(report: RunReport, kept: KeptPhoto | None) -> PhotoFacts | None:
    if kept is None:
        return None
    troubles = {found.kept.name: found.trouble for found in report.photos}
    return PhotoFacts(
        kept.name,
        troubles.get(kept.name, NOT_SOUGHT),
        kept.digest,
        kept.size_bytes,
        kept.width,
        kept.height,
    )
