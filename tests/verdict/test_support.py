"""What speaks for a verdict: facts in their order, and which steps failed alike."""

import pytest

from helpers.reports import step
from termprobe.verdict.evidence import of_bytes
from termprobe.verdict.model import Blocked, Measured, Pressed
from termprobe.verdict.noticed import Bounce, Missing, Rate, Right
from termprobe.verdict.support import (
    CharactersOnly,
    LimitsFrom,
    Unheeded,
    WithNote,
    is_note_the_reason,
    likeness,
    supports,
)

BOUNCE = Bounce(b"q", 2, 8.0)


@pytest.mark.parametrize(
    "because, found",
    [
        (Measured(4.1, "V", "4.75 to 5.25 V", False, "the manual"), [LimitsFrom("the manual")]),
        (Measured(None, "V", "4.75 to 5.25 V", False, "the manual"), []),
        (Measured(4.1, "V", "", True, "the manual"), []),
        (Pressed((Right(b"q"), BOUNCE), Rate(1, 2)), [BOUNCE, Rate(1, 2)]),
        (Pressed((Right(b"q"),), Rate(2, 2)), []),
        (Blocked(("power",), "pass"), [Unheeded("pass")]),
        (Blocked(("power",)), []),
        (None, []),
    ],
)
def test_what_speaks_beside_the_reason(because, found):
    assert list(supports(step("fail", because=because))) == found


def test_evidence_stands_before_remarks():
    evidence = of_bytes(b"HELLO\r", b"HGLLO\r")
    made = step("fail", evidence=evidence, note="dim")
    assert list(supports(made)) == [evidence, WithNote("dim")]


@pytest.mark.parametrize("verdict", ["unsure", "disputed", "skipped"])
def test_a_note_that_is_the_reason_is_not_told_twice(verdict):
    made = step(verdict, note="dim")
    assert is_note_the_reason(made) and not list(supports(made))
    assert not is_note_the_reason(step("fail", note="dim"))


def test_steps_failed_alike_where_the_first_fact_is_the_same():
    first = step("fail", "a", evidence=of_bytes(b"HELLO\r", b"HGLLO\r"))
    other = step("fail", "b", evidence=of_bytes(b"OPENS\r", b"OPGNS\r"), note="dim")
    assert first.evidence != other.evidence
    assert likeness(first) == likeness(other)


def test_what_was_not_seen_makes_no_steps_alike():
    a, b = (step("fail", name, not_seen=("bell",)) for name in "ab")
    assert list(supports(a)) == [CharactersOnly(("bell",))]
    assert (likeness(a), likeness(b)) == ("a", "b")


def test_a_step_for_which_nothing_speaks_is_like_no_other():
    because = Pressed((Missing(b"q"),), Rate(0, 1))
    a, b = step("fail", "a", because=because), step("fail", "b", because=because)
    assert likeness(a) == "a" and likeness(b) == "b"
