"""Every observer keeps to one contract.

What it claims to answer it answers, with a word of the list, and it fails in one way only.
"""

import shlex
import sys
from dataclasses import replace

import pytest

from helpers.bench import COLUMNS, ROWS, look, screen_of
from helpers.bench_plan import step
from helpers.incoming import Incoming
from helpers.looped_line import LoopedInUse
from helpers.paper import Paper
from termprobe.clock import CrankedClock
from termprobe.errors import ObserverError
from termprobe.journal.records import (
    AS_EXPECTED,
    DIFFERS,
    DISPUTED,
    EYES,
    RETURNED,
    SKIPPED,
    UNSURE,
    Answer,
)
from termprobe.line.checks import TOKEN
from termprobe.observer.base import FreshScreenObserver, Person
from termprobe.observer.builder import BuilderObserver
from termprobe.observer.dump import DumpObserver
from termprobe.observer.line_checks import LineObserver
from termprobe.observer.press import PressObserver
from termprobe.observer.printer import PrinterObserver
from termprobe.observer.returned import KeyboardObserver, ReplyObserver
from termprobe.observer.scripted import ScriptedObserver
from termprobe.observer.simulated_screen import SimulatedScreenObserver
from termprobe.plan.model import LineCheck, NoChords, NoPresses, Step

LOOK = look("a")
STEPS = {
    "look": LOOK,
    "ask": step("q", "s", "ask", expected=replace(screen_of("HELLO"), printed=b"HELLO")),
    "measure": step("m", "s", "measure", unit="V", low=4.75, high=5.25),
    "switch": step("w", "s", "switch", option="echo", position="on"),
    "reply": step("r", "s", "reply", reply=b"ok"),
    "typed-back": step("t", "s", "typed-back", word="HELLO"),
    "press": step("press/a", "s", "press"),
    "line-check": LineCheck("c", "s", "a check", check="no-echo"),
}


def no_hand(step):
    """Do nothing; the bytes come by themselves."""


def builder(kind):
    """Return a maker: it takes an outcome, "good", "bad" or "broken".

    The observer that it makes shall say as expected, differs, or be unable to.
    """
    typed = {"good": ["y"], "bad": ["n", "a remark"]}
    if kind == "measure":
        typed = {"good": ["5.0 V"], "bad": ["6", ""]}

    def make(outcome):
        lines = list(typed[outcome])
        return BuilderObserver(
            lambda text: lines.pop(0), lambda text: None, lambda screen: "a drawing"
        )

    return make


def dump(outcome):
    text = {"good": "HELLO\n\n\n", "bad": "HEXLO\n\n\n", "broken": "HELLO\n"}[outcome]
    program = f"import sys; sys.stdout.write({text!r})"
    return DumpObserver(shlex.join([sys.executable, "-c", program]), CrankedClock())


def screen(outcome):
    text = {"good": "HELLO", "bad": "HEXLO"}[outcome]
    return SimulatedScreenObserver(lambda: screen_of(text, cursor=(0, 5)))


def reply(outcome):
    return ReplyObserver(Incoming({"good": b"ok", "bad": b"oh"}[outcome]))


def keyboard(outcome):
    return KeyboardObserver(Incoming({"good": b"HELLO\r", "bad": b"HEXLO\r"}[outcome]), no_hand)


def press(outcome):
    return PressObserver(Incoming({"good": b"a", "bad": b"b"}[outcome]), no_hand)


def line(outcome):
    comes_back = {"good": b"", "bad": TOKEN}[outcome]
    return LineObserver(LoopedInUse(CrankedClock(), spoil=lambda data: comes_back))


def scripted(outcome):
    word = {"good": AS_EXPECTED, "bad": DIFFERS}[outcome]
    return ScriptedObserver({step.id: Answer(word) for step in STEPS.values()})


def printer(outcome):
    printed = {"good": b"HELLO", "bad": b"HEXLO"}[outcome]
    return PrinterObserver(Paper(printed))


CASES = [("builder", kind, builder(kind)) for kind in ("look", "ask", "measure", "switch")]
CASES += [
    ("dump", "look", dump),
    ("screen", "look", screen),
    ("reply", "reply", reply),
    ("keyboard", "typed-back", keyboard),
    ("press", "press", press),
    ("line", "line-check", line),
    ("printer", "ask", printer),
]
CASES += [("scripted", kind, scripted) for kind in ("ask", "measure", "switch")]
IDS = [f"{name}-{kind}" for name, kind, _ in CASES]
of_each_observer = pytest.mark.parametrize("name, kind, make", CASES, ids=IDS)


@of_each_observer
def test_says_as_expected_and_differs(name, kind, make):
    assert make("good").answer(STEPS[kind]).word == AS_EXPECTED
    assert make("bad").answer(STEPS[kind]).word == DIFFERS


@of_each_observer
@pytest.mark.parametrize("outcome", ["good", "bad"])
def test_answers_hold_only_what_the_interface_allows(name, kind, make, outcome):
    answer = make(outcome).answer(STEPS[kind])
    assert isinstance(answer, Answer) and answer.speaks
    assert answer.word in (AS_EXPECTED, DIFFERS, UNSURE, DISPUTED, SKIPPED)
    assert isinstance(answer.note, str) and isinstance(answer.data, bytes | None)
    if answer.seen is not None:
        assert len(answer.seen) == ROWS and max(map(len, answer.seen)) <= COLUMNS


def kinds_of_steps(of=Step):
    """Return the kinds that a step can be of, but those that are never fitted."""
    narrower = of.__subclasses__()
    if not narrower:
        return {of.kind}
    return set().union(*map(kinds_of_steps, narrower)) - {NoPresses.kind, NoChords.kind}


@of_each_observer
def test_has_a_name_and_a_strength_and_claims_kinds_of_the_plan_only(name, kind, make):
    observer = make("good")
    assert observer.name and EYES <= observer.strength <= RETURNED
    claims = {step.kind for step in STEPS.values() if observer.can_answer(step)}
    assert kind in claims and claims <= kinds_of_steps()


def test_every_kind_of_step_has_an_observer():
    assert {kind for _, kind, _ in CASES} == kinds_of_steps()


def test_strengths_are_in_the_order_of_the_design():
    observers = [reply("good"), keyboard("good"), dump("good"), builder("look")("good")]
    strengths = [observer.strength for observer in observers]
    assert strengths == sorted(strengths, reverse=True) and len(set(strengths)) == 4


def test_only_who_speaks_to_a_person_is_one_and_screen_dump_and_printer_mind_fresh_screens():
    makers = {name: make for name, _, make in CASES}
    people = [name for name, make in makers.items() if isinstance(make("good"), Person)]
    fresh = [name for name, make in makers.items() if isinstance(make("good"), FreshScreenObserver)]
    assert people == ["builder"] and fresh == ["dump", "screen", "printer"]


def test_an_observer_that_cannot_raises_its_own_error():
    with pytest.raises(ObserverError, match="must print 3 rows, not 1"):
        dump("broken").answer(LOOK)
