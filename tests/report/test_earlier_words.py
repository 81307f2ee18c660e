"""What answers said that do not count any more."""

import pytest

from helpers.reports import step
from termprobe.report.earlier_words import is_told, re_answered, reason, said
from termprobe.verdict.model import Differing, Earlier, Measured, Pressed, Returned
from termprobe.verdict.noticed import Missing, Rate, Right

RIGHT = Pressed((Right(b"q"),), Rate(1, 1))
MISSING = Pressed((Missing(b"q"),), Rate(0, 1))


def reading(value):
    return Measured(value, "V", "5 V", value < 5.25)


@pytest.mark.parametrize(
    "because, earlier, text",
    [
        (reading(5.0), [Earlier("fail", reading(5.5))], "second reading; first 5.5 V"),
        (
            reading(5.0),
            [Earlier("fail", reading(5.5)), Earlier("pass", reading(4.9))],
            "third reading; first 5.5 V, second 4.9 V",
        ),
        (
            reading(5.0),
            [Earlier("fail", reading(5.5), is_taken_back=True)],
            "second reading; first, taken back: 5.5 V",
        ),
        (
            reading(5.0),
            [Earlier("skipped", note="no meter")],
            "second reading; first: skipped, no meter",
        ),
        (None, [Earlier("unsure")], "second answer; first: unsure"),
        (
            Differing(2),
            [Earlier("pass"), Earlier("fail", Differing(160, is_counted=False))],
            "third answer; first: pass, second: fail, 160 cells marked, perhaps not all",
        ),
        (
            Returned(b"a", b"a"),
            [Earlier("fail", Returned(b"a", b"b"))],
            'second answer; first: fail, "a" must come back, not "b"',
        ),
        (RIGHT, [Earlier("fail", MISSING)], 'second press; first: no code received, not "q"'),
        (
            None,
            [Earlier("unsure")] * 12,
            "13th answer; first: unsure, second: unsure, third: unsure, fourth: unsure and 8 more",
        ),
        (None, [], ""),
        (RIGHT, [Earlier("pass", RIGHT)] * 9, ""),
    ],
)
def test_the_answer_that_counts_is_numbered_and_those_before_it_are_told(because, earlier, text):
    made = step("pass", because=because, earlier=tuple(earlier))
    assert re_answered(made) == text and is_told(made) == bool(text)


def test_presses_taken_back_are_told_though_they_went_right():
    taken_back = Earlier("pass", RIGHT, is_taken_back=True)
    told = re_answered(step("pass", because=RIGHT, earlier=(taken_back,)))
    assert told == 'second press; first, taken back: "q" came'


def test_what_one_said_and_why():
    assert said(Earlier("disputed", note="the manual")) == "disputed, the manual"
    assert reason(Earlier("disputed", note="the manual")) == "the manual"
    assert reason(Earlier("fail", reading(5.5))) == "5.5 V, outside the limits, 5 V"
