"""The walk over a keyboard in lines of text: what is told of each press, and what may be typed."""

import select
import sys

from termprobe.cli.console import Console
from termprobe.cli.typed_lines import typed_line
from termprobe.plan.model import KeyPress
from termprobe.plan.presses import request
from termprobe.profile.model import Keyboard
from termprobe.report.walk_words import (
    NONE_BEFORE,
    PRESS_RIGHT,
    PRESS_WRONG,
    all_noticed,
    of_no_press_left,
)
from termprobe.runner.key_walk import (
    AGAIN,
    KEEP_PRESS,
    NO_CODE_CAME,
    SKIP_PRESS,
    STOP_WALK,
    TAKE_BACK,
    Asked,
    CountsNoMore,
    PressTaken,
    Unnamed,
    WalkEvent,
    WalkWish,
)
from termprobe.runner.run import Run
from termprobe.verdict.counts import counts
from termprobe.verdict.model import FAIL, PASS

HELP_LINE = (
    "r press the last key again   x undo it   m no code received   s REASON leave it out   stop"
    "   then ENTER"
)
TYPED_WISHES = {
    "r": AGAIN,
    "again": AGAIN,
    "x": TAKE_BACK,
    "take-back": TAKE_BACK,
    "m": NO_CODE_CAME,
    "missing": NO_CODE_CAME,
    "s": SKIP_PRESS,
    "skip": SKIP_PRESS,
    "stop": STOP_WALK,
    "q": STOP_WALK,
}
"""What may be typed -> what KeyWalk understands; a reason may follow."""


DECIDE = "  ENTER keeps it, r presses it again, x takes it back, stop: "
DECISIONS = {"": KEEP_PRESS, "r": AGAIN, "x": TAKE_BACK, "stop": STOP_WALK, "q": STOP_WALK}
"""What may be typed about a wrong press."""


def typed_command(console: Console) -> WalkWish | None:
    """Return the command of KeyWalk that the builder has typed, None without one; never wait."""
    if not select.select([sys.stdin], [], [], 0)[0]:
        return None
    line = typed_line()
    if not line:
        return WalkWish(STOP_WALK)
    word, _, reason = line.strip().partition(" ")
    if word not in TYPED_WISHES:
        console.tell(HELP_LINE)
        return None
    return WalkWish(TYPED_WISHES[word], reason)


def typed_decision(console: Console) -> WalkWish:
    """Return what the builder decides about a wrong press: a wish, or to keep it as it came."""
    while True:
        try:
            typed = console.ask(DECIDE).strip()
        except EOFError:
            return WalkWish(STOP_WALK)
        if typed in DECISIONS:
            return WalkWish(DECISIONS[typed])


class WalkLines:
    """Listens to the walk of `run` and tells a line for each press.

    With `is_quiet` nothing is asked for, since nobody is there, and right presses are not told.
    With `has_bell` the console's bell sounds for a press that is wrong, or that nobody asked for.
    """

    def __init__(
        self,
        run: Run,
        keyboard: Keyboard,
        console: Console,
        is_quiet: bool,
        has_bell: bool = True,
    ) -> None:
        self._run, self._keyboard = run, keyboard
        self._console, self._is_quiet = console, is_quiet
        self._has_bell = has_bell and not is_quiet

    def __call__(self, event: WalkEvent) -> None:
        """Tell what has happened."""
        match event:
            case Asked(step=step):
                self._asked(step)
            case PressTaken(step=None, data=data):
                self._console.tell(f"  {of_no_press_left(data)}")
                self._ring()
            case PressTaken(step=KeyPress() as step):
                self._pressed(step)
            case CountsNoMore(step=None):
                self._console.tell(f"  {NONE_BEFORE}")
            case CountsNoMore(step=KeyPress() as step):
                self._console.tell(f"  undone: {step.id}")
            case Unnamed():
                self._console.tell("  of which key? --order listed asks for one at a time")

    def _asked(self, step: KeyPress | None) -> None:
        if self._is_quiet:
            return
        if step is not None:
            self._console.tell(f"Press {request(self._keyboard, step.press)}")
            return
        left = counts(self._run.verdicts().steps).left
        self._console.tell(f"Press any key, with a short pause between two; {left} presses left")

    def _pressed(self, step: KeyPress) -> None:
        verdict = self._run.verdict(step)
        if self._is_quiet and verdict.verdict != FAIL:
            return
        word = PRESS_RIGHT if verdict.verdict == PASS else PRESS_WRONG
        self._console.tell(f"  {word}: {step.id}: {all_noticed(verdict)}")
        if word == PRESS_WRONG:
            self._ring()

    def _ring(self) -> None:
        if self._has_bell:
            self._console.ring()
