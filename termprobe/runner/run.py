"""One execution of a plan on one board, a step at a time: send, ask, record.

All that happens goes into the journal first.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import TypeVar

from termprobe.clock import Clock
from termprobe.errors import LinkError
from termprobe.journal.asked_again import OnCause
from termprobe.journal.file import Journal
from termprobe.journal.kept import KeptPhoto
from termprobe.journal.records import (
    AS_EXPECTED,
    Answer,
    Answered,
    Arrived,
    CautionRead,
    LineGone,
    Linked,
    LinkUsed,
    Noted,
    OptionSet,
    Record,
    Sent,
    SentLate,
    StepBegun,
    TakenBack,
)
from termprobe.link.base import LineFormat, Link, Received
from termprobe.link.pacer import Pacer, Pacing
from termprobe.observer.base import FreshScreenObserver, Observer, Said
from termprobe.plan.model import Group, Plan, Step, Switch
from termprobe.runner.asking import NO_HANDS, Asking, Hands
from termprobe.runner.course import Course, chain, course_of
from termprobe.runner.known_fault import Expectations, Foresight
from termprobe.runner.line_of_run import Demands
from termprobe.runner.told import LeftOpen, Listener, RunEvent, deaf
from termprobe.runner.trail import KeptOfRun
from termprobe.verdict.model import RunVerdict, StepVerdict

_T = TypeVar("_T")


class Run:
    """Carries out `plan` over `link`, asks `observers`, writes to `journal`.

    A journal that was reopened makes the run go on where it stopped. `positions` (option ->
    position) says where the board's options are known to stand now, whatever the journal says.
    `listener` is told what told.py names. `foresight` names faults; without one none is.
    `wrong_looks` is id of a look -> it as attention checks send it. One thread at a time calls.
    """

    def __init__(
        self,
        plan: Plan,
        link: Link,
        journal: Journal,
        clock: Clock,
        observers: Iterable[Observer] = (),
        listener: Listener = deaf,
        *,
        positions: Mapping[str, str] | None = None,
        hands: Hands = NO_HANDS,
        demands: Demands | None = None,
        foresight: Foresight | None = None,
        wrong_looks: Mapping[str, Step] | None = None,
    ) -> None:
        self.wrong_looks = dict(wrong_looks or {})
        self.plan, self.journal, self.clock = plan, journal, clock
        self.data = b""
        """What came back since the step in progress began."""
        self.step: Step | None = None
        """The step in progress."""
        self._tell, self.demands = listener, demands or Demands()
        self._kept = KeptOfRun(plan)
        self._course: tuple[int, Course] | None = None
        self._left_open: frozenset[str] = frozenset()
        self._positions = dict(positions or {})
        self.on_screen: str | None = None
        self.foresight, self.expectations = foresight, Expectations(foresight)
        self._take(link)
        self._asking = Asking(self, observers, hands, listener)
        self.observers = self._asking.observers
        for option, position in self._positions.items():
            if self.course.positions[option] != position:
                self.set_option(option, position)

    # What is known

    @property
    def course(self) -> Course:
        """How far the run is."""
        count = len(self.journal.records)
        if self._course is None or self._course[0] != count:
            told = self.journal.records, self._kept, self._positions, self._left_open
            self._course = count, course_of(self.plan, *told)
        return self._course[1]

    def verdicts(self) -> RunVerdict:
        """Return the RunVerdict so far."""
        return self.course.verdicts

    def verdict(self, step: Step) -> StepVerdict:
        """Return the StepVerdict of `step` so far."""
        return self.course.verdict(step.id)

    @property
    def statistics(self) -> Pacing:
        """How the sending has gone on this link."""
        return self._pacer.statistics

    @property
    def link_format(self) -> LineFormat:
        """Speed and frame of the line."""
        return self._format

    # The line

    def perform(self, step: Step, pace: float = 1.0, instead: Step | None = None) -> None:
        """Send the groups of `step` and take what returns.

        Those before it are sent first where the screen goes on from them. `pace` above 1 makes
        every character and pause take so many times as long. Raises LinkError; the step then stays
        unanswered until the run has a link again. A step sent `instead` takes the place of this one
        alone.
        """
        *before, _ = chain(self.plan, step, self.on_screen)
        self.begin(step, instead)
        for part in (*before, instead or step):
            for group in part.groups:
                self.send_group(part, group, pace)
        self._on_line(lambda: self._pacer.settle(0.0))
        self.on_screen = None if instead else step.id
        self.poll()
        self.expectations.foresee(self.journal.records, step)

    def begin(self, step: Step, instead: Step | None = None) -> Sequence[Received]:
        """Make `step` the one in progress, so that what comes from now on belongs to it.

        Return what came before, as poll_events does.
        """
        earlier = self.poll_events()
        is_fresh = not step.continues or len(chain(self.plan, step, self.on_screen)) > 1
        self.on_screen = None
        self.step, self.data = instead or step, b""
        for observer in self.observers:
            if is_fresh and isinstance(observer, FreshScreenObserver):
                observer.begin()
        self._write(StepBegun(self.step.id, self.step.hash))
        return earlier

    def send_group(self, step: Step, group: Group, pace: float = 1.0) -> None:
        """Send one group of `step` at its pace, wait as long as it demands, take what returns."""
        self.on_screen = None
        self._pacer.set_pace(pace)
        self._on_line(lambda: self._pacer.send(group.data))
        self._write(Sent(step.id, group.data, group.label))
        if group.settle_s:
            self._on_line(lambda: self._pacer.settle(group.settle_s * pace))
        self.poll()

    def send(self, data: bytes) -> None:
        """Send bytes for a step begun that are none of its groups, such as a check's."""
        self._on_line(lambda: self._pacer.send(data))
        self._write(Sent(self.step.id if self.step else "", data))

    def hand_over(self, data: bytes) -> None:
        """Send bytes as send() does, but at once: no pace is kept, and no handshake."""
        self._on_line(lambda: self._link.write(data))
        self._write(Sent(self.step.id if self.step else "", data))

    def on_link(self, action: Callable[[Link], _T]) -> _T:
        """Return what `action` makes of the link itself; raises LinkError as it does."""
        return self._on_line(lambda: action(self._link))

    def poll(self, wait_s: float = 0.0) -> bytes:
        """Return the bytes that have come since the last call, in the journal by then.

        Wait at most `wait_s` for the first.
        """
        return b"".join(received.data for received in self.poll_events(wait_s))

    def poll_events(self, wait_s: float = 0.0) -> Sequence[Received]:
        """Return what poll does as Received records, each with its moment and its error."""
        arrived = self._on_line(lambda: self._pacer.read(wait_s))
        step_id = self.step.id if self.step else None
        for one in arrived:
            self.data += one.data
            self._write(Arrived(step_id, one.data, round(one.at_s, 6), one.error))
        return arrived

    def relink(self, link: Link) -> None:
        """Go on over another link, for example the same adapter plugged in again."""
        self._note_late()
        self._take(link)
        self._write(Linked(LinkUsed(link.name, str(link.format), link.note)))

    def forget_screen(self) -> None:
        """Take what the screen shows for unknown.

        Somebody else has written on it, for example the board's own keyboard.
        """
        self.on_screen = None

    def _take(self, link: Link) -> None:
        demands = self.demands
        self._pacer = Pacer(link, self.clock, gap_s=demands.gap_s, handshake=demands.handshake)
        self._link, self._format = link, link.format
        self.on_screen = None

    def _on_line(self, action: Callable[[], _T]) -> _T:
        try:
            return action()
        except LinkError as error:
            self.on_screen = None
            self._write(LineGone(str(error), self.step.id if self.step else None))
            raise

    # What goes into the run file

    def _write(self, record: Record) -> None:
        self._tell(self.journal.append(record))

    def acknowledge(self, step: Step) -> None:
        """Note that the caution of `step` was read.

        That holds for all steps with the same text, until the run is resumed.
        """
        self._write(CautionRead(step.id, step.caution or ""))

    def set_option(self, option: str, position: str) -> None:
        """Note where an option stands now."""
        self._write(OptionSet(option, position))

    def record(self, step: Step, answer: Answer, amends: bool = False) -> None:
        """Write `answer` to the journal; when this returns no crash can lose it.

        One that says nothing is refused. One that `amends` takes the place of the one before.
        """
        if not answer.speaks:
            raise ValueError("an answer to be recorded must have a word, a value or bytes")
        self._left_open -= {step.id}
        self._begin_unless_begun(step)
        if step.id in self._kept.doubtful(self.journal.records):
            self.take_back(step)
        against = self.expectations.against(step)
        self._write(Answered(step.id, answer, step.hash, amends=amends, against=against))
        if isinstance(step, Switch) and answer.word == AS_EXPECTED:
            self.set_option(step.option, step.position)

    def _begin_unless_begun(self, step: Step) -> None:
        """Note that `step` is answered where another is in progress.

        Thus a damaged file still tells which step an answer that is lost can belong to.
        """
        if self.step is None or self.step.id != step.id:
            self._write(StepBegun(step.id, step.hash))

    def take_back(self, step: Step) -> None:
        """Let no answer to `step` given so far count."""
        self._write(TakenBack(step.id))

    def note(self, text: str, step: Step | None = None, photo: KeptPhoto | None = None) -> None:
        """Write a remark to the journal."""
        self._write(Noted(text, step.id if step else None, photo))

    def decide(self, decided: OnCause) -> None:
        """Write down what is to become of a fault that was named, or what is asked to name it."""
        self._write(decided)

    def end(self, reason: str) -> None:
        """Write the last record: finished, or stopped for `reason`.

        It is finished where nothing waits for an answer and nothing interrupted the run.
        """
        self._note_late()
        self._write(self.course.ending(reason))

    def _note_late(self) -> None:
        """Write down how late characters were sent over this link, where any were."""
        sent = self.statistics
        if sent.late:
            self._write(SentLate(sent.characters, sent.late, round(sent.worst_late_s, 6)))

    def leave_open(self, step: Step) -> None:
        """Pass over `step` for this sitting; it stays unanswered."""
        self._left_open |= {step.id}
        self._course = None
        self._tell(LeftOpen(step))

    def tell(self, event: RunEvent) -> None:
        """Tell the listener what no record holds."""
        self._tell(event)

    def ask(self, step: Step) -> Said | None:
        """Return what the strongest observer says that has something to say, or None."""
        return self._asking.ask(self.expectations.of(step))
