"""The walk over a keyboard: listed and free order, presses taken back, missing and flaky keys, all judged from what came."""

import math
from itertools import accumulate

import pytest
from hypothesis import given
from hypothesis import strategies as st

from termprobe.board.board import Board
from termprobe.board.link import SimLink
from termprobe.clock import CrankedClock
from termprobe.journal.file import Journal
from termprobe.link.base import LineFormat, Received
from termprobe.plan.choose import choose, choose_stages
from termprobe.plan.compile import compile_plan
from termprobe.profile.load import load
from termprobe.report.keyboard_drawing import drawing, place, states
from termprobe.runner.key_walk import Asked, KeyWalk, Pressed, TakenBack, Unnamed
from termprobe.runner.run import Run
from termprobe.script.load import load as load_script
from termprobe.observer.press import Ear

PROFILE = load("singlebyte-24x80")
PLAN = choose_stages(compile_plan(PROFILE, load_script("keyboard")), ["keyboard"])
LINE = LineFormat(9600, 7, "even", 1)


class Bench:
    """A simulated board with hands that can be told, and a walk over some of its presses."""

    def __init__(
        self, tmp_path, *ids, fault=None, order="listed", wait_s=1.0, commands=(), hand=None
    ):
        self.board, clock = Board(PROFILE, [fault] if fault else []), CrankedClock()
        self.journal = Journal.create(tmp_path / "x.run.jsonl", {}, clock)
        self.run = Run(
            choose(PLAN, ids) if ids else PLAN,
            SimLink(self.board, clock, LINE),
            self.journal,
            clock,
            [],
        )
        self.events, self._commands = [], list(commands)
        hands = hand or (lambda step: self.board.press(step.key, frozenset(step.modifiers)))
        self.walk = KeyWalk(
            self.run,
            order,
            wait_s,
            lambda: self._commands.pop(0) if self._commands else None,
            None if order == "free" else hands,
            self.events.append,
        )

    def verdicts(self):
        return {
            verdict.id: (verdict.verdict, verdict.reason) for verdict in self.run.verdicts().steps
        }


def test_a_good_keyboard_is_covered_press_by_press(tmp_path):
    bench = Bench(tmp_path)
    assert bench.walk.walk()
    assert {word for word, _ in bench.verdicts().values()} == {"pass"} and len(
        bench.verdicts()
    ) == 137
    assert sum(isinstance(event, Asked) for event in bench.events) == 137


@pytest.mark.parametrize(
    "fault, press_id, reason",
    [
        (
            "keyboard-code/stuck/0/1",
            "press/2",
            '"3" came, the code of key "3 #", not "2": bit 0 is 1',
        ),
        ("key-matrix/key-dead/q", "press/q", 'nothing came, not "q"'),
        ("key-matrix/row-open/2", "press/w", 'nothing came, not "w"'),
        (
            "key-matrix/shift-dead",
            "press/q+shift",
            '"q" came, the code of key "Q", not "Q": bit 5 is 1',
        ),
        ("key-matrix/control-dead", "press/q+control", '"q" came'),
        ("transmitter-data/swapped/0-1", "press/2", '"1" came'),
    ],
)
def test_what_a_fault_does_to_a_press(tmp_path, fault, press_id, reason):
    bench = Bench(tmp_path, press_id, fault=fault)
    assert bench.walk.walk()
    word, said = bench.verdicts()[press_id]
    assert word == "fail" and said.startswith(reason)


def test_a_bounce_is_noticed_by_its_time(tmp_path):
    bench = Bench(tmp_path, "press/q", fault="key-matrix/key-bounces/q")
    bench.walk.walk()
    verdict = bench.run.verdicts().steps[0]
    assert verdict.verdict == "fail" and any(
        "twice, 8 ms apart: the contact bounces" in text for text in verdict.evidence
    )


def test_two_keys_at_once_are_both_named(tmp_path):
    bench = Bench(tmp_path, "press/q", fault="key-matrix/rows-bridged/3-5")
    bench.walk.walk()
    assert "besides" in bench.verdicts()["press/q"][1] and '"s"' in bench.verdicts()["press/q"][1]


