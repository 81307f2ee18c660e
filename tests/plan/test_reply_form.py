"""The form of a report on the kind of device: ECMA-48 8.3.24, with the parameters of 5.4."""

import pytest

from termprobe.plan.reply_form import ReplyForm

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
