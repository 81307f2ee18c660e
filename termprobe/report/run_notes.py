"""What was noted while a run went on, as facts and in words."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from termprobe.folding import folded
from termprobe.journal.records import Noted, Record

WIDTH = 80


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


def at_its_step(note: RunNote) -> str:
    """Return the note as it stands below its step: `noted 03:04: smells burnt`."""
    return f"noted {note.time[11:16]}: {note.text}"


def lines_on_notes(notes: Sequence[RunNote]) -> list[str]:
    """Return the lines on all that was noted, behind an empty one; none where nothing was."""
    if not notes:
        return []
    lines = ["", "Noted during the run"]
    for note in notes:
        at_step = f"{note.step}: " if note.step else ""
        moment = f"{note.time[:10]} {note.time[11:16]}"
        lines += folded(f"  {moment}  ", f"{at_step}{note.text}", WIDTH)
    return lines
