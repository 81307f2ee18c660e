"""The state of the session: all that the console shows and that decides what a key does.

Frozen; no time, no port, no console.
"""

from collections.abc import Callable
from dataclasses import dataclass, field, replace

from termprobe.link.base import LineFormat
from termprobe.observer.press import Events
from termprobe.plan.model import Look, Plan, Step, expected_of
from termprobe.profile.model import Profile
from termprobe.runner.course import Course
from termprobe.runner.known_fault import NO_PROSPECT, Prospect
from termprobe.session.messages import Wanted
from termprobe.session.react.group_play import Play
from termprobe.session.react.marked_cells import CellIndex, Marks
from termprobe.session.react.waveform import Loop
from termprobe.terminal.predicted import Prediction, Predictions
from termprobe.terminal.screen import Screen

NO_STEP = Look("", "", "")


@dataclass(frozen=True)
class State:
    """One moment of the session. A field that one mode alone uses names it."""

    course: Course
    """How far the run is, as the worker told last, and what the builder has done since."""
    profile: Profile
    format: LineFormat
    """Of the line."""
    board: str = ""
    """Serial number, and revision where it is known."""
    link: str = ""
    is_practice: bool = False

    mode: str = "beginning"
    """The name of a mode of termprobe/session/modes/."""
    beneath: tuple[str, ...] = ()
    """The modes that a passing one (help, typing, list, paused, lost) lies over, lowest first."""
    now_s: float = 0.0
    """When the last key was pressed or the last event came."""
    notice: str = ""
    """What there is to be said now; said by say()."""
    is_told_to_wait: bool = False
    """The notice asks to wait until the step is there; a key that came before does not count."""

    step_id: str | None = None
    step_shown: Step | None = None
    """The step that was sent last, as it is to be answered where known faults change its screen."""
    ready_at_s: float = 0.0
    """When the step's last bit had left; answers count from a moment later."""
    pace: float = 1.0
    """How many times as long as usual each character of the step takes."""
    next_id: str | None = None
    """reply, wrong-press: the step after one that was wrong and is held for the builder to see."""
    came: bytes = b""
    """The last bytes that came back from the board."""
    errors: str = ""
    """The last error that the line reported."""
    typed: bytes = b""
    """typed-back: what has come from the board's keyboard for this step."""
    mistyped: str = ""
    """typed-back: how much of the word was typed on this computer's keyboard by mistake."""
    early: Events = ()
    """pressing: a press that was made before its question was on the console."""

    heard_id: str | None = None
    """pressing: the step for which the press heard last counts."""

    is_known: bool = False
    """The worker has told what the run file holds, and so which step comes first."""
    looks_s: tuple[float, ...] = ()
    """How long the latest answers took, without pauses."""
    board_keys: str = "unproven"
    """Whether the board's own keys answer: unproven, proven, on, off."""
    letters_heard: frozenset[str] = frozenset()
    """Which answer keys of the board's own keyboard have come while they were unproven."""
    is_free: bool = False
    """pressing: any key may be pressed, not only the one of the step in hand."""
    is_walking: bool = False
    """pressing, practice: the simulated board's keys are pressed one after the other."""

    has_press_bell: bool = True
    """The console's bell sounds once for a press that is wrong, or that nobody asked for."""
    has_look_bell: bool = True
    """It sounds twice when a step that was sent is ready to be looked at."""
    is_alone: bool = False
    """The screen alone, without frame."""
    turns: int = 0
    """How often the builder has turned from one screen to the next: expected, as seen, difference.
    """
    board_screen: Screen | None = None
    """Practice: what the simulated board shows."""
    scroll: CellIndex | None = None
    """Where the builder has moved a screen, or a panel, that is larger than its room."""
    shown_from: CellIndex = (0, 0)
    """First row and column that the console shows of the screen, or of the panel."""
    cursor: CellIndex = (0, 0)
    """marking: where the marking cursor stands."""
    marks: Marks = field(default_factory=dict)
    """marking: the cells marked."""
    remark: str = ""
    """marking: what differs, in words."""
    predictions: Predictions | None = None
    """The wrong screens that the step in hand may show, once they are known."""
    picked: int = 0
    """choosing: which of them is shown, from 0."""
    offered: tuple[str, ...] = ()
    """marking: what was offered before, none of which was seen."""
    regions: tuple[tuple[str, bool], ...] = ()
    """narrowing: what was said of parts of the screen, each with whether anything in it is wrong.
    """
    purpose: "Purpose | None" = None
    """typing: what is typed for."""
    text: str = ""
    """typing: the line so far."""
    chosen: int = 0
    """list: the step's index in the plan."""
    page: int = 0
    """help, reading: the page that is shown, from 0."""
    pages: int = 1
    """The same: so many pages the text takes on this console; what draws it counts them."""
    prospect: Prospect = NO_PROSPECT
    """What is known of the cause of what has failed."""
    is_fault_decided: bool = False
    """The builder has decided about a fault that was named, so that none is named any more."""
    step_ready_at_s: float = 0.0
    """cause-named: when the step beneath was ready."""
    play: Play | None = None
    broke_at: str = ""
    """Which group of a step that was played made it go wrong; it is recorded with the answer."""
    loop: Loop | None = None
    """wave, waving: what is sent."""
    opening: tuple[str, ...] = ()
    """beginning: what is to be said before the first step."""
    lost: str = ""
    """What happened to the line."""
    is_gone: bool = True
    """lost: the line comes back by itself when the adapter does."""
    path: str = ""
    """Where the run file is."""
    report: str = ""
    """ended, reading: all that the run file shows."""
    cause: str = ""
    """What would explain what the run file shows; empty where nothing is to be explained."""
    ending: tuple[str, ...] = ()
    """ended: what is to be said; in practice, the fault."""
    is_from_card: bool = False
    """What was answered before this sitting was written on a card."""
    left_out: int = 0
    """How many steps of the script that are fitted are not in the plan."""

    @property
    def plan(self) -> Plan:
        """What is carried out."""
        return self.course.plan

    @property
    def step(self) -> Step:
        """The step in hand as it is to be answered, or an empty one."""
        if self.step_shown is not None and self.step_shown.id == self.step_id:
            return self.step_shown
        return NO_STEP if self.step_id is None else self.plan.step(self.step_id)

    @property
    def screen(self) -> Screen | None:
        """The screen that the board must show now, or None."""
        if self.mode == "play" and self.play is not None:
            return self.play.screen
        return expected_of(self.step)

    @property
    def prediction(self) -> Prediction | None:
        """The wrong screen that the builder has moved to, or None."""
        if self.predictions is None:
            return None
        return self.predictions.found[self.picked]

    @property
    def lowest_mode(self) -> str:
        """The mode that all passing ones lie over; without any the present one."""
        return (*self.beneath, self.mode)[0]

    @property
    def mode_beneath(self) -> str:
        """The mode that back() leads to; without one the present one."""
        return (self.mode, *self.beneath)[-1]

    def to(self, mode: str) -> "State":
        """Return the state in a passing mode, the one before remembered."""
        return replace(self, mode=mode, beneath=(*self.beneath, self.mode))

    def back(self) -> "State":
        """Return the state in the mode before."""
        return replace(self, mode=self.beneath[-1], beneath=self.beneath[:-1])

    def at(self, mode: str) -> "State":
        """Return the state in another mode that nothing goes back from."""
        return replace(self, mode=mode, beneath=())

    def say(self, notice: str) -> "State":
        """Return the state with another notice."""
        return replace(self, notice=notice, is_told_to_wait=False)


Reaction = tuple[State, tuple[Wanted, ...]]
"""The state after a key or an event, and what is asked of the worker and the console."""
KeyAction = Callable[[State, str], Reaction]
"""What a key does: from the state and the key, a character or a name."""


@dataclass(frozen=True)
class Purpose:
    """What a line is typed for."""

    prompt: str
    accept: Callable[[State, str], Reaction]
    """Takes the text typed; raises ValueError with what must be typed."""
    detail: Callable[[State], str] = lambda state: ""
    """What follows the prompt."""
