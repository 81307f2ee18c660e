"""A soak of the board with looks now and then: rows that are all alike, one behind the other.

No code stands between them, so that one character that is lost or doubled shifts all that come
after it: eyes that look once in a while miss none.
"""

import argparse
from collections.abc import Callable

from termprobe.cli.console import is_typed_at
from termprobe.cli.line_options import whole_number
from termprobe.clock import Clock
from termprobe.errors import UsageError
from termprobe.line.soak import Far, SoakLength, SoakListener, Telling
from termprobe.line.stream import PRINTABLE
from termprobe.link.base import is_simulated
from termprobe.link.pacer import Pacer
from termprobe.observer.builder_words import STOPS
from termprobe.plan.sending import command_group
from termprobe.profile.model import Profile
from termprobe.report.spans_in_words import span_from

SEEN_WRONG = "seen wrong in a look"
LOOKS_HELP = (
    "send rows that are all alike to the board, and ask every so many characters (50000), or so "
    "often (10m), whether they stand as they must; needs --profile"
)
UNIT = 8
"""So many characters make a row, again and again."""
WORDS = {"y": True, "yes": True, "n": False, "no": False}
AskLook = Callable[[str], str]
"""Asks at a prompt; raises EOFError at the end of the input."""


def looks_every(text: str) -> SoakLength:
    """Return after how many characters or seconds a look is due, as the option says it."""
    if text.isdigit():
        return SoakLength(characters=whole_number(text))
    seconds = span_from(text)
    if not seconds:
        raise argparse.ArgumentTypeError(
            f"must be a number of characters, or a time such as 90s, 10m or 1h, not {text!r}"
        )
    return SoakLength(seconds=seconds)


def add_argument(parser: argparse.ArgumentParser) -> None:
    """Add --looks to `parser`."""
    parser.add_argument("--looks", metavar="EVERY", type=looks_every, help=LOOKS_HELP)


def refuse_each_screen(has_looks: bool, arguments: argparse.Namespace) -> None:
    """Raise UsageError where a soak `has_looks` and each screen is to be seen as well."""
    if has_looks and (arguments.dump or arguments.screen):
        raise UsageError("--looks must be given without --dump and --screen, which see each screen")


def refuse_unseen(port: str, profile: Profile) -> None:
    """Raise UsageError where nobody can look, or the board does not put rows one behind another."""
    if is_simulated(port):
        raise UsageError("--looks must go with a real board; --screen sees a simulated one")
    if not is_typed_at():
        raise UsageError("--looks must have somebody who types the answers, at a terminal")
    printing = profile.display.printing
    if printing.last_column == "overwrite" or printing.last_row != "scroll":
        raise UsageError(
            f"--looks must have a board that goes on in the next row and scrolls, and {profile.id} "
            "does not; --dump compares screens of such a one"
        )


class LookedSoak:
    """Sends rows of `profile` until a look is due, `every` so often, and asks what stands there.

    `keep` and `told` are as those of termprobe/line/soak.py; `ask(prompt)` asks the person.
    """

    def __init__(
        self,
        pacer: Pacer,
        clock: Clock,
        profile: Profile,
        far: Far,
        keep: SoakListener,
        told: SoakListener,
        ask: AskLook,
        every: SoakLength,
    ) -> None:
        self.far = far
        self._pacer, self._clock, self._profile = pacer, clock, profile
        self._keep, self._ask, self._every = keep, ask, every
        self._telling = Telling(clock, far, keep, told)
        self._seen_s = far.seconds
        """How long it had taken at the last look."""

    def carry_out(self, wanted: SoakLength) -> None:
        """Go on until `wanted` is reached, look by look.

        Raise LinkError, or KeyboardInterrupt to stop; what no look has told of does not count.
        """
        tally = self.far.tally
        try:
            while not wanted.is_reached(self.far):
                self._to_the_next_look(wanted)
        finally:
            tally.sent, self.far.seconds = tally.received, self._seen_s
            self._keep(self.far)

    def _to_the_next_look(self, wanted: SoakLength) -> None:
        """Send rows from a fresh screen on, then ask."""
        for name in self._profile.fresh:
            group = command_group(self._profile, str(name))
            self._pacer.send(group.data)
            self._pacer.settle(group.settle_s)
        row, begun, far = self._next_row(), self._now(), self.far
        count = 0
        while not self._is_due(begun, count) and not wanted.is_reached(far):
            self._pacer.send(row)
            self._pacer.read(0.0)
            count += 1
            far.tally.sent += len(row)
            self._telling.tell(self._seen)
        self._pacer.settle(0.0)
        asked_s = self._clock.now_s()
        is_right = self._look(row.decode("ascii"))
        self._telling.leave_out(self._clock.now_s() - asked_s)
        self._telling.count_time()
        self._seen_s = far.seconds
        if not is_right:
            far.tally.errors[SEEN_WRONG] += 1
        far.tally.received = far.tally.sent
        self._keep(far)

    def _next_row(self) -> bytes:
        """Return a row of other characters than the one before."""
        columns, first = self._profile.display.columns, self.far.block * UNIT + 1
        self.far.block += 1
        unit = bytes(PRINTABLE[(first + number) % len(PRINTABLE)] for number in range(UNIT))
        return (unit * columns)[:columns]

    def _now(self) -> Far:
        """Return how far it is, so that what is done from now on can be told."""
        now = Far(seconds=self.far.seconds)
        now.tally.sent = self.far.tally.sent
        return now

    def _is_due(self, begun: Far, count: int) -> bool:
        """Return whether a look is due; the screen must be full of the row first."""
        since = Far(seconds=self.far.seconds - begun.seconds)
        since.tally.sent = self.far.tally.sent - begun.tally.sent
        return count > self._profile.display.rows and self._every.is_reached(since)

    def _look(self, row: str) -> bool:
        """Return whether all is as it must be; raise KeyboardInterrupt where the person stops."""
        prompt = (
            f"\nLook: does every row but a blank last one read {row[: 2 * UNIT]}... from its left "
            "edge on, each column one character from top to bottom? y, n or stop: "
        )
        while True:
            typed = self._typed(prompt)
            if typed in STOPS:
                raise KeyboardInterrupt
            if typed in WORDS:
                return WORDS[typed]

    def _typed(self, prompt: str) -> str:
        """Return what is typed; the end of the input means stop."""
        try:
            return self._ask(prompt).strip().lower()
        except EOFError:
            return "stop"

    def _seen(self) -> Far:
        """Return how far it is, without what no look has told of yet."""
        tally = self.far.tally
        seen = Far(self.far.block, seconds=self._seen_s)
        seen.tally.sent = seen.tally.received = tally.received
        seen.tally.errors.update(tally.errors)
        return seen