def test_a_press_that_is_not_made_in_time_is_missing(tmp_path):
    bench = Bench(tmp_path, "press/q", hand=lambda step: None, wait_s=3.0)
    bench.walk.walk()
    assert bench.verdicts()["press/q"] == ("fail", 'nothing came, not "q"')
    assert bench.run.clock.now_s() >= 3.0


def test_without_a_limit_the_walk_waits_until_it_is_told(tmp_path):
    bench = Bench(
        tmp_path,
        "press/q",
        "press/w",
        hand=lambda step: None,
        wait_s=None,
        commands=[None] * 40 + ["missing", "skip no keycap"],
    )
    assert bench.walk.walk()
    assert bench.verdicts()["press/q"][0] == "fail"
    assert bench.verdicts()["press/w"] == ("skipped", "no keycap")


def test_a_wrong_press_is_taken_back_and_counts_no_more(tmp_path):
    slips = iter(["w", "q", "w"])
    bench = None

    def hand(step):
        bench.board.press(next(slips))

    bench = Bench(tmp_path, "press/q", "press/w", hand=hand)
    bench.walk._command = lambda: None
    bench.walk._wait(bench.walk.left()[0], True)
    assert bench.verdicts()["press/q"][0] == "fail"
    bench.walk._obey("back", bench.walk.left()[0])
    assert bench.verdicts()["press/q"][0] == "unanswered" and isinstance(
        bench.events[-1], TakenBack
    )
    assert bench.walk.walk()
    assert {word for word, _ in bench.verdicts().values()} == {"pass"}


@pytest.mark.parametrize("command", ("back", "again"))
def test_before_the_first_press_there_is_none_to_take_back(tmp_path, command):
    bench = Bench(
        tmp_path, "press/q", wait_s=None, hand=lambda step: None, commands=[command, "missing"]
    )
    assert bench.walk.walk()
    assert TakenBack(None) in bench.events and bench.verdicts()["press/q"][0] == "fail"


def test_a_contact_that_works_only_sometimes_gets_a_rate(tmp_path):
    bench = Bench(tmp_path, "press/q", fault="key-matrix/key-flaky/q")
    bench.walk.walk()
    for _ in range(3):
        bench.walk._obey("again", None)
        assert bench.walk.walk()
    verdict = bench.run.verdicts().steps[0]
    assert (
        verdict.verdict == "fail"
        and "2 of 4 presses came: the contact works only sometimes" in verdict.evidence
    )


def test_in_free_order_the_last_key_can_be_pressed_again_and_nothing_said_of_a_key_that_nobody_named(
    tmp_path,
):
    bench = Bench(tmp_path, "press/q", "press/w", order="free", wait_s=None)
    wishes = iter(
        ["missing", "skip no keycap", ":q", "back", ":q", "again", ":q", "again", "missing", ":w"]
    )

    def command():
        wish = next(wishes)
        if not wish.startswith(":"):
            return wish
        bench.board.press(wish[1:])
        return None

    bench.walk._command = command
    assert bench.walk.walk()
    assert sum(isinstance(event, Unnamed) for event in bench.events) == 2
    assert [event.step.id for event in bench.events if isinstance(event, Asked) and event.step] == [
        "press/q",
        "press/q",
    ]
    assert bench.verdicts()["press/w"][0] == "pass" and bench.verdicts()["press/q"][0] == "fail"
    assert (
        "2 of 3 presses came: the contact works only sometimes"
        in bench.run.verdicts().steps[0].evidence
    )


def test_free_order_covers_what_comes_and_names_what_does_not_fit(tmp_path):
    presses = iter([("w", ()), ("z", ()), ("q", ()), ("q", ("shift",))])
    bench = Bench(tmp_path, "press/q", "press/q+shift", "press/w", order="free", wait_s=5.0)

    def command():
        following = next(presses, None)
        if following:
            bench.board.press(following[0], frozenset(following[1]))

    bench.walk._command = command
    assert bench.walk.walk()
    assert {word for word, _ in bench.verdicts().values()} == {"pass"}
    assert [
        (event.step and event.step.id, event.data)
        for event in bench.events
        if isinstance(event, Pressed)
    ] == [("press/w", b"w"), (None, b"z"), ("press/q", b"q"), ("press/q+shift", b"Q")]


