"""The thread that owns the line and the run file: carries out the console's requests one by one and tells what happened."""

import queue
import threading

from termprobe.errors import LinkError, LinkLostError, LinkSettingsError, UsageError
from termprobe.link.pacer import Pacer
from termprobe.plan.model import LOOK, PRESS, REPLY, SWITCH, Group, Step
from termprobe.profile.encode import encode
from termprobe.runner.events import BytesReceived
from termprobe.session.react.answering import BOARD_KEYBOARD
from termprobe.session.messages import (
    Acknowledge,
    Announce,
    BoardScreen,
    Came,
    Heard,
    Judged,
    LoopEnded,
    Lost,
    Note,
    PressBoardKeys,
    PressKey,
    Record,
    Regained,
    Retry,
    Send,
    SendGroups,
    SetOption,
    Shown,
    StartLoop,
    StopLoop,
    TakeBack,
    Told,
    Trouble,
)
from termprobe.terminal.screen import Screen
from termprobe.observer.base import AS_EXPECTED
from termprobe.observer.press import MACHINE_LIMIT_S, Ear

END = object()
"""The last request."""
LISTEN_S = 0.02
RETRY_S = 0.5
"""How often a lost line is looked for."""
LOOP_CHARACTERS = 32
ANNOUNCEMENT = "ANSWER ON THIS KEYBOARD: Y AS EXPECTED, N DIFFERS. PRESS Y."
ANNOUNCED = Step("answer-keys", "", LOOK, "the board's own answer keys", "")


class Stopped(Exception):
    """The session ends while something is being sent."""


class StoppableLink:
    """A link whose every call ends with Stopped once `stop` is set, so that no long send holds the session up."""

    def __init__(self, link, stop):
        self.link, self._stop = link, stop
        self.name, self.format = link.name, link.format
        self.drain, self.lines = self._checked(link.drain), self._checked(link.lines)
        self.write, self.read = self._checked(link.write), self._checked(link.read)
        self.set_line, self.close = link.set_line, link.close

    def _checked(self, call):
        def checked(*arguments):
            if self._stop.is_set():
                raise Stopped
            return call(*arguments)

        return checked


