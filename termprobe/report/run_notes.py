"""What was noted while a run went on, and afterwards."""

from collections.abc import Sequence
from dataclasses import dataclass

from termprobe.journal.added import of_sittings
from termprobe.journal.kept import KeptPhoto
from termprobe.journal.records import Noted, Record


@dataclass(frozen=True)
class RunNote:
    """A remark of the builder, or of the program."""

    step: str | None
    """Id of the step in hand; None where there was none."""
    time: str
    """Date and time of day, ISO 8601."""
    text: str
    photo: KeptPhoto | None = None
    """The photo that was put to it."""
    is_afterwards: bool = False
    """It was noted when the board was no more tried."""


def notes_of(records: Sequence[Record]) -> tuple[RunNote, ...]:
    """Return the notes of a journal, in order."""
    noted = [record for record in records if isinstance(record, Noted)]
    then = {record.seq for record in of_sittings(records)}
    return tuple(
        RunNote(one.step, one.at, one.text, one.photo, one.seq not in then) for one in noted
    )


def of_step(notes: Sequence[RunNote], step_id: str) -> tuple[RunNote, ...]:
    """Return the notes that were made at one step."""
    return tuple(note for note in notes if note.step == step_id)
