"""The thread that owns line and run file: carries out requests one by one, tells what happened."""

import contextlib
import queue
import threading
from collections.abc import Callable

from termprobe.board.base import SimulatedBoard
from termprobe.clock import Clock
from termprobe.errors import LinkError, TermprobeError, UsageError
from termprobe.journal.records import AS_EXPECTED, NOT_FITTED, Answer, Arrived
from termprobe.link.base import LineFormat, Link
from termprobe.observer.base import BOARD_KEYBOARD
from termprobe.plan.model import Ask, KeyPress, LineCheck, Reply, Step, Switch
from termprobe.profile.model import Profile
from termprobe.report.walk_words import of_check
from termprobe.runner.attention import Attention
from termprobe.runner.course import failed_by
from termprobe.runner.run import Run
from termprobe.runner.told import Listener, RunEvent
from termprobe.session import drawn_anew, messages, told_of_run
from termprobe.session.announcement import announce
from termprobe.session.fault_watch import FaultWatch
from termprobe.session.kept_line import KeptLine
from termprobe.session.practice_board import PracticeHands
from termprobe.session.press_wait import PressWait
from termprobe.session.react.waveform import Loop
from termprobe.session.scope_loop import send_in_its_format
from termprobe.session.stage_left import SkipStage, leave_stage
from termprobe.session.stoppable_link import StoppedError
from termprobe.session.switched_off import NOTHING_IS_SENT, is_refused

LISTEN_S, END_S = 0.02, 5.0
"""How long is listened at a time; so long the end of the thread is waited for."""

Post = Callable[[messages.WorkerEvent | messages.Trouble], None]


class Finish:
    """The last request."""


