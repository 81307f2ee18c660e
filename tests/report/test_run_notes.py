"""What was noted while a run went on."""

from termprobe.journal.records import CautionRead, Noted
from termprobe.report.run_notes import RunNote, at_its_step, lines_on_notes, notes_of, of_step

MOMENT = "2026-01-02T03:04:05+00:00"
NOTES = (RunNote("a", MOMENT, "smells burnt"), RunNote(None, MOMENT, "late"))


def test_notes_are_found_among_the_records_in_order():
    records = (Noted("smells burnt", "a", at=MOMENT), CautionRead("a"), Noted("late", at=MOMENT))
    assert notes_of(records) == NOTES


def test_a_step_has_its_own_notes():
    assert of_step(NOTES, "a") == NOTES[:1] and of_step(NOTES, "b") == ()


def test_a_note_has_its_time_of_day_at_its_step_and_its_date_in_the_list():
    assert at_its_step(NOTES[0]) == "noted 03:04: smells burnt"
    assert lines_on_notes(NOTES) == [
        "",
        "Noted during the run",
        "  2026-01-02 03:04  a: smells burnt",
        "  2026-01-02 03:04  late",
    ]
    assert lines_on_notes(()) == []


def test_a_long_note_is_folded_below_its_own_beginning():
    lines = lines_on_notes([RunNote("a", MOMENT, "word " * 30)])
    assert max(map(len, lines)) <= 80 and all(line.startswith(" " * 20) for line in lines[3:])
