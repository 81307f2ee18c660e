"""What a card says is judged as the same answers are that are given in a session."""

import dataclasses

import pytest

from helpers.bench import Says
from helpers.cards import ITEMS, LINE, PLAN, told
from helpers.run_bench import RunBench
from termprobe.journal.records import (
    AS_EXPECTED,
    DIFFERS,
    Answer,
    Finished,
    Noted,
    OptionSet,
    Sent,
    Stopped,
)
from termprobe.link.base import Received
from termprobe.observer.press import answer_of
from termprobe.runner.from_card import write_down
from termprobe.runner.walk import carry_out
from termprobe.verdict.judge import judge

WHO = b"\x07"
"""What is sent to be replied to."""


def asked(step):
    """Return the step, a look as one that no other spares."""
    return dataclasses.replace(step, covered_by=()) if step.kind == "look" else step


ON_CARD = [asked(item.step) for item in ITEMS]
KINDS = ("look", "ask", "measure", "switch", "typed-back", "press")
NORMAL = {"duplex": "full"}
YES, NO = Answer(AS_EXPECTED), Answer(DIFFERS, note="row 5 is blank")


def board(reply):
    return lambda data: reply if data == WHO else b""


def pressed(step, data):
    return answer_of(step.press, (Received(0.01, data),), LINE)


def broke(step):
    return answer_of(step.press, (Received(0.01, b"", "break"),), LINE)


ALL_RIGHT = {
    "supply": Answer(AS_EXPECTED, value=4.95),
    "word": Answer(AS_EXPECTED, data=b"OK\r"),
    "press/a": pressed(PLAN.step("press/a"), b"a"),
    "press/b": pressed(PLAN.step("press/b"), b"b"),
    "press/break": broke(PLAN.step("press/break")),
}
RIGHT_FORM = ("V1: 4.95", "1-6: ok", "K1-K3: ok")


def in_session(folder, changed, reply=b"\x06"):
    """Return the verdicts of a session that answers so, in which the board replies so."""
    says = ALL_RIGHT | changed
    answers = [lambda step: says.get(step.id, YES)] * 40
    says_all = Says(*answers, kinds=KINDS)
    bench = RunBench(folder, *ON_CARD, observers=(says_all,), react=board(reply), positions=NORMAL)
    carry_out(bench.run)
    return {one.id: one for one in bench.run.verdicts().steps}, bench


def from_card(folder, *lines):
    """Return the verdicts of a card with these lines, and the bench that holds its file."""
    bench = RunBench(folder, *ON_CARD)
    card = told(*lines)
    write_down(bench.journal, bench.plan, NORMAL, card.answers, card.notes)
    return {one.id: one for one in judge(bench.plan, bench.journal.records).steps}, bench


@pytest.mark.parametrize(
    "changed, lines",
    [
        ({}, RIGHT_FORM),
        ({"hello": NO}, ("V1: 4.95", "1: differs  row 5 is blank", "2-6: ok", "K1-K3: ok")),
        (
            {"hello": Answer(DIFFERS, seen=("HULLO".ljust(80), *[" " * 80] * 23))},
            ("V1: 4.95", "1: seen 0,1 U", "2-6: ok", "K1-K3: ok"),
        ),
        ({"more": NO}, ("V1: 4.95", "1: ok", "2: no row 5 is blank", "3-6: ok", "K1-K3: ok")),
        (
            {"press/b": pressed(PLAN.step("press/b"), b"J")},
            ("V1: 4.95", "1-6: ok", "K1: ok", 'K2: came "J"', "K3: ok"),
        ),
        (
            {"word": Answer(DIFFERS, data=b"OJ\r")},
            ("V1: 4.95", "1-5: ok", '6: came "OJ" CR', "K1-K3: ok"),
        ),
        (
            {"supply": Answer(DIFFERS, value=4.0)},
            ("V1: 4", "1-6: not tried", "K1-K3: not tried"),
        ),
    ],
)
def test_a_card_is_judged_as_the_same_answers_in_a_session(changed, lines, tmp_path):
    (tmp_path / "s").mkdir()
    (tmp_path / "c").mkdir()
    session, _ = in_session(tmp_path / "s", changed)
    card, _ = from_card(tmp_path / "c", *lines)
    for step_id, expected in session.items():
        found = card[step_id]
        if expected.verdict == "blocked":
            # A session does not ask it; what a card says of it all the same counts no more.
            assert found.verdict == "blocked" or "not tried" in lines[-1]
            continue
        assert dataclasses.replace(found, observer="") == dataclasses.replace(
            expected, observer=""
        ), step_id


def test_another_reply_is_judged_as_one_that_came_over_a_link(tmp_path):
    (tmp_path / "c").mkdir()
    session, _ = in_session(tmp_path, {}, reply=b"\x15")
    card, _ = from_card(tmp_path / "c", "5: came NAK")
    assert card["who"].because == session["who"].because and card["who"].verdict == "fail"


def test_options_are_set_as_the_card_says_and_nothing_is_sent(tmp_path):
    _, session = in_session(tmp_path, {})
    (tmp_path / "c").mkdir()
    _, card = from_card(tmp_path / "c", *RIGHT_FORM)
    moved = [[(r.option, r.position) for r in b.records(OptionSet)] for b in (session, card)]
    assert moved[0] == moved[1] == [("duplex", "half"), ("duplex", "full")]
    assert card.records(Sent) == [] and session.records(Sent)
    assert isinstance(card.journal.records[-1], Finished)


def test_what_was_not_written_down_stays_open_and_notes_stand_at_their_steps(tmp_path):
    verdicts, bench = from_card(tmp_path, "1: ok", "1: note  it flickers")
    assert verdicts["hello"].verdict == "pass" and verdicts["lamp"].verdict == "unanswered"
    assert [(one.step, one.text) for one in bench.records(Noted)] == [("hello", "it flickers")]
    assert isinstance(bench.journal.records[-1], Stopped)
