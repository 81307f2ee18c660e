"""The state of the session: all that the console shows and that decides what a key does. Frozen; no time, no port, no console."""

import statistics
from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from termprobe.link.base import LineFormat
from termprobe.profile.model import Profile
from termprobe.plan.model import ASK, LOOK, MEASURE, PRESS, REPLY, SWITCH, TYPED_BACK, Plan, Step
from termprobe.session.react.waveform import Loop
from termprobe.session.react.group_play import Play
from termprobe.terminal.screen import Screen
from termprobe.verdict.model import FAIL, NOT_FITTED, PASS, UNANSWERED, StepVerdict

MODE_OF_KIND = {
    LOOK: "look",
    ASK: "ask",
    TYPED_BACK: "typed-back",
    REPLY: "reply",
    MEASURE: "measure",
    SWITCH: "setting",
    PRESS: "press",
}
SLOWER_BY, SLOWEST = 2.0, 64.0
"""Each wish for slower sending multiplies the time of a character by the first, up to the second."""
KEPT_BYTES, KEPT_PACES = 64, 50
NO_STEP = Step("", "", LOOK, "", "")


@dataclass(frozen=True)
class State:
    """One moment of the session."""

    plan: Plan
    profile: Profile
    format: LineFormat
    """Of the line."""
    board: str = ""
    """Serial number, and revision where it is known."""
    link: str = ""
    is_practice: bool = False
    mode: str = "opening"
    """A key of keymap.MODES."""
    before: tuple[str, ...] = ()
    """The modes that passing ones (help, line, list, pause, stop) go back to, the latest last."""
    step_id: str | None = None
    now_s: float = 0.0
    """When the last key was pressed or the last event came."""
    ready_at_s: float = 0.0
    """When the step's last bit had left; answers count from a moment later."""
    pace: float = 1.0
    next_id: str | None = None
    """reply: the step that comes after a reply that was wrong and is held for the builder to see."""
    verdicts: Mapping[str, StepVerdict] = field(default_factory=dict)
    trail: tuple[str, ...] = ()
    """Steps answered in this session, in order; `back` goes through them."""
    looks_s: tuple[float, ...] = ()
    """How long each answer took."""
    options: Mapping[str, str] = field(default_factory=dict)
    """Positions of the board's options as far as they are known."""
    acknowledged: frozenset[tuple[str, str]] = frozenset()
    """(stage, caution) of each caution that was read; it holds for its stage."""
    came: bytes = b""
    errors: str = ""
    typed: bytes = b""
    """typed-back: what has come from the board's keyboard for this step."""
    is_free: bool = False
    """press: any key may be pressed, not only the one of the step in hand."""
    early: tuple = ()
    """The events of a press that was made before its question was on the console."""
    is_walking: bool = False
    """Practice: the simulated board's keys are pressed one after the other."""
    board_keys: str = "unproven"
    """unproven, proven, on, off."""
    is_known: bool = False
    """opening: the worker has told what the run file holds, and so which step comes first."""
    opening: tuple[str, ...] = ()
    """What is to be said before the first step."""
    notice: str = ""
    is_alone: bool = False
    """The screen alone, without frame."""
    is_on_board: bool = False
    """Practice: the simulated board's screen in the place of the expected one."""
    board_screen: Screen | None = None
    scroll: tuple[int, int] | None = None
    shown_from: tuple[int, int] = (0, 0)
    """First row and column that the console shows of the screen."""
    cursor: tuple[int, int] = (0, 0)
    marks: Mapping[tuple[int, int], str] = field(default_factory=dict)
    remark: str = ""
    purpose: str = ""
    """line: a key of lines.PURPOSES."""
    text: str = ""
    chosen: int = 0
    """list: the step's place in the plan."""
    page: int = 0
    """help: how often the page was turned."""
    play: Play | None = None
    loop: Loop | None = None
    lost: str = ""
    """What happened to the line."""
    is_gone: bool = True
    """It comes back by itself when the adapter does."""
    ending: tuple[str, ...] = ()
    """What is to be said at the end; in practice, the fault."""

    @property
    def step(self):
        """Return the step in hand, or an empty one."""
        return NO_STEP if self.step_id is None else self.plan.step(self.step_id)

    @property
    def screen(self):
        """Return the screen to be shown in the expected screen's place, or None."""
        if self.mode == "play":
            return self.play.screen
        return self.step.expected

    def to(self, mode, **changes):
        """Return the state in a passing mode, the one before remembered."""
        return replace(self, mode=mode, before=(*self.before, self.mode), **changes)

    def back(self, **changes):
        """Return the state in the mode before."""
        return replace(self, mode=self.before[-1], before=self.before[:-1], **changes)

    def at(self, mode, **changes):
        """Return the state in another mode that nothing goes back from."""
        return replace(self, mode=mode, before=(), **changes)

    def say(self, notice):
        """Return the state with another notice."""
        return replace(self, notice=notice)


def verdict_of(state, step_id):
    """Return the verdict of a step as a word."""
    return state.verdicts[step_id].verdict if step_id in state.verdicts else UNANSWERED


def is_any_key(state):
    """Return whether any key may be pressed: in free order, but where a key answered already is to be pressed again."""
    return (
        state.is_free
        and state.step.kind == PRESS
        and verdict_of(state, state.step_id) == UNANSWERED
    )


def steps_left(state, steps):
    """Return those of `steps` that are still to be answered if all goes well."""
    hoped = {
        step.id for step in state.plan.steps if verdict_of(state, step.id) in (PASS, UNANSWERED)
    }
    return [
        step
        for step in steps
        if verdict_of(state, step.id) == UNANSWERED and not step.is_covered(hoped)
    ]


def progress(state):
    """Return (done, failed, left): steps with a verdict, those of them that failed, those to come; only what is fitted counts."""
    words = [verdict_of(state, step.id) for step in state.plan.steps]
    done = len(words) - words.count(UNANSWERED) - words.count(NOT_FITTED)
    return done, words.count(FAIL), len(steps_left(state, state.plan.steps))


def time_left_s(state):
    """Return the seconds that the steps left will take if all is well, at the pace measured so far, or None before three answers."""
    if len(state.looks_s) < 3:
        return None
    left = steps_left(state, state.plan.steps)
    line_s = sum(
        len(group.data) * state.format.character_s + group.settle_s
        for step in left
        for group in step.groups
    )
    return line_s + len(left) * statistics.median(state.looks_s)


def settings_due(state, step):
    """Return ((option, position), ...) that must be set on the board before `step`."""
    return tuple(
        (option, position)
        for option, position in step.settings
        if state.options.get(option) != position
    )


def shown_time(seconds):
    """Return a duration as people say it."""
    if seconds < 90:
        return f"about {max(round(seconds / 10) * 10, 10)} s"
    return f"about {round(seconds / 60)} min" if seconds < 5400 else f"about {seconds / 3600:.1f} h"
