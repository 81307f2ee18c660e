"""The walk over a keyboard in lines of text: what is told of each press, and what may be typed."""

import select
import sys

from termprobe.cli.console import Console
from termprobe.notation import show
from termprobe.plan.model import Step
from termprobe.profile.model import Keyboard
from termprobe.report.keyboard_drawing import request
from termprobe.runner.key_walk import Asked, Pressed, TakenBack, Unnamed
from termprobe.runner.run import Run
from termprobe.verdict.model import FAIL, PASS, UNANSWERED

HELP_LINE = (
    "r press the last key again   b take it back   m nothing came   s REASON leave it out   stop"
    "   then ENTER"
)
COMMANDS = {
    "r": "again",
    "again": "again",
    "b": "back",
    "back": "back",
    "m": "missing",
    "missing": "missing",
    "stop": "stop",
    "q": "stop",
}
"""What may be typed -> what KeyWalk understands."""
SKIP = ("s", "skip")
"""What may be typed in front of a reason."""


def typed_command(console: Console) -> str | None:
    """Return the command of KeyWalk that the builder has typed, None without one; never wait."""
    if not select.select([sys.stdin], [], [], 0)[0]:
        return None
    line = sys.stdin.readline()
    if not line:
        return "stop"
    word, _, rest = line.strip().partition(" ")
    if word in SKIP:
        return f"skip {rest}"
    if word not in COMMANDS:
        console.tell(HELP_LINE)
    return COMMANDS.get(word)


class WalkLines:
    """Listens to the walk of `run` and tells a line for each press.

    With `is_quiet` nothing is asked for, since nobody is there, and right presses are not told.
    """

    def __init__(self, run: Run, keyboard: Keyboard, console: Console, is_quiet: bool) -> None:
        self._run, self._keyboard = run, keyboard
        self._console, self._is_quiet = console, is_quiet

    def __call__(self, event: object) -> None:
        """Tell what has happened."""
        match event:
            case Asked(step=step):
                self._asked(step)
            case Pressed(step=None, data=data):
                came = show(data) or "an error of the line"
                self._console.tell(f"  {came} came, which no press left sends")
            case Pressed(step=step):
                self._pressed(step)
            case TakenBack(step=None):
                self._console.tell("  no key was pressed before this one")
            case TakenBack(step=step):
                self._console.tell(f"  taken back: {step.id}")
            case Unnamed():
                self._console.tell("  of which key? --order listed asks for one at a time")

    def _asked(self, step: Step | None) -> None:
        if self._is_quiet:
            return
        if step is not None:
            self._console.tell(f"Press {request(self._keyboard, step)}")
            return
        left = self._run.verdicts().count(UNANSWERED)
        self._console.tell(f"Press any key, with a short pause between two; {left} presses left")

    def _pressed(self, step: Step) -> None:
        verdict = self._run.verdict(step)
        if self._is_quiet and verdict.verdict != FAIL:
            return
        word = "right" if verdict.verdict == PASS else "WRONG"
        why = "; ".join((verdict.reason, *verdict.evidence))
        self._console.tell(f"  {word}: {step.id}: {why}")
