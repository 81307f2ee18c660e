"""The lines of a form, and what is said of those that are none."""

import datetime

import pytest

from termprobe.findings import Findings
from termprobe.observer.card_form import form_of, moment_of

HEAD = "board: 0042\ndate: 2026-07-03\n"


def form(text):
    findings = Findings("f.form")
    return form_of(text, findings), [one.text for one in findings]


def test_words_numbers_and_notes_are_told_apart_and_empty_lines_left_aside():
    text = "# 9: ok\n\nBoard: 0042\r\ndate : 2026-07-03\nnote: a\nnote: b # c\n3:\nv1: 4.95  x: y\n"
    read, findings = form(text)
    assert findings == []
    assert read.head("board") == "0042" and read.head("builder") == ""
    assert [note.text for note in read.notes] == ["a", "b # c"]
    assert [(one.name, one.text, one.place.line) for one in read.entries] == [
        ("v1", "4.95  x: y", 8)
    ]


@pytest.mark.parametrize(
    "text, finding",
    [
        (HEAD + "3 ok", 'f.form:3:1: a line must be NUMBER: ANSWER, for example 3: ok, not "3 ok"'),
        (HEAD + "bord: 7", 'not "bord"; nearest is "board"'),
        (HEAD + "board: 7", "f.form:3:8: board must be written once, and line 1 has it, not again"),
        ("date: 2026-07-03", "f.form:1:1: the form must say the serial number of the board"),
        ("board: 7\ndate:", "f.form:1:1: the form must say the day of the card"),
        ("board: 7\ndate: 3.7.2026", "f.form:2:7: date must be a day, for example 2026-07-03, or"),
        ("board: 7\ndate: 2026-02-30", 'not "2026-02-30"'),
        (HEAD + "K1-: ok", "a line must begin with the number of an item or one of profile"),
    ],
)
def test_what_is_wrong_is_said_with_line_and_what_must_be(text, finding):
    _, findings = form(text)
    assert len(findings) == 1 and finding in findings[0], findings


def test_a_date_is_a_day_alone_or_a_moment_of_this_place():
    assert moment_of("2026-07-03") == "2026-07-03"
    moment = datetime.datetime.fromisoformat(moment_of("2026-07-03 18:45"))
    assert moment == datetime.datetime(2026, 7, 3, 18, 45).astimezone()
    for wrong in ("2026-W27-5", "20260703", "2026-07-03 18:45:10", "soon"):
        with pytest.raises(ValueError, match="a day, for example"):
            moment_of(wrong)
