"""A soak of the whole board: full screens of text, each compared with what a dump shows of it."""

from termprobe.clock import Clock
from termprobe.journal.records import Answer
from termprobe.line.soak import KEEP_S, Far, SoakLength, SoakListener
from termprobe.line.stream import BLOCK, Stream
from termprobe.link.pacer import Pacer
from termprobe.observer.base import Observer
from termprobe.plan.model import Group, Look
from termprobe.plan.sending import command_group, fill_groups
from termprobe.profile.model import Profile
from termprobe.terminal.reference import Reference
from termprobe.terminal.screen import Screen, differences

ON_SCREEN = "wrong on the screen"


class ScreenSoak:
    """Fills the screen again and again, and counts the cells that `observer` sees otherwise.

    `keep` and `told` are as those of termprobe/line/soak.py.
    """

    def __init__(
        self,
        pacer: Pacer,
        clock: Clock,
        profile: Profile,
        stream: Stream,
        far: Far,
        keep: SoakListener,
        told: SoakListener,
        observer: Observer,
    ) -> None:
        self.far = far
        self._clock, self._profile, self._stream = clock, profile, stream
        self._keep, self._told, self._observer = keep, told, observer
        self._pacer = pacer
        self._begun_s = self._kept_s = clock.now_s() - far.seconds

    def carry_out(self, wanted: SoakLength) -> None:
        """Go on until `wanted` is reached, screen by screen; raise LinkError or ObserverError."""
        try:
            while not wanted.is_reached(self.far):
                self._screen()
                self._tell()
        finally:
            self._keep(self.far)

    def _screen(self) -> None:
        """Send one screen, and count what is wrong on it."""
        look = self._next_look()
        assert look.expected is not None
        for group in look.groups:
            self._pacer.send(group.data)
            if group.settle_s:
                self._pacer.settle(group.settle_s)
        self._pacer.settle(0.0)
        self._pacer.read(0.0)
        said = self._observer.answer(look)
        assert isinstance(said, Answer) and said.seen is not None, "a dump tells a whole screen"
        tally = self.far.tally
        sent = sum(len(row.rstrip()) for row in look.expected.rows)
        wrong = len(differences(look.expected.rows, said.seen))
        tally.sent += sent
        tally.received += sent
        if wrong:
            tally.errors[ON_SCREEN] += wrong

    def _next_look(self) -> Look:
        """Return the next screen; the blocks of its text are used up."""
        display = self._profile.display
        count = -(-display.rows * display.columns // BLOCK)
        text = b"".join(self._stream.block(self.far.block + number) for number in range(count))
        self.far.block += count
        letters = text.decode("ascii")
        rows = [
            letters[start : start + display.columns]
            for start in range(0, display.rows * display.columns, display.columns)
        ]
        groups = [command_group(self._profile, str(name)) for name in self._profile.fresh]
        groups += fill_groups(self._profile, rows, "soak")
        return Look(
            "screen", "soak", "A full screen", groups=tuple(groups), expected=self._of(groups)
        )

    def _of(self, groups: list[Group]) -> Screen:
        reference = Reference(self._profile)
        for group in groups:
            reference.feed(group.data)
        return reference.screen()

    def _tell(self) -> None:
        now_s = self._clock.now_s()
        self.far.seconds = now_s - self._begun_s
        self._told(self.far)
        if now_s - self._kept_s >= KEEP_S:
            self._kept_s = now_s
            self._keep(self.far)