class Worker(threading.Thread):
    """Carries out requests until end().

    `open_line(format)` opens the line, in another format where the loop for the scope wants one; `new_run(link, listener)`
    makes the Run; `post(event)` takes the events, from this thread; `board` is the simulated board in practice, or None.
    A press of a key that does not come within `wait_s` is missing; None waits for ever.
    """

    def __init__(self, link, new_run, open_line, post, clock, profile, board=None, wait_s=None):
        super().__init__(name="line", daemon=True)
        self._stop_sending = threading.Event()
        self._link = StoppableLink(link, self._stop_sending)
        self._format = link.format
        self._open_line, self._post, self._clock, self._profile, self._board = (
            open_line,
            post,
            clock,
            profile,
            board,
        )
        self.run_of_plan = new_run(self._link, self._tell)
        self.requests = queue.Queue()
        self._is_lost, self._retry_at_s, self._is_ended = False, 0.0, False
        self._is_troubled = False
        """The line cannot be used as it is, but is not gone: nothing is read before the builder has tried again."""
        self._screen = None
        self._reason = None
        self._wait_s = self._limit_s = wait_s
        self._pressing_s = None
        """Since when a key is waited for; None while none is."""
        self._ear = Ear(self.run_of_plan)

    def end(self, reason):
        """End the thread: what is being sent is broken off, the run file gets its last record. Returns when that is done."""
        self._reason = reason
        self._stop_sending.set()
        self.requests.put(END)
        self.join(timeout=5.0)

    def run(self):
        """Carry out requests, listen in between; at the end the requests that wait are carried out, but nothing more is sent."""
        try:
            self._judged()
            while not self._is_ended:
                self._turn()
            self._write_last()
        except Exception as error:  # pylint: disable=broad-except
            self._post(Trouble(error))
        finally:
            self._link.close()

    def _turn(self):
        try:
            request = self.requests.get(
                timeout=LISTEN_S if self._pressing_s is None else 0
            )  # a press is waited for on the line
        except queue.Empty:
            request = None
        if request is END:
            self._is_ended = True
            return
        try:
            if request is not None:
                CARRIED_OUT[type(request)](self, request)
            elif self._is_lost:
                self._regain()
            elif not self._is_troubled:
                self._listen()
            self._show_board()
        except LinkError as error:
            self._lose(error)
        except Stopped:
            pass

    def _listen(self):
        """Take what comes; where a key is waited for, as one press."""
        if self._pressing_s is None:
            self.run_of_plan.poll()
            return
        came = self._ear.hear(self._pressing_s, self.run_of_plan.step)
        is_late = (
            self._limit_s is not None and self._clock.now_s() - self._pressing_s >= self._limit_s
        )
        if came or is_late:
            self._pressing_s, self._limit_s = self._clock.now_s(), self._wait_s
            self._post(Heard(came))

    def _write_last(self):
        run = self.run_of_plan
        is_done = run.next_step() is None and self._reason != "interrupted"
        if is_done:
            run.journal.append("finished", sync=True, verdict=run.verdicts().verdict)
        else:
            run.journal.append("stopped", sync=True, reason=self._reason)

    def _tell(self, event):
        if isinstance(event, BytesReceived):
            self._post(Came(event.data, event.error))

    def _show_board(self):
        if self._board is None:
            return
        screen = self._board.screen()
        if screen != self._screen:
            self._screen = screen
            self._post(BoardScreen(Screen(screen.rows, screen.cursor, bells=screen.bells)))

    def _judged(self, step=None, is_held=False):
        run = self.run_of_plan
        following = run.next_step()
        self._post(
            Judged(
                run.verdicts(),
                following.id if following else None,
                step.id if step else None,
                is_held,
            )
        )

    # The line

    def _lose(self, error):
        self._pressing_s = None
        self._is_lost = isinstance(error, LinkLostError)
        self._is_troubled = not self._is_lost
        self._retry_at_s = self._clock.now_s() + RETRY_S
        self._post(Lost(str(error), self._is_lost))

    def _regain(self):
        if self._clock.now_s() >= self._retry_at_s:
            self._retry_at_s = self._clock.now_s() + RETRY_S
            self._reopen()

    def _reopen(self, is_told=True):
        self._link.close()
        try:
            link = self._open_line(self._format)
        except LinkError as error:
            self._is_lost = True
            self._post(Lost(str(error)))
            return
        self._link, self._is_lost, self._is_troubled = (
            StoppableLink(link, self._stop_sending),
            False,
            False,
        )
        self.run_of_plan.relink(self._link)
        if is_told:
            self._post(Regained(f"the line is back: {link.name}"))

    # Requests

    def send(self, request):
        """Send a step; what the board returns by itself is recorded at once."""
        run = self.run_of_plan
        step = run.plan.step(request.step_id)
        if step.kind == PRESS:
            self._wait_for(step)
        else:
            self._pressing_s = None
            run.perform(step, request.pace)
        answer = run.ask(step) if step.kind == REPLY else None
        if answer is None:
            self._post(Shown(step.id, self._clock.now_s()))
            return
        run.record(step, answer)
        self._judged(step, is_held=answer.word != AS_EXPECTED)

    def _wait_for(self, step):
        """Wait for a press; what comes between two presses is of the next one, for a hand may be quicker than the console."""
        earlier = self.run_of_plan.begin(step)
        if self._pressing_s is None:
            self._ear, earlier = Ear(self.run_of_plan), ()
        self._ear.keep(earlier)
        self._pressing_s = self._clock.now_s()

    def record(self, request):
        """Write the answer down, then tell what comes next."""
        step = self.run_of_plan.plan.step(request.step_id)
        self.run_of_plan.record(step, request.answer)
        if request.answer.observer == BOARD_KEYBOARD:
            self.run_of_plan.forget_screen()  # what is typed on the board may stand on its screen
        if self._board is not None and step.kind == SWITCH and request.answer.word == AS_EXPECTED:
            self._board.set_option(step.option, step.position)
        self._judged(step)

    def acknowledge(self, request):
        """Write down that a caution was read."""
        self.run_of_plan.acknowledge(self.run_of_plan.plan.step(request.step_id))

    def set_option(self, request):
        """Write down a position; in practice the simulated board's switch moves there."""
        self.run_of_plan.set_option(request.option, request.position)
        if self._board is not None:
            self._board.set_option(request.option, request.position)

    def note(self, request):
        """Write down a remark."""
        self.run_of_plan.journal.append("note", sync=True, step=request.step_id, text=request.text)

    def send_groups(self, request):
        """Send some groups of the step that is played."""
        for group in request.groups:
            self.run_of_plan.send_group(self.run_of_plan.step, group)

    def announce(self, request):
        """Clear the board's screen and say on it that its keys answer."""
        for name in self._profile.fresh:
            settle_s = self._profile.command(name).settle_ms / 1000
            self.run_of_plan.send_group(
                ANNOUNCED, Group(encode(self._profile, name), name, settle_s)
            )
        text = ANNOUNCEMENT[: self._profile.display.columns]
        self.run_of_plan.send_group(ANNOUNCED, Group(text.encode("ascii"), f'text "{text}"'))

    def press_board_keys(self, request):
        """Practice: press keys of the simulated board."""
        try:
            self._board.type(request.text)
        except UsageError as error:
            self._post(Told(str(error)))

    def press_key(self, request):
        """Practice: press the key of a step on the simulated board."""
        step = self.run_of_plan.plan.step(request.step_id)
        if step.held:
            self._board.chord([*step.held, step.key])
        else:
            self._board.press(step.key, frozenset(step.modifiers))
        self._pressing_s, self._limit_s = self._clock.now_s(), MACHINE_LIMIT_S

    def take_back(self, request):
        """Write down that the answers to a step count no more."""
        self.run_of_plan.take_back(self.run_of_plan.plan.step(request.step_id))
        self._judged()

    def loop(self, request):
        """Send bytes over and over until the next request; the line is then as it was before."""
        is_other, count, refusal = request.loop.format != self._format, 0, None
        self._pressing_s = None
        try:
            if is_other:
                self._link.close()
                self._link = StoppableLink(self._open_line(request.loop.format), self._stop_sending)
            count = self._send_over_and_over(request.loop)
        except LinkSettingsError as error:
            refusal = error
        self.run_of_plan.forget_screen()
        if is_other:
            self._reopen(is_told=False)
        self._post(LoopEnded(count, self._format))
        if refusal:
            self._post(Told(str(refusal)))

    def _send_over_and_over(self, loop):
        pacer = Pacer(self._link, self._clock)
        data = loop.data if loop.gap_s else loop.data * max(1, LOOP_CHARACTERS // len(loop.data))
        while self.requests.empty():
            pacer.send(data)
            if loop.gap_s:
                pacer.settle(loop.gap_s)
            self._link.read(0.0)
        pacer.settle(0.0)
        return pacer.statistics.characters


CARRIED_OUT = {
    Send: Worker.send,
    Record: Worker.record,
    Acknowledge: Worker.acknowledge,
    SetOption: Worker.set_option,
    Note: Worker.note,
    SendGroups: Worker.send_groups,
    Announce: Worker.announce,
    PressBoardKeys: Worker.press_board_keys,
    PressKey: Worker.press_key,
    TakeBack: Worker.take_back,
    StartLoop: Worker.loop,
    StopLoop: lambda worker, request: None,
    Retry: lambda worker, request: worker._reopen(),
}