def test_keys_that_send_the_same_code_need_a_press_each_in_free_order(tmp_path):
    bench = Bench(tmp_path, "press/line-feed", "press/down", order="free", wait_s=2.0)
    bench.walk._command = lambda: bench.board.press("down") if len(bench.events) < 4 else None
    assert bench.walk.walk()
    assert len({event.step.id for event in bench.events if isinstance(event, Pressed)}) == 2


class Line:
    """A line on which bytes come at given moments, whenever they are fetched."""

    def __init__(self, *pieces):
        self.clock, self._pieces = CrankedClock(), [Received(at_s, data) for at_s, data in pieces]

    def poll_events(self, wait_s):
        now_s = self.clock.now_s()
        due_s = min((piece.at_s for piece in self._pieces), default=math.inf)
        self.clock.sleep_until(max(now_s, min(now_s + wait_s, due_s)))
        arrived = [piece for piece in self._pieces if piece.at_s <= self.clock.now_s()]
        self._pieces = [piece for piece in self._pieces if piece not in arrived]
        return arrived


@given(st.lists(st.sampled_from([0.008, 0.149, 0.151, 0.3]), max_size=12), st.floats(0, 3))
def test_presses_are_parted_by_the_moments_at_which_bytes_came_not_by_when_they_are_fetched(
    gaps, late_s
):
    moments = list(accumulate([1.0, *gaps]))
    line = Line(*((at_s, bytes([0x41 + place])) for place, at_s in enumerate(moments)))
    line.clock.sleep_until(late_s)
    ear, presses = Ear(line), []
    while line.clock.now_s() < moments[-1] + 5:
        presses.append(b"".join(data for _, data, _ in ear.hear(0.0, PLAN.steps[0])))
    whole = "".join(
        ("" if gap < 0.15 else " ") + chr(0x41 + place) for place, gap in enumerate([0.0, *gaps])
    ).encode()
    assert [press for press in presses if press] == whole.split()


def test_a_key_that_never_stops_is_one_press_after_a_while():
    line = Line(*((0.05 * place, b"q") for place in range(200)))
    assert 60 <= len(Ear(line).hear(0.0, PLAN.steps[0])) <= 100


def test_a_press_made_while_the_one_before_is_judged_counts_and_what_came_before_the_walk_does_not(
    tmp_path,
):
    bench = Bench(tmp_path, "press/q", "press/w", hand=lambda step: None, wait_s=1.0)
    bench.board.press("z")
    bench.walk._tell = lambda event: isinstance(event, Pressed) and bench.board.press("w")
    bench.walk._hand = lambda step: bench.board.press("q") if step.id == "press/q" else None
    assert bench.walk.walk()
    assert {word for word, _ in bench.verdicts().values()} == {"pass"}


def test_the_drawing_shows_each_state_by_its_sign(tmp_path):
    bench = Bench(
        tmp_path, "press/q", "press/w", "press/e", "press/r", fault="key-matrix/key-dead/w"
    )
    bench.walk.walk()
    verdicts = {verdict.id: verdict for verdict in bench.run.verdicts().steps}
    steps = bench.run.plan.steps
    found = states(PROFILE.keyboard, steps, verdicts, asked=steps[3])
    assert (found["q"], found["w"], found["r"], found["t"]) == ("right", "missing", "asked", "none")
    lines = drawing(PROFILE.keyboard, found)
    assert "|   +|  +|  !|" not in lines[4] and lines[4].startswith("|    |  +|  !|  +|  ?|   |")
    assert max(map(len, lines)) <= 79


def test_a_key_without_its_keycap_is_found_by_its_place():
    assert (
        place(PROFILE.keyboard, PROFILE.keyboard.key("q"))
        == "row 2 of 5, key 2 from the left, matrix row 3 column 0"
    )
