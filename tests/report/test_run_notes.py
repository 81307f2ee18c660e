"""What was noted while a run went on."""

from termprobe.journal.records import CautionRead, Noted
from termprobe.report.run_notes import RunNote, notes_of, of_step

MOMENT = "2026-01-02T03:04:05+00:00"
NOTES = (RunNote("a", MOMENT, "smells burnt"), RunNote(None, MOMENT, "late"))


def test_notes_are_found_among_the_records_in_order():
    records = (Noted("smells burnt", "a", at=MOMENT), CautionRead("a"), Noted("late", at=MOMENT))
    assert notes_of(records) == NOTES


def test_a_step_has_its_own_notes():
    assert of_step(NOTES, "a") == NOTES[:1] and of_step(NOTES, "b") == ()
