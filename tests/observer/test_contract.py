"""Every observer keeps to one contract: what it claims to answer it answers, with a word of the list, and it fails in one way only."""

import shlex
import sys

import pytest

from helpers.bench import COLUMNS, ROWS, look, screen_of
from termprobe.clock import CrankedClock
from termprobe.errors import ObserverError
from termprobe.link.base import LineFormat, Received
from termprobe.plan.model import KINDS, Step
from termprobe.observer import base
from termprobe.observer.base import AS_EXPECTED, DIFFERS, DISPUTED, SKIPPED, UNSURE, Answer
from termprobe.observer.builder import BuilderObserver
from termprobe.observer.dump import DumpObserver
from termprobe.observer.simulated_screen import SimulatedScreenObserver
from termprobe.observer.hands import HandsObserver
from termprobe.observer.press import PressObserver
from termprobe.observer.returned import KeyboardObserver, ReplyObserver
from termprobe.observer.scripted import ScriptedObserver

LOOK = look("a")
STEPS = {
    "look": LOOK,
    "ask": Step("q", "s", "ask", "Ask", "Is it so?"),
    "measure": Step("m", "s", "measure", "Measure", "", unit="V", low=4.75, high=5.25),
    "switch": Step("w", "s", "switch", "Switch", "", option="echo", position="on"),
    "reply": Step("r", "s", "reply", "Reply", "", reply=b"ok"),
    "typed-back": Step("t", "s", "typed-back", "Type", "", word="HELLO"),
    "press": Step("press/a", "s", "press", "Press", "", reply=b"a", key="a"),
}


class Incoming:
    """Bytes that come one at a time."""

    def __init__(self, data):
        self.data, self.rest = b"", data

    def poll(self, wait_s):
        byte, self.rest = self.rest[:1], self.rest[1:]
        self.data += byte
        return byte

    clock, link_format = CrankedClock(), LineFormat()

    def poll_events(self, wait_s):
        self.clock.sleep_until(self.clock.now_s() + wait_s)
        return [Received(self.clock.now_s(), byte) for byte in (self.poll(wait_s),) if byte]


def builder(kind):
    """Each maker takes an outcome: the observer shall say as expected ("good"), differs ("bad"), or be unable to ("broken")."""
    typed = (
        {"good": ["5.0 V"], "bad": ["6", ""]}
        if kind == "measure"
        else {"good": ["y"], "bad": ["n", "a remark"]}
    )

    def make(outcome):
        lines = list(typed[outcome])
        return BuilderObserver(
            lambda text: lines.pop(0), lambda text: None, lambda screen: "a drawing"
        )

    return make


def dump(outcome):
    text = {"good": "HELLO\n\n\n", "bad": "HEXLO\n\n\n", "broken": "HELLO\n"}[outcome]
    return DumpObserver(
        shlex.join([sys.executable, "-c", f"import sys; sys.stdout.write({text!r})"]),
        CrankedClock(),
    )


def screen(outcome):
    return SimulatedScreenObserver(
        lambda: screen_of({"good": "HELLO", "bad": "HEXLO"}[outcome], cursor=(0, 5))
    )


def reply(outcome):
    return ReplyObserver(Incoming({"good": b"ok", "bad": b"oh"}[outcome]))


def keyboard(outcome):
    return KeyboardObserver(
        Incoming({"good": b"HELLO\r", "bad": b"HEXLO\r"}[outcome]), lambda step: None
    )


def press(outcome):
    return PressObserver(Incoming({"good": b"a", "bad": b"b"}[outcome]), lambda step: None)


def scripted(outcome):
    return ScriptedObserver(
        {step.id: Answer({"good": AS_EXPECTED, "bad": DIFFERS}[outcome]) for step in STEPS.values()}
    )


CASES = [("builder", kind, builder(kind)) for kind in ("look", "ask", "measure", "switch")]
CASES += [
    ("dump", "look", dump),
    ("screen", "look", screen),
    ("reply", "reply", reply),
    ("keyboard", "typed-back", keyboard),
]
CASES += [("press", "press", press)]
CASES += [("scripted", kind, scripted) for kind in ("ask", "measure", "switch")]
IDS = [f"{name}-{kind}" for name, kind, _ in CASES]


