"""What is written at the numbers of a card, as answers to its steps; each by card_answer.py."""

import pytest

from helpers.cards import found, told
from termprobe.journal.records import (
    AS_EXPECTED,
    DIFFERS,
    DISPUTED,
    EYES,
    SKIPPED,
    UNSURE,
    Answer,
)
from termprobe.link.base import Received


def answer(line, step):
    return told(line).answers[step]


@pytest.mark.parametrize(
    "typed, word, note",
    [
        ("ok", AS_EXPECTED, ""),
        ("As  expected".replace("  ", " "), AS_EXPECTED, ""),
        ("YES, but dim", AS_EXPECTED, "but dim"),
        ("differs  row 5 is blank", DIFFERS, "row 5 is blank"),
        ("no: # instead of *", DIFFERS, "# instead of *"),
        ("unsure", UNSURE, ""),
        ("disputed; the drawing is wrong", DISPUTED, "the drawing is wrong"),
        ("not tried  no scope", SKIPPED, "no scope"),
        ("skip", SKIPPED, "not tried"),
    ],
)
def test_a_box_and_a_remark_behind_it(typed, word, note):
    expected = Answer(word, note=note, observer="card", strength=EYES)
    assert answer(f"1: {typed}", "hello") == expected


def test_readings_have_units_limits_and_remarks():
    within = answer("v1: 4.95 V  the meter drifts", "supply")
    assert (within.word, within.value, within.note) == (AS_EXPECTED, 4.95, "the meter drifts")
    outside = answer("V1: 5500 mV; hot", "supply")
    assert (outside.word, outside.value, outside.note) == (DIFFERS, 5.5, "hot")
    assert answer("V1: not tried", "supply").word == SKIPPED


def test_presses_are_kept_as_heard_so_that_a_keyboard_can_be_diagnosed():
    right = answer("K1: ok", "press/a")
    assert right.word == AS_EXPECTED and right.heard.events == (Received(0.0, b"a"),)
    assert (right.heard.speed_baud, right.heard.data_bits) == (9600, 7)
    wrong = answer("K1: came 42h", "press/a")
    assert (wrong.word, wrong.data, wrong.observer) == (DIFFERS, b"B", "card")
    assert answer("K1: came nothing", "press/a").heard.events == ()
    assert answer("K3: ok", "press/break").heard.events == (Received(0.0, b"", "break"),)
    assert answer("K3: came nothing", "press/break").heard.events == ()
    assert answer("K1: differs  it sticks", "press/a").heard is None


def test_bytes_that_came_back_are_compared():
    assert answer("5: came ACK", "who").word == AS_EXPECTED
    assert answer("5: came NAK", "who").data == b"\x15"
    assert answer('6: came "OK" CR', "word").word == AS_EXPECTED
    assert answer('6: came "OJ" CR', "word").word == DIFFERS


def test_what_was_seen_of_a_screen_stands_in_the_answer_and_differs():
    alone = answer("1: seen 0,1 U", "hello")
    assert (alone.word, alone.observer) == (DIFFERS, "card")
    assert [row.rstrip() for row in alone.seen[:2]] == ["HULLO", ""]
    both = told("1: seen 0 HULL", "1: no  it flickers", "1: seen 1,2 x").answers["hello"]
    assert both.note == "it flickers"
    assert [row.rstrip() for row in both.seen[:2]] == ["HULL", "  x"]

    right = told("1: differs  the cursor is lost", "1: seen 0,1 E").answers["hello"]
    assert (right.word, right.seen) == (DIFFERS, None)


def test_a_form_of_mistakes_alone_is_given_up_early():
    assert len(found(*["9: ok"] * 5000)) == 100
    assert len(found("K1-K99999: ok")) == 1


def test_several_numbers_at_once_and_notes_beside_an_answer():
    card = told("K1-K3: ok", "1 - 2: differs", "1: note  it flickers", "4: note  a lamp")
    assert set(card.answers) == {"press/a", "press/b", "press/break", "hello", "more"}
    assert card.notes == (("hello", "it flickers"), ("lamp", "a lamp"))


@pytest.mark.parametrize(
    "line, finding",
    [
        ("1: fine", "f.form:3:4: item 1: the answer must be one of ok, as expected, yes, differs"),
        ("1: difers", 'not "difers"; nearest is "differs"'),
        ("9: ok", "a number must be of this card: V1, 1 to 6, K1 to K3; not 9"),
        ("K2-K9: ok", "K1 to K3; not K9"),
        ("3-1: ok", "not 3-1"),
        ("1-K2: ok", "not 1-K2"),
        ("1: ok\n1: no", "f.form:4:4: item 1: it must be answered once, and line 3 does, not"),
        ("V1: ok", 'item V1: the answer must be a reading in V, or not tried, not "ok"'),
        ("V1: high", "item V1: a reading must be a number, with a point and its unit"),
        ("1: disputed", "the reason must be written behind the word"),
        ("1: came 41h", "came must be written where bytes come back, not at this item"),
        ("K1: came", 'came must have bytes behind it (42h, "B", CR), or nothing'),
        ("K1: came 4Zh", 'came must have bytes behind it (42h, "B", CR): '),
        ("1: note", "the answer must be one of ok"),
        ("4: seen 5 X", "item 4: seen must be written where a screen is drawn, not at this item"),
        ("1: seen x", "item 1: what is seen must be a row, a column and a text (5,10 HEMMO"),
        ("1: seen 0,1 E", "f.form:3:4: seen is just what must be there; write ok, or what differs"),
        ("1: seen", "3: seen 5,10 HEMMO, 3: note  it flickers), not"),
        ("1: ok\n1: seen 0 X", "f.form:4:4: seen must stand beside differs, not beside as-exp"),
    ],
)
def test_what_cannot_be_is_said_with_line_item_and_what_must_be(line, finding):
    findings = found(line)
    assert len(findings) == 1 and finding in findings[0], findings
