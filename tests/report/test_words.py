"""Why a step has its verdict, and what speaks for it: one sentence each."""

import pytest

from termprobe.report.words import because_in_words, evidence, reason
from termprobe.verdict.evidence import of_bytes
from termprobe.verdict.model import (
    Blocked,
    Covered,
    Differing,
    Measured,
    Pressed,
    Returned,
    StepVerdict,
    Unfitted,
)
from termprobe.verdict.noticed import Bounce, Missing, Rate, Right

LIMITS = "4.75 to 5.25 V"


def verdict(word="fail", because=None, **fields):
    return StepVerdict("a", "stage", "A step", word, because, **fields)


@pytest.mark.parametrize(
    "because, sentence",
    [
        (Unfitted("profile x declares no command bell"), "profile x declares no command bell"),
        (Blocked(("a",)), "needs a, which failed"),
        (Blocked(("b", "a")), "needs b, which is blocked: needs a, which failed"),
        (
            Blocked(("c", "b", "a")),
            "needs c, which is blocked: needs b, which is blocked: needs a, which failed",
        ),
        (Covered(("b",)), "covered by b, which passed"),
        (Covered(("a", "b")), "covered by a and b, which passed"),
        (Covered(("a", "b", "c")), "covered by a, b and c, which passed"),
        (Measured(None, "V", LIMITS, False), "not measured"),
        (Measured(5.0, "V", LIMITS, True), f"5 V, within the limits, {LIMITS}"),
        (Measured(4.7499, "V", LIMITS, False), f"4.7499 V, outside the limits, {LIMITS}"),
        (Measured(2.0, "", "at least 3", False), "2, outside the limits, at least 3"),
        (Measured(2.0, "V", "", True), "2 V, noted; no limits are given"),
        (Returned(b"ok", b"ok"), '"ok" came back'),
        (Returned(b"\x1b/K", b"\x1b/Z"), 'ESC "/K" must come back, not ESC "/Z"'),
        (Returned(b"\x1b/K", b""), 'ESC "/K" must come back, not nothing'),
        (Differing(0), "seen to differ"),
        (Differing(1), "1 cell differs"),
        (Differing(2), "2 cells differ"),
        (Differing(1023), "1,023 cells differ"),
        (Differing(1, is_counted=False), "1 cell marked, perhaps not all"),
        (Differing(160, is_counted=False), "160 cells marked, perhaps not all"),
        (Differing(0, is_counted=False), "seen to differ"),
        (
            Differing(0, cursor=((0, 5), (1, 0))),
            "the cursor must be at row 0, column 5, not at row 1, column 0",
        ),
        (Differing(0, bells=(0, 1)), "the bell must ring never, not once"),
        (
            Differing(2, ((0, 5), (1, 0)), (2, 0)),
            "2 cells differ; the cursor must be at row 0, column 5, not at row 1, column 0; "
            "the bell must ring 2 times, not never",
        ),
        (Pressed((Missing(b"a"), Right(b"a")), Rate(1, 1)), 'no code received, not "a"'),
    ],
)
def test_what_decides_a_verdict_is_its_reason(because, sentence):
    assert because_in_words(because) == sentence
    assert reason(verdict(because=because, note="a remark")) == sentence


@pytest.mark.parametrize("word", ["unsure", "disputed", "skipped"])
def test_where_only_the_word_of_an_observer_decides_its_remark_is_the_reason(word):
    remarked = verdict(word, note="not stuffed")
    assert reason(remarked) == "not stuffed" and evidence(remarked) == ()
    assert reason(verdict(word)) == ""


@pytest.mark.parametrize("word", ["pass", "fail", "unanswered"])
def test_a_remark_on_what_was_seen_is_evidence(word):
    remarked = verdict(word, note="dim")
    assert reason(remarked) == "" and evidence(remarked) == ("note: dim",)


@pytest.mark.parametrize(
    "because, sentences",
    [
        (Measured(5.0, "V", LIMITS, True, "TTL data"), ("limits from TTL data",)),
        (Measured(5.0, "V", LIMITS, True), ()),
        (Measured(5.0, "V", "", True, "TTL data"), ()),
        (Measured(None, "V", LIMITS, False, "TTL data"), ()),
        (Blocked(("a",)), ()),
        (
            Blocked(("a",), ignored="pass"),
            ("an answer was given (pass); it means nothing before that works",),
        ),
        (Pressed((Right(b"a"),), Rate(3, 3)), ()),
        (
            Pressed((Right(b"a"), Bounce(b"a", 2, 8.0)), Rate(2, 3)),
            (
                '"a" came twice, 8 ms apart: the contact bounces',
                "2 of 3 presses came: the contact works only sometimes",
            ),
        ),
    ],
)
def test_what_else_speaks_for_a_verdict(because, sentences):
    assert evidence(verdict(because=because)) == sentences


def test_evidence_comes_in_one_order():
    bits = of_bytes(b"HELLO\r", b"HGLLO\r")
    because = Returned(b"HELLO\r", b"HGLLO\r")
    found = verdict(because=because, evidence=bits, note="always")
    assert evidence(found) == (
        "1 of 6 characters differ; bit 1 arrives as 1",
        "note: always",
    )
