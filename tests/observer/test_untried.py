"""What a line cannot try is said of the check, and of what a person would prepare for it alone."""

from helpers.bench import plan
from helpers.looped_line import LoopedInUse
from termprobe.clock import CrankedClock
from termprobe.journal.records import NOT_FITTED
from termprobe.observer.untried import UntriedObserver
from termprobe.plan.model import Ask, LineCheck

PLUG = Ask("plug", "s", "A plug", "Is it in?")
BYTES = LineCheck("bytes", "s", "Bytes", needs=("plug",), check="plug-bytes")
READY = Ask("ready", "s", "Hands", "Ready?")
FORMAT = LineCheck("format", "s", "Format", needs=("ready",), check="key-format")
HELD = Ask("held", "s", "A key held", "Does it come?")
XOFF = LineCheck("xoff", "s", "XOFF", needs=("held",), check="board-stops-xoff")
CTS = LineCheck("cts", "s", "CTS", needs=("held",), check="board-stops-cts")
ALONE = Ask("alone", "s", "A question", "Is it so?")
PLAN = plan(PLUG, BYTES, READY, FORMAT, HELD, XOFF, CTS, ALONE)


def left_out(can_plug=True, abilities=()):
    line = LoopedInUse(CrankedClock())
    line.abilities = abilities
    observer = UntriedObserver(PLAN, line, can_plug)
    assert all(map(observer.can_answer, PLAN.steps))
    said = {step.id: observer.answer(step) for step in PLAN.steps}
    assert {answer.word for answer in said.values() if answer} <= {NOT_FITTED}
    return {step_id: answer.note for step_id, answer in said.items() if answer}


def test_a_stream_leaves_out_what_needs_lines_or_frames_and_what_is_prepared_for_that_alone():
    found = left_out()
    assert list(found) == ["ready", "format", "cts"]
    assert found["ready"] == found["format"] == "this line cannot set speed and frame of the line"


def test_without_an_adapter_the_plug_is_not_asked_for():
    assert list(left_out(can_plug=False, abilities=("frames", "lines"))) == ["plug", "bytes"]


def test_a_line_that_can_do_all_leaves_nothing_out():
    assert left_out(abilities=("frames", "lines")) == {}
