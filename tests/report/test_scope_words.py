"""What is to be known beside the headline."""

from helpers.reports import step
from termprobe.report.headline import TRY_THE_LINE, Scope
from termprobe.report.scope_words import OF_CARD, OF_CARD_IN_PART, OF_PRACTICE, limits
from termprobe.verdict.model import Returned, RunVerdict, Silent

PASSED = RunVerdict("pass", (step("pass"),))
SILENT = RunVerdict("incomplete", (step("blocked", because=Silent(Returned(b"a", b""))),))


def test_what_passed_says_what_it_does_not_cover():
    told = list(limits(PASSED, Scope(), ("at 9600 baud 7E1 only", "not tried: handshake")))
    assert told == ["Not covered: at 9600 baud 7E1 only; not tried: handshake."]
    assert list(limits(RunVerdict("fail", ()), Scope(), ("x",))) == []


def test_a_practice_and_a_silent_line_are_explained():
    assert list(limits(PASSED, Scope(is_practice=True), ())) == [OF_PRACTICE]
    assert list(limits(PASSED, Scope(is_from_card=True), ())) == [OF_CARD]
    in_part = Scope(is_from_card=True, is_on_link_too=True)
    assert list(limits(PASSED, in_part, ())) == [OF_CARD_IN_PART]
    assert list(limits(SILENT, Scope(), ())) == [TRY_THE_LINE]
