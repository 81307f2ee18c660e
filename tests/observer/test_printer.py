"""A second port at the printer port: what must come there, and what not."""

import pytest

from helpers.paper import Paper
from helpers.scripts import acceptance
from helpers.special import with_fields
from termprobe.clock import CrankedClock
from termprobe.errors import LinkLostError, ObserverError, UsageError
from termprobe.journal.records import AS_EXPECTED, DIFFERS
from termprobe.link import open as link_open
from termprobe.link.base import LineFormat
from termprobe.observer.printer import PrinterObserver, printer_at


def step():
    return acceptance(with_fields()).step("printer-port")


def test_the_text_between_the_two_codes_and_no_other_must_come():
    assert step().expected.printed == b"PRINTED"
    said = PrinterObserver(Paper(b"PRIN", b"TED")).answer(step())
    assert (said.word, said.data) == (AS_EXPECTED, b"PRINTED")


@pytest.mark.parametrize("came", [b"", b"BEFORE PRINTED", b"PRINTED BEHIND", b"PRINTEE"])
def test_anything_else_differs_and_is_told(came):
    said = PrinterObserver(Paper(came)).answer(step())
    assert (said.word, said.data) == (DIFFERS, came)
    assert said.note.startswith('"PRINTED" must come at the printer port; there came ')


def test_what_came_before_the_step_does_not_count():
    observer = PrinterObserver(Paper(b"EARLIER", b"PRINTED"))
    observer.begin()
    assert observer.answer(step()).word == AS_EXPECTED


def test_only_a_step_that_prints_is_answered():
    observer = PrinterObserver(Paper())
    plan = acceptance(with_fields())
    claimed = [one.id for one in plan.steps if observer.can_answer(one)]
    assert claimed == ["printer-port"]


def test_a_port_that_is_gone_says_nothing_of_the_board():
    with pytest.raises(ObserverError, match="the printer port cannot be read"):
        PrinterObserver(Paper(LinkLostError("gone"))).answer(step())


@pytest.mark.parametrize(
    "text, url, format",
    [
        ("/dev/x", "/dev/x", LineFormat()),
        ("/dev/x,1200", "/dev/x", LineFormat(1200)),
        ("/dev/x,300,7E2", "/dev/x", LineFormat(300, 7, "even", 2)),
    ],
)
def test_port_speed_and_frame_are_told_in_one_word(monkeypatch, text, url, format):
    opened = []
    monkeypatch.setattr(link_open, "open_port", lambda *given: opened.append(given[:2]))
    printer_at(text, CrankedClock())
    assert opened == [(url, format)]


@pytest.mark.parametrize("text", ["", ",1200", "/dev/x,fast", "/dev/x,1200,7Q1", "/dev/x,1,7E1,9"])
def test_what_is_no_port_is_refused_with_what_to_try(text):
    with pytest.raises(UsageError, match="must be .* try"):
        printer_at(text, CrankedClock())
