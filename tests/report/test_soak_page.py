"""What is said of a soak: counts, what they prove, and what its errors most often come from."""

import pytest

from termprobe.journal.records import BoardUnderTest, Header, LinkUsed
from termprobe.journal.soaking import SoakBegun, SoakTold
from termprobe.line.soak import Far
from termprobe.report.soak_page import (
    begun_of,
    far_of,
    line_format_of,
    soak_document,
    soak_page,
    told_of,
)

BEGUN = SoakBegun(9600, 8, "none", 1, "none", False, 1, 20_000)
HEADER = Header(BoardUnderTest(""), link=LinkUsed("/dev/tty\x1b0"), script="soak")


def far(seconds=25.0, bits=(), **errors):
    return far_of([SoakTold(9, 20_000, 19_990, seconds, tuple(errors.items()), bits)])


def page(soaked):
    return soak_page("x.run.jsonl", HEADER, BEGUN, soaked)


def test_a_good_line_is_said_to_be_good_and_how_surely():
    assert page(far()).splitlines() == [
        r"PASS  soak of /dev/tty\x1b0, 9600 baud 8N1, handshake none",
        "All 20,000 characters came back as they were sent.",
        "By this count at most one character in 6,677 goes wrong (a rate of 0.00015, at",
        "  95 % confidence).",
        "It took 25 s, 83.3% of the speed of the line.",
        "Run file: x.run.jsonl",
    ]


@pytest.mark.parametrize(
    "soaked, said",
    [
        (far(lost=3), "Of 20,000 characters, errors: 3 lost."),
        (far(lost=3), "a buffer that ran over"),
        (far(lost=3, changed=2, bits=((0, 2),)), "Of the changed ones: bit 0 2 times"),
        (far(changed=9, bits=((7, 9),)), "one side is set to seven data bits"),
        (far(framing=1), "the two ends differ in speed or format"),
        (Far(), "Nothing was proven: no character came back."),
    ],
)
def test_errors_are_said_with_what_they_mean(soaked, said):
    assert said in page(soaked).replace("\n  ", " ")


def test_a_lost_character_beside_changed_ones_is_not_said_to_be_of_a_buffer():
    assert "buffer" not in page(far(lost=3, changed=1, bits=((0, 1),)))


def test_the_document_says_the_same():
    told = soak_document("x.run.jsonl", BEGUN, far(lost=3, changed=2, bits=((0, 2),)))
    assert told["errors"] == {"changed": 2, "lost": 3} and told["verdict"] == "fail"
    assert told["bits"] == {"0": 2} and 5 / 20_000 < told["bound_95"] < 11 / 20_000


def test_how_far_it_is_is_kept_and_read_back():
    soaked = far(lost=3, changed=2, bits=((0, 2),))
    assert far_of([BEGUN, told_of(far()), told_of(soaked)]) == soaked
    assert far_of([]) == Far() and begun_of([told_of(soaked)]) is None
    assert str(line_format_of(BEGUN)) == "9600 baud 8N1"