class Worker(threading.Thread):
    """Carries out requests until end().

    `open_line(format)` opens the line, in another format where the loop for the scope wants one;
    `new_run(link, listener)` makes the Run; `post(event)` takes the events, from this thread;
    `board` is the simulated board in practice, or None. A press of a key that does not come within
    `wait_s` is missing; None waits for ever. `read_report()` tells what the run file shows.
    """

    def __init__(
        self,
        link: Link,
        new_run: Callable[[Link, Listener], Run],
        open_line: Callable[[LineFormat], Link],
        post: Post,
        clock: Clock,
        profile: Profile,
        board: SimulatedBoard | None = None,
        wait_s: float | None = None,
        read_report: Callable[[], messages.ReportRead] | None = None,
    ) -> None:
        super().__init__(name="line", daemon=True)
        self.requests: queue.Queue[messages.Request | Finish] = queue.Queue()
        self._stop_sending = threading.Event()
        self._line = KeptLine(link, open_line, self._stop_sending)
        self._hands = PracticeHands(board)
        self._post, self._clock, self._profile = post, clock, profile
        self.run_of_plan = new_run(self._line.link, self._tell)
        self._press = PressWait(self.run_of_plan, wait_s)
        self._attention = Attention(self.run_of_plan)
        self._watch = FaultWatch(self.run_of_plan, post)
        self._read_report = read_report
        self._is_ended, self._reason = False, ""

    def end(self, reason: str) -> None:
        """End the thread: what is being sent is broken off, the run file gets its last record.

        Returns when that is done, or after END_S: the thread may then still be at it.
        """
        self._reason = reason
        self._stop_sending.set()
        self.requests.put(Finish())
        self.join(timeout=END_S)

    def run(self) -> None:
        """Carry out requests, listen in between.

        At the end the requests that wait are carried out, but nothing more is sent.
        """
        try:
            self._judged()
            while not self._is_ended:
                self._turn()
            self.run_of_plan.end(self._reason)
        except Exception as error:  # pylint: disable=broad-except
            self._end_failed(error)
            self._post(messages.Trouble(error))
        finally:
            self._line.link.close()

    def _end_failed(self, error: Exception) -> None:
        """Write the last record, if that can be written."""
        with contextlib.suppress(TermprobeError, OSError):
            self.run_of_plan.end(failed_by(error))

    def _turn(self) -> None:
        request = self._next_request()
        if isinstance(request, Finish):
            self._is_ended = True
            return
        try:
            if request is not None:
                self._carry_out(request)
            elif self._line.is_lost:
                self._regain()
            elif not self._line.is_troubled:
                self._listen()
            self._show_board()
        except LinkError as error:
            self._lose(error)
        except StoppedError:
            pass

    def _next_request(self) -> messages.Request | Finish | None:
        """Return the next request, or None where none waits: a press is waited for on the line."""
        try:
            return self.requests.get(timeout=0 if self._press.is_on else LISTEN_S)
        except queue.Empty:
            return None

    def _listen(self) -> None:
        """Take what comes; where a key is waited for, as one press."""
        if not self._press.is_on:
            self.run_of_plan.poll()
            return
        heard = self._press.hear()
        if heard is not None:
            self._post(messages.PressHeard(heard.events, heard.is_more))

    def _tell(self, event: RunEvent) -> None:
        if isinstance(event, Arrived):
            self._post(messages.Came(event.data, event.error))

    def _show_board(self) -> None:
        screen = self._hands.look()
        if screen is not None:
            self._post(messages.BoardScreen(screen))

    def _judged(self, step: Step | None = None, **how: bool) -> None:
        """Tell how far the run is; `step` was answered. `how` are fields of Judged."""
        step_id = None if step is None else step.id
        self._post(messages.Judged(self.run_of_plan.course, step_id, **how))

    # The line

    def _lose(self, error: LinkError) -> None:
        self._press.end()
        self._line.lose(error, self._clock.now_s())
        self._post(messages.Lost(str(error), self._line.is_lost))

    def _regain(self) -> None:
        if self._line.is_retry_due(self._clock.now_s()):
            self._retry()

    def _retry(self) -> None:
        """Try to get the line back, and tell where that succeeds."""
        if self._reopen():
            self._post(messages.Regained(f"the line is back: {self._line.link.name}"))

    def _reopen(self) -> bool:
        """Open the line anew; return whether it is back."""
        try:
            self._line.reopen()
        except LinkError as error:
            self._post(messages.Lost(str(error)))
            return False
        self.run_of_plan.relink(self._line.link)
        return True

    # Requests

    def _carry_out(self, request: messages.Request) -> None:
        run = self.run_of_plan
        match request:
            case _ if is_refused(request, run.verdicts()):
                self._post(messages.Told(NOTHING_IS_SENT))
            case messages.Send():
                told_of_run.ask_again(run, request)
                self._send(run.plan.step(request.step_id), request.pace)
            case messages.RecordAnswer():
                self._record(request)
            case SkipStage():
                self._judged(leave_stage(run, request))
            case messages.Acknowledge():
                run.acknowledge(run.plan.step(request.step_id))
            case messages.SetOption():
                self._set_option(request.option, request.position)
            case messages.Note():
                told_of_run.note(run, self._attention, request, self._post)
            case messages.SendGroups():
                self._attention.drop()
                told_of_run.send_groups(run, request)
            case messages.Announce():
                announce(run, self._profile)
            case messages.TakeBack():
                run.take_back(run.plan.step(request.step_id))
                self._judged()
            case messages.PressBoardKeys():
                self._type_on_board(request.text)
            case messages.PressKey():
                self._press_key(run.plan.step(request.step_id))
            case messages.StartLoop():
                self._send_loop(request.loop)
            # That StopLoop waits has ended the loop.
            case messages.Retry():
                self._retry()
            case messages.DecideFault():
                run.decide(request.decided)
                self._judged(is_decided=True)
            case messages.ReadReport():
                self._tell_report()

    def _send(self, step: Step, pace: float) -> None:
        """Send a step; what the board returns by itself is recorded at once."""
        run = self.run_of_plan
        if isinstance(step, KeyPress):
            self._press.begin(step)
        else:
            self._press.end()
            if drawn_anew.is_torn(run, step, self._post):
                return
            if not self._attention.show(step, pace):
                run.perform(step, pace)
        said = run.ask(step) if isinstance(step, Reply | LineCheck | Ask) else None
        if not isinstance(said, Answer):
            changed = run.expectations.changed(step)
            self._post(messages.Shown(step.id, self._clock.now_s(), changed))
            return
        run.record(step, said)
        self._judged(step, is_held=said.word not in (AS_EXPECTED, NOT_FITTED))

    def _tell_report(self) -> None:
        """Tell what the run file shows."""
        if self._read_report is None:
            return
        try:
            self._post(self._read_report())
        except TermprobeError as error:
            self._post(messages.Told(str(error)))

    def _press_key(self, step: Step) -> None:
        """Practice: press the key of a step on the simulated board."""
        if isinstance(step, KeyPress):
            self._hands.press(step)
            self._press.expect_machine()

    def _record(self, request: messages.RecordAnswer) -> None:
        """Write the answer down, then tell what comes next."""
        run, answer = self.run_of_plan, request.answer
        step = run.plan.step(request.step_id)
        checked = self._attention.take(step, answer)
        if checked is not None:
            self._post(messages.Told(of_check(checked)))
            self._send(step, self._attention.pace)
            return
        run.record(step, answer, request.amends)
        if answer.observer == BOARD_KEYBOARD:
            run.forget_screen()  # what is typed on the board may stand on its screen
        if isinstance(step, Switch) and answer.word == AS_EXPECTED:
            self._hands.set_option(step.option, step.position)
        self._judged(step, is_amended=request.amends)
        self._watch.after(step)

    def _set_option(self, option: str, position: str) -> None:
        """Write down a position; in practice the simulated board's switch moves there."""
        self.run_of_plan.set_option(option, position)
        self._hands.set_option(option, position)

    def _type_on_board(self, text: str) -> None:
        """Practice: press keys of the simulated board."""
        try:
            self._hands.type(text)
        except UsageError as error:
            self._post(messages.Told(str(error)))

    def _send_loop(self, loop: Loop) -> None:
        """Send bytes over and over until the next request; the line is then as it was before."""
        line = self._line
        self._press.end()
        self._attention.drop()
        count, refusal = send_in_its_format(line, self._clock, loop, self.requests.empty)
        self.run_of_plan.forget_screen()
        if loop.format != line.format:
            self._reopen()
        self._post(messages.LoopEnded(count, line.format))
        if refusal:
            self._post(messages.Told(refusal))
