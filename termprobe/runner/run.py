"""One execution of a plan on one board, a step at a time: send, ask, record. All that happens goes into the journal first."""

import dataclasses

from termprobe.errors import LinkError, ObserverError
from termprobe.link.pacer import Pacer
from termprobe.plan.model import SWITCH
from termprobe.runner import walk
from termprobe.runner.events import (
    Answered,
    BytesReceived,
    GroupSent,
    LeftOpen,
    LinkTrouble,
    StepStarted,
    ObserverTrouble,
)
from termprobe.verdict.judge import judge
from termprobe.verdict.model import UNANSWERED
from termprobe.observer.base import AS_EXPECTED
from termprobe.observer.press import PressObserver
from termprobe.observer.returned import KeyboardObserver, ReplyObserver

GIVEN_UP_AFTER = 3
"""An observer that could not answer so many times in a row is asked no more."""


class Run:
    """Carries out `plan` over `link`, asks `observers`, writes to `journal`.

    A journal that was reopened makes the run go on where it stopped. `positions` (option -> position) says where the
    board's options are known to stand now, whatever the journal says; `hand` and `again` get words typed on the board's
    keyboard (see KeyboardObserver). `listener` is called with the records of events.py. Calls come from one thread at a time.
    """

    def __init__(
        self,
        plan,
        link,
        journal,
        clock,
        observers,
        listener=None,
        *,
        positions=None,
        hand=None,
        again=None,
        press=None,
        gap_s=0.0,
        handshake="none",
    ):
        self.plan, self.journal, self.clock = plan, journal, clock
        own = (
            ReplyObserver(self),
            KeyboardObserver(self, hand, again),
            PressObserver(self, press, again is not None),
        )
        self.observers = sorted((*own, *observers), key=lambda observer: -observer.strength)
        self.data = b""
        """What came back since the step in progress began."""
        self.step = None
        """The step in progress, or None."""
        self._tell = listener or (lambda event: None)
        self._pacing = {"gap_s": gap_s, "handshake": handshake}
        self._acknowledged, self._troubles = set(), {}
        self._judged, self._known = None, {}
        self._open = set()
        self._index = {step.id: index for index, step in enumerate(plan.steps)}
        self._on_screen = None
        self._take(link)
        self._positions = {
            record["option"]: record["position"]
            for record in journal.records
            if record["kind"] == "option"
        }
        for option, position in (positions or {}).items():
            if self._positions.setdefault(option, position) != position:
                self.set_option(option, position)

    # What is known

    def verdicts(self):
        """Return the RunVerdict so far."""
        count = len(self.journal.records)
        if self._judged is None or self._judged[0] != count:
            self._judged = count, judge(self.plan, self.journal.records, self._known)
        return self._judged[1]

    def verdict(self, step):
        """Return the StepVerdict of `step` so far."""
        return self.verdicts().steps[self._index[step.id]]

    def next_step(self):
        """Return the first step that can still be answered, or None; those left open in this sitting are passed over."""
        for step, verdict in zip(self.plan.steps, self.verdicts().steps):
            if verdict.verdict == UNANSWERED and step.id not in self._open:
                return step
        return None

    @property
    def statistics(self):
        """How the sending has gone on this link, as a Pacing."""
        return self._pacer.statistics

    # The line

    def perform(self, step, pace=1.0):
        """Send the groups of `step`, those before it first where the screen goes on from them; take what returns.

        `pace` above 1 makes every character and pause take so many times as long. Raises LinkError; the step then stays
        unanswered until the run has a link again.
        """
        chain = self.chain(step)
        self.begin(step)
        for part in chain:
            for group in part.groups:
                self.send_group(part, group, pace)
        self._on_line(lambda: self._pacer.settle(0.0))
        self._on_screen = step.id
        self.poll()

    def chain(self, step):
        """Return the steps to be sent for `step`: itself, and those before it unless the screen shows the one right before."""
        steps, index = [step], self._index[step.id]
        while steps[0].continues and index and self._on_screen != self.plan.steps[index - 1].id:
            index -= 1
            steps.insert(0, self.plan.steps[index])
        return tuple(steps)

    def begin(self, step):
        """Make `step` the one in progress, so that what comes from now on belongs to it; return what came before, as poll_events."""
        earlier = self.poll_events()
        fresh = not step.continues or len(self.chain(step)) > 1
        self._on_screen = None
        self.step, self.data = step, b""
        self.journal.append("step", step=step.id, hash=step.hash)
        for observer in self.observers if fresh else ():
            if hasattr(observer, "begin"):
                observer.begin()
        self._tell(StepStarted(step))
        return earlier

    def send_group(self, step, group, pace=1.0):
        """Send one group of `step` at its pace, wait as long as it demands, and take what returns."""
        self._on_screen = None
        self._pacer.set_pace(pace)
        self._on_line(lambda: self._pacer.send(group.data))
        self.journal.append("sent", step=step.id, label=group.label, data=group.data)
        self._tell(GroupSent(step, group))
        if group.settle_s:
            self._on_line(lambda: self._pacer.settle(group.settle_s * pace))
        self.poll()

    def poll(self, wait_s=0.0):
        """Return the bytes that have come since the last call, in the journal by then; wait at most `wait_s` for the first."""
        return b"".join(received.data for received in self.poll_events(wait_s))

    def poll_events(self, wait_s=0.0):
        """Return what poll returns as the link's Received records, each with its moment and its error."""
        arrived = self._on_line(lambda: self._pacer.read(wait_s))
        step_id = self.step.id if self.step else None
        for received in arrived:
            error = {"error": received.error} if received.error else {}
            self.journal.append(
                "received",
                step=step_id,
                data=received.data,
                arrived_s=round(received.at_s, 6),
                **error,
            )
            self.data += received.data
            self._tell(BytesReceived(step_id, received.data, received.error))
        return arrived

    @property
    def link_format(self):
        """The Format of the line."""
        return self._format

    def relink(self, link):
        """Go on over another link, for example the same adapter plugged in again."""
        self._take(link)
        self.journal.append("linked", link={"name": link.name, "format": str(link.format)})

    def forget_screen(self):
        """Take what the screen shows for unknown: somebody else has written on it, for example its own keyboard."""
        self._on_screen = None

    def _take(self, link):
        self._pacer = Pacer(link, self.clock, **self._pacing)
        self._format = link.format
        self._on_screen = None

    def _on_line(self, action):
        try:
            return action()
        except LinkError as error:
            self._on_screen = None
            self.journal.append(
                "link-lost", sync=True, step=self.step.id if self.step else None, reason=str(error)
            )
            self._tell(LinkTrouble(str(error)))
            raise

    # Before a step

    def caution(self, step):
        """Return the caution that a person must still acknowledge before `step`, or None."""
        key = (step.stage, step.caution)
        return step.caution if step.caution and key not in self._acknowledged else None

    def acknowledge(self, step):
        """Note that the caution of `step` was acknowledged; it holds for its stage, until the run is resumed."""
        self._acknowledged.add((step.stage, step.caution))
        self.journal.append("caution", sync=True, step=step.id, text=step.caution)

    def to_be_set(self, step):
        """Return ((option, position), ...) that `step` needs and that are not known to be so."""
        return tuple(
            (option, position)
            for option, position in step.settings
            if self._positions.get(option) != position
        )

    def set_option(self, option, position):
        """Note where an option stands now."""
        self._positions[option] = position
        self.journal.append("option", sync=True, option=option, position=position)

    # Answers

    def ask(self, step):
        """Return the Answer of the strongest observer that has one, or None. An observer in trouble is passed over."""
        for observer in [observer for observer in self.observers if observer.can_answer(step)]:
            if self._troubles.get(observer.name, 0) >= GIVEN_UP_AFTER:
                continue
            try:
                answer = observer.answer(step)
                self._troubles[observer.name] = 0
            except ObserverError as error:
                self._note_trouble(observer, step, error)
                continue
            if answer is not None:
                return dataclasses.replace(
                    answer, observer=answer.observer or observer.name, strength=observer.strength
                )
        return None

    def _note_trouble(self, observer, step, error):
        count = self._troubles[observer.name] = self._troubles.get(observer.name, 0) + 1
        self.journal.append("note", step=step.id, text=f"{observer.name} could not answer: {error}")
        self._tell(ObserverTrouble(observer.name, str(error), count >= GIVEN_UP_AFTER))

    def record(self, step, answer):
        """Write `answer` to the journal; when this returns no crash can lose it. A wish is not an answer and is refused."""
        if not answer.speaks:
            raise ValueError("an answer to be recorded must have a word, a value or bytes")
        fields = {
            name: getattr(answer, name)
            for name in ("word", "seen", "cursor", "bells", "value", "data", "note")
        }
        fields |= {"heard": answer.heard} if answer.heard else {}
        self.journal.append(
            "answer",
            sync=True,
            step=step.id,
            hash=step.hash,
            observer=answer.observer,
            strength=answer.strength,
            **fields,
        )
        if step.kind == SWITCH and answer.word == AS_EXPECTED:
            self.set_option(step.option, step.position)
        self._open.discard(step.id)
        self._tell(Answered(step, answer))

    def take_back(self, step):
        """Let no answer to `step` given so far count."""
        self.journal.append("taken-back", sync=True, step=step.id)

    def note(self, step, text):
        """Write a remark of the builder to the journal."""
        self.journal.append("note", sync=True, step=step.id, text=text)

    def leave_open(self, step, reason=""):
        """Pass over `step` for this sitting; it stays unanswered."""
        self._open.add(step.id)
        self._tell(LeftOpen(step, reason))

    def is_open(self, step):
        """Return whether `step` was passed over in this sitting."""
        return step.id in self._open

    def carry_out(self, steps=None):
        """Carry out `steps` (default: the plan) as walk.carry_out does."""
        return walk.carry_out(self, tuple(steps or self.plan.steps))
