"""The form of a report on the kind of device: ECMA-48 8.3.24, with the parameters of 5.4."""

import pytest

from helpers.scripts import acceptance
from helpers.special import special_text
from termprobe.board.board import Board
from termprobe.errors import FileError
from termprobe.plan.reply_form import ReplyForm, TextForm, form_of
from termprobe.profile.load import parse
from termprobe.yamlvalues import Template

REPORT = ReplyForm(b"\x1b[", b"c")
REPORTS = (b"\x1b[1c", b"\x1b[?6c", b"\x1b[>0;276;0c", b"\x1b[?62;1;4;22c")
OTHERS = (b"", b"\x1b[c", b"\x1b[0c", b"\x1b[00c", b"\x1b[1n", b"x\x1b[1c", b"\x1b[!1c", b"\x1b[1")


@pytest.mark.parametrize("data", REPORTS)
def test_a_report_standard_or_private_is_complete_with_its_last_byte(data):
    assert REPORT.allows(data) and REPORT.is_complete(data)
    assert not any(REPORT.is_complete(data[:length]) for length in range(len(data)))


@pytest.mark.parametrize("data", OTHERS)
def test_what_has_another_form_is_none_and_neither_is_the_request(data):
    assert not REPORT.allows(data)


def test_a_form_is_written_as_in_a_profile():
    assert REPORT.in_notation == 'ESC "[" parameters "c"'


ANSWERBACK = TextForm(b"", b"\r")


@pytest.mark.parametrize("data", [b"UNIT 7\r", b"\r", b"~ !\r"])
def test_text_that_only_the_unit_knows_is_printable_and_ends_as_it_must(data):
    assert ANSWERBACK.is_complete(data) and ANSWERBACK.allows(data)


@pytest.mark.parametrize("data", [b"", b"UNIT 7", b"UNIT\x07\r", b"UNIT 7\r\n", b"A\rB\r"])
def test_other_text_does_not(data):
    assert not ANSWERBACK.allows(data)


def test_forms_of_replies():
    assert form_of(Template(("text", b"\r"))) == ANSWERBACK
    assert form_of(Template((b"\x02", "text", b"\x03"))).in_notation == "STX text ETX"
    assert isinstance(form_of(Template((b"\x1b[", "parameters", b"c"))), ReplyForm)
    assert form_of(Template((b"CLUB",))) is None and ANSWERBACK.in_notation == "text CR"


def test_an_answerback_that_only_the_unit_knows_is_recorded_and_judged_by_its_form():
    text = special_text().replace("""'"CLUB 24" CR'""", "text CR")
    plan = acceptance(parse(text, "unit.yaml"))
    step = plan.step("answerback")
    assert step.wanted == "text CR" and step.allows(b"UNIT 7\r") and not step.allows(b"UNIT 7")
    assert "only the unit knows" in plan.step("answerback-cursor").not_fitted
    board = Board(parse(text, "unit.yaml"))
    board.receive(step.data)
    assert step.allows(b"".join(data for _, data in board.take_sent()))


@pytest.mark.parametrize("reply", ["text", "text row CR", "row text CR"])
def test_such_a_reply_must_end_with_known_bytes_and_have_no_other_slot(reply):
    with pytest.raises(FileError, match="reply of enquire must have"):
        parse(special_text().replace("""'"CLUB 24" CR'""", reply), "unit.yaml")
