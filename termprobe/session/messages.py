"""Small frozen records between the console and the worker: requests down, events up."""

from dataclasses import dataclass

from termprobe.journal.known_fault import FaultNamed
from termprobe.journal.records import Answer
from termprobe.link.base import LineFormat
from termprobe.observer.press import Events
from termprobe.plan.model import Group, Step
from termprobe.runner.course import Course
from termprobe.runner.known_fault import Prospect
from termprobe.session.drawn_anew import Torn
from termprobe.session.react.waveform import Loop
from termprobe.session.stage_left import SkipStage
from termprobe.terminal.predicted import Predictions
from termprobe.terminal.screen import Screen

# Requests: from the console to the worker.


@dataclass(frozen=True)
class Send:
    """Send a step; with a `pace` above 1 every character and pause takes so many times as long."""

    step_id: str
    pace: float = 1.0
    is_again: bool = False
    """It was answered, and is asked once more since the cause hangs on that."""


@dataclass(frozen=True)
class RecordAnswer:
    """Write the answer to a step into the run file, then tell what comes next."""

    step_id: str
    answer: Answer
    amends: bool = False
    """It takes the place of the answer before: more has come of the same press."""


@dataclass(frozen=True)
class Acknowledge:
    """Write down that the step's caution was read."""

    step_id: str


@dataclass(frozen=True)
class SetOption:
    """Write down where an option of the board stands now."""

    option: str
    position: str


@dataclass(frozen=True)
class Note:
    """Write down a remark, and a photo to it by the path of its file, if that is not empty."""

    text: str
    step_id: str | None = None
    photo: str = ""


@dataclass(frozen=True)
class SendGroups:
    """Send some byte groups of a step that is played."""

    groups: tuple[Group, ...]


@dataclass(frozen=True)
class Announce:
    """Say on the board's screen that its own keys answer now."""


@dataclass(frozen=True)
class PressBoardKeys:
    """Practice: press the simulated board's keys that spell `text`."""

    text: str


@dataclass(frozen=True)
class PressKey:
    """Practice: press the key of a step on the simulated board."""

    step_id: str


@dataclass(frozen=True)
class TakeBack:
    """Let no answer to a step given so far count."""

    step_id: str


@dataclass(frozen=True)
class StartLoop:
    """Send bytes over and over until StopLoop."""

    loop: Loop


@dataclass(frozen=True)
class StopLoop:
    """End the loop; the line is as it was before."""


@dataclass(frozen=True)
class Retry:
    """Try to get the line back now."""


@dataclass(frozen=True)
class DecideFault:
    """Write down what is to become of a fault that was named, then tell what comes next."""

    decided: FaultNamed


@dataclass(frozen=True)
class ReadReport:
    """Tell what the run file shows by now."""


Request = (
    Send
    | RecordAnswer
    | SkipStage
    | Acknowledge
    | SetOption
    | Note
    | SendGroups
    | Announce
    | PressBoardKeys
    | PressKey
    | TakeBack
    | StartLoop
    | StopLoop
    | Retry
    | DecideFault
    | ReadReport
)
"""What the worker carries out."""


@dataclass(frozen=True)
class Quit:
    """End the session. The console does that itself."""

    is_interrupted: bool = False


@dataclass(frozen=True)
class Ring:
    """Sound the bell of the console; it does that itself."""

    times: int = 1


Wanted = Request | Quit | Ring
"""What a key or an event can ask for."""


# Events: from the worker to the console.


@dataclass(frozen=True)
class Shown:
    """All of a step has left, and the board has had its time."""

    step_id: str
    at_s: float
    step: Step | None = None
    """As it is to be answered, where known faults change its screen."""


@dataclass(frozen=True)
class Came:
    """Bytes came back from the board."""

    data: bytes
    error: str = ""


@dataclass(frozen=True)
class PressHeard:
    """A key was pressed on the board; `events` is empty where none was in time."""

    events: Events
    is_more: bool = False
    """The press was told before; more of it has followed."""


@dataclass(frozen=True)
class Judged:
    """The run has gone on."""

    course: Course
    step_id: str | None = None
    """The step that was answered."""
    is_held: bool = False
    """What the board returned was wrong; the builder sees that before the session goes on."""
    is_amended: bool = False
    """The answer of the step took the place of the one before."""
    is_decided: bool = False
    """It was decided about a fault: what comes next is sent anew."""

    @property
    def next_id(self) -> str | None:
        """The step that comes next, None where all have an answer."""
        following = self.course.next_step()
        return None if following is None else following.id


@dataclass(frozen=True)
class Lost:
    """The line is gone, or cannot be used; `text` says what happened."""

    text: str
    is_gone: bool = True


@dataclass(frozen=True)
class Regained:
    """The line is back."""

    text: str


@dataclass(frozen=True)
class Told:
    """A request could not be carried out; `text` says why, and nothing has changed."""

    text: str


@dataclass(frozen=True)
class LoopEnded:
    """The loop has ended after this many characters."""

    characters: int
    format: LineFormat


@dataclass(frozen=True)
class Prospected:
    """This can be said of the cause of what has failed."""

    prospect: Prospect


@dataclass(frozen=True)
class BoardScreen:
    """Practice: what the simulated board shows now."""

    screen: Screen


@dataclass(frozen=True)
class ReportRead:
    """What the run file shows."""

    text: str
    """The whole report."""
    cause: str = ""
    """What would explain it, in a line; empty where nothing is to be explained."""


@dataclass(frozen=True)
class Foreseen:
    """What a look may show where it is not right has been worked out."""

    predictions: Predictions


WorkerEvent = (
    Shown
    | Torn
    | Came
    | PressHeard
    | Judged
    | Lost
    | Regained
    | Told
    | LoopEnded
    | BoardScreen
    | Prospected
    | ReportRead
    | Foreseen
)
"""What the console reacts to."""


@dataclass(frozen=True)
class Trouble:
    """The session cannot go on. This ends it instead of changing its state."""

    error: Exception
