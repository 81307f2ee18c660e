"""A walk over the keys of a simulated board, with everything at hand."""

from helpers.bench import HEADER
from termprobe.board.board import Board
from termprobe.board.link import SimLink
from termprobe.clock import CrankedClock
from termprobe.journal.file import Journal
from termprobe.link.base import LineFormat
from termprobe.plan.choose import choose, choose_stages
from termprobe.plan.compile import compile_plan
from termprobe.profile.load import load
from termprobe.report import words
from termprobe.runner.key_walk import FREE, LISTED, KeyWalk
from termprobe.runner.run import Run
from termprobe.script.load import load as load_script

PROFILE = load("singlebyte-24x80")
PLAN = choose_stages(compile_plan(PROFILE, load_script("keyboard")), ["keyboard"])
HAND_S = 0.12
"""A quick typist needs so long for a key."""
LINE = LineFormat(9600, 7, "even", 1)


def no_hand(step):
    """Press nothing."""


class Bench:
    """A simulated board with hands that can be told, and a walk over some of its presses."""

    def __init__(
        self,
        tmp_path,
        *ids,
        fault=None,
        order=LISTED,
        wait_s=1.0,
        commands=(),
        hand=None,
        header=HEADER,
        profile=PROFILE,
        plan=PLAN,
        line=LINE,
    ):
        self.board, clock = Board(profile, [fault] if fault else []), CrankedClock()
        self.journal = Journal.create(tmp_path / "x.run.jsonl", header, clock)
        plan = choose(plan, ids or plan.index)
        self.run = Run(plan, SimLink(self.board, clock, line), self.journal, clock)
        self.events, self._commands = [], list(commands)
        hands = {FREE: None, LISTED: hand or self._press}
        self.walk = KeyWalk(
            self.run, order, wait_s, self._command, hands[order], self.events.append
        )

    def _press(self, step):
        self.board.press(step.press.key, frozenset(step.press.modifiers))

    def press_by_hand(self, key, modifiers=()):
        """Press a key, no sooner after the one before than a hand can."""
        clock = self.run.clock
        clock.sleep_until(clock.now_s() + HAND_S)
        self.board.press(key, frozenset(modifiers))

    def _command(self):
        return self._commands.pop(0) if self._commands else None

    def told(self, kind):
        return [event for event in self.events if isinstance(event, kind)]

    def verdicts(self):
        return {one.id: (one.verdict, words.reason(one)) for one in self.run.verdicts().steps}

    def words(self):
        return {one.verdict for one in self.run.verdicts().steps}

    def evidence(self, step_id):
        return words.evidence(self.run.course.verdict(step_id))