@pytest.mark.parametrize("name, kind, make", CASES, ids=IDS)
def test_says_as_expected_and_differs(name, kind, make):
    assert make("good").answer(STEPS[kind]).word == AS_EXPECTED
    assert make("bad").answer(STEPS[kind]).word == DIFFERS


@pytest.mark.parametrize("name, kind, make", CASES, ids=IDS)
def test_answers_hold_only_what_the_interface_allows(name, kind, make):
    for outcome in ("good", "bad"):
        answer = make(outcome).answer(STEPS[kind])
        assert isinstance(answer, Answer) and answer.speaks
        assert answer.word in (AS_EXPECTED, DIFFERS, UNSURE, DISPUTED, SKIPPED)
        assert isinstance(answer.note, str) and isinstance(answer.data, (bytes, type(None)))
        assert answer.seen is None or (
            len(answer.seen) == ROWS and max(map(len, answer.seen)) <= COLUMNS
        )


@pytest.mark.parametrize("name, kind, make", CASES, ids=IDS)
def test_has_a_name_and_a_strength_and_claims_kinds_of_the_plan_only(name, kind, make):
    observer = make("good")
    assert observer.name and base.EYES <= observer.strength <= base.RETURNED
    claims = [step.kind for step in STEPS.values() if observer.can_answer(step)]
    assert kind in claims and set(claims) <= set(KINDS)


def test_every_kind_of_step_has_a_observer():
    assert {kind for _, kind, _ in CASES} == set(KINDS)


def test_strengths_are_in_the_order_of_the_design():
    strengths = [
        reply("good").strength,
        keyboard("good").strength,
        dump("good").strength,
        builder("look")("good").strength,
    ]
    assert strengths == sorted(strengths, reverse=True) and len(set(strengths)) == 4


def test_a_observer_that_cannot_raises_its_own_error():
    with pytest.raises(ObserverError, match="must print 3 rows, not 1"):
        dump("broken").answer(LOOK)


def test_where_nothing_comes_back_a_reply_differs_and_a_word_without_a_hand_is_not_claimed():
    assert ReplyObserver(Incoming(b"")).answer(STEPS["reply"]) == Answer(DIFFERS, data=b"")
    assert not KeyboardObserver(Incoming(b"")).can_answer(STEPS["typed-back"])


def test_a_reply_followed_by_more_differs():
    assert ReplyObserver(Incoming(b"okk")).answer(STEPS["reply"]) == Answer(DIFFERS, data=b"okk")


def test_hands_set_the_option_that_a_step_asks_for_and_claim_no_other():
    done = []
    hands = HandsObserver(lambda *option: done.append(option), ["echo"])
    assert hands.can_answer(STEPS["switch"]) and not HandsObserver(None, ["parity"]).can_answer(
        STEPS["switch"]
    )
    assert (
        not hands.can_answer(LOOK)
        and hands.answer(STEPS["switch"]) == Answer(AS_EXPECTED)
        and done == [("echo", "on")]
    )


def test_a_mistyped_word_may_be_typed_again():
    incoming, asked = Incoming(b"HELP\rHELLO\r"), []
    observer = KeyboardObserver(incoming, lambda step: None, lambda step, data: asked.append(data))
    assert observer.answer(STEPS["typed-back"]) == Answer(AS_EXPECTED, data=b"HELLO\r")
    assert asked == [b"HELP\r"]


def test_a_word_that_differs_for_good_keeps_bytes_and_remark():
    observer = KeyboardObserver(
        Incoming(b"HGLLO\r"), lambda step: None, lambda step, data: Answer(DIFFERS, note="twice")
    )
    assert observer.answer(STEPS["typed-back"]) == Answer(DIFFERS, data=b"HGLLO\r", note="twice")


def test_the_screen_sees_cursor_and_bells_too():
    def seen(**fields):
        return SimulatedScreenObserver(lambda: screen_of("HELLO", **fields)).answer(LOOK).word

    assert (seen(cursor=(0, 5)), seen(cursor=(0, 4)), seen(cursor=(0, 5), bells=1)) == (
        AS_EXPECTED,
        DIFFERS,
        DIFFERS,
    )
