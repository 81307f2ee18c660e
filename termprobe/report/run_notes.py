"""What was noted while a run went on."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from termprobe.journal.records import Noted, Record


@dataclass(frozen=True)
class RunNote:
    """A remark of the builder, or of the program."""

    step: str | None
    """Id of the step in hand; None where there was none."""
    time: str
    """Date and time of day, ISO 8601."""
    text: str


def notes_of(records: Iterable[Record]) -> tuple[RunNote, ...]:
    """Return the notes of a journal, in order."""
    noted = [record for record in records if isinstance(record, Noted)]
    return tuple(RunNote(record.step, record.at, record.text) for record in noted)


def of_step(notes: Sequence[RunNote], step_id: str) -> tuple[RunNote, ...]:
    """Return the notes that were made at one step."""
    return tuple(note for note in notes if note.step == step_id)
