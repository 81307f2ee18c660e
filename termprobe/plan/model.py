"""The plan: everything that a run needs, with no YAML below it and no port above it.

It is frozen and deterministic.

A step is a record of its kind. Each kind is named by what answers it, and adds its own fields to
those that all have.
"""

from collections.abc import Mapping, Set
from dataclasses import dataclass, field
from functools import cached_property
from typing import ClassVar

from termprobe.notation import show
from termprobe.plan.earlier import NONE_EARLIER, EarlierForms
from termprobe.plan.readings import Limits
from termprobe.plan.reply_form import ReplyForm
from termprobe.terminal.dots import Enlarged
from termprobe.terminal.screen import Screen


@dataclass(frozen=True)
class Group:
    """Bytes that belong together, such as one command: a step is played one group after another."""

    data: bytes
    label: str
    """What it is, in words: `address 5, 10`, `text "HELLO"`."""
    settle_s: float = 0.0
    """Pause after its last bit."""


@dataclass(frozen=True)
class Step:
    """One thing to try and to answer, ready to be carried out: what steps of all kinds have."""

    kind: ClassVar[str]
    id: str
    stage: str
    title: str
    question: str = ""
    groups: tuple[Group, ...] = ()
    settings: tuple[tuple[str, str], ...] = ()
    """(option, position) that must hold; normal ones too where the script moves the option."""
    needs: tuple[str, ...] = ()
    """Ids of the steps that must not have failed."""
    not_fitted: str | None = None
    """Why this terminal cannot do the step, where it cannot."""
    caution: str | None = None
    """Text to acknowledge before the step."""
    stop_if: str | None = None
    """When to switch off at once."""
    source: str | None = None
    """Where the limits, or the expectation, come from."""
    continues: bool = False
    """The screen goes on from the step before, which must have been sent right before."""
    blames: str = field(default="", kw_only=True)
    """Whom a failure speaks against, where not the board: builder, adapter, cable, line, strap."""
    hash: str = ""
    """Of kind and all other fields; equal steps are the same step."""

    @property
    def data(self) -> bytes:
        """All bytes of the step."""
        return b"".join(group.data for group in self.groups)

    def covering(self, passed: Set[str]) -> tuple[str, ...]:
        """Return the ids of the looks that make this step need no answer of its own.

        They are all in `passed`, the ids of looks that have passed by answers of their own; none
        are returned where one is not.
        """
        return ()

    def is_covered(self, passed: Set[str]) -> bool:
        """Return whether the step need not be asked.

        `passed` holds the ids of the looks that have passed by answers of their own.
        """
        return bool(self.covering(passed))


@dataclass(frozen=True)
class ScreenStep(Step):
    """A step of which a screen can be expected."""

    expected: Screen | None = None
    """After the last group; None where none is to be compared, or the step is not fitted."""


@dataclass(frozen=True)
class Look(ScreenStep):
    """The screen is compared: by eye, or by a dump."""

    kind = "look"
    glances: int = 4
    """How many cells the eye must rest on to answer; 4 for a regular screen."""
    covered_by: tuple[str, ...] = ()
    """Ids of looks of which one fails wherever this would; not asked once all have passed."""
    enlarged: tuple[Enlarged, ...] = ()
    """Characters of the screen whose dots are to be compared, as they must be drawn."""

    @property
    def asks_dots(self) -> bool:
        """Whether the dots of the characters are asked for."""
        return bool(self.enlarged)

    def covering(self, passed: Set[str]) -> tuple[str, ...]:
        """Return the looks that cover this one, where all of them have `passed`."""
        if passed >= set(self.covered_by):
            return self.covered_by
        return ()


@dataclass(frozen=True)
class Ask(ScreenStep):
    """A question that eyes, ears or hands answer."""

    kind = "ask"
    glances: int = 4
    """As of a look."""


@dataclass(frozen=True)
class TypedBack(ScreenStep):
    """Characters are read off the screen and typed on the board's own keyboard."""

    kind = "typed-back"
    word: str = field(kw_only=True)
    """The ASCII characters of the codes that must come, without RETURN."""

    @property
    def typed(self) -> bytes:
        """The bytes that the board's own keyboard must send, RETURN once and last."""
        return self.word.rstrip("\r").encode("latin-1", "replace") + b"\r"


@dataclass(frozen=True)
class Reply(Step):
    """The board must send something back by itself."""

    kind = "reply"
    reply: bytes = b""
    """What must come, or with a form one reply of it; empty only where the step is not fitted."""
    form: ReplyForm | None = None
    """Where parameters that only the board knows make `reply` one of many."""

    @property
    def wanted(self) -> str:
        """What must come, in the notation."""
        if self.form:
            return self.form.in_notation
        return show(self.reply)

    def is_complete(self, data: bytes) -> bool:
        """Return whether no more than `data` need come."""
        if self.form:
            return self.form.is_complete(data)
        return len(data) >= len(self.reply)

    def allows(self, data: bytes) -> bool:
        """Return whether `data` is what must come."""
        if self.form:
            return self.form.allows(data)
        return data == self.reply


@dataclass(frozen=True)
class LineCheck(Step):
    """Something is tried of the line itself, and nobody need look."""

    kind = "line-check"
    check: str = field(kw_only=True)
    """What is tried, by its word in termprobe/line/checks.py."""
    told_by: tuple[tuple[str, str], ...] = ()
    """(word, step): what the check calls an earlier step of which it uses what it told."""


@dataclass(frozen=True)
class Measure(Limits, Step):
    """A reading of an instrument."""

    kind = "measure"


@dataclass(frozen=True)
class Switch(Step):
    """An option of the board is set by hand."""

    kind = "switch"
    option: str = field(kw_only=True)
    position: str = field(kw_only=True)


@dataclass(frozen=True)
class Press:
    """One press of one key, released before the next."""

    id: str
    """`press/a`, `press/a+control+shift`: the key's name, then the modifiers by alphabet."""
    key: str
    legend: str
    """What the keycap shows."""
    modifiers: tuple[str, ...]
    """`control`, `shift`: held while the key is pressed, by alphabet."""
    code: bytes
    """What must come; empty where a break condition must."""
    asked: str
    """What to press, by keycaps: `"1 !" with SHIFT`."""
    sends: str
    """What must come, in words."""
    is_break: bool = False
    """A break condition must come on the line, and no code."""
    may_repeat: bool = False
    """Held down long enough, the key goes on sending by itself."""
    held: tuple[str, ...] = ()
    """Keys that go down before it, one after the other, and are held meanwhile: a chord."""

    @property
    def title(self) -> str:
        """In one line: `"1 !" with SHIFT sends "!"`."""
        return f"{self.asked} sends {self.sends}"

    @property
    def name(self) -> str:
        """In a word, for lists of many: `a+shift`; of a chord its id."""
        return self.id if self.held else "+".join((self.key, *self.modifiers))


@dataclass(frozen=True)
class KeyPress(Step):
    """A key is pressed on the board's own keyboard."""

    kind = "press"
    press: Press = field(kw_only=True)


@dataclass(frozen=True)
class NoPresses(Step):
    """Stands for the presses of a keyboard that the profile does not describe; never fitted."""

    kind = "keys"


@dataclass(frozen=True)
class NoChords(Step):
    """Stands for the chords of a keyboard that has no diodes; never fitted."""

    kind = "chords"


@dataclass(frozen=True)
class Stage:
    """Steps that belong together."""

    id: str
    title: str
    caution: str | None = None


@dataclass(frozen=True)
class Plan:
    """A script compiled against a profile."""

    profile_id: str
    script_id: str
    title: str
    rows: int
    columns: int
    stages: tuple[Stage, ...]
    steps: tuple[Step, ...]
    hash: str
    """SHA-256 over the steps' hashes, in order."""
    key_codes: tuple[tuple[bytes, tuple[str, ...]], ...] = ()
    """For each code of the keyboard what to press for it, also where the plan asks for a part."""
    earlier: EarlierForms = field(default=NONE_EARLIER, hash=False)
    """Of a run that went on with another text."""

    @cached_property
    def index(self) -> Mapping[str, int]:
        """Id of each step -> where it stands in `steps`."""
        return {step.id: number for number, step in enumerate(self.steps)}

    def step(self, step_id: str) -> Step:
        """Return the step called `step_id`; raise KeyError."""
        return self.steps[self.index[step_id]]

    def title_of(self, step_id: str) -> str:
        """Return a step's title; of a step that the plan does not have, its id."""
        return self.step(step_id).title if step_id in self.index else step_id

    def of_stage(self, stage_id: str) -> tuple[Step, ...]:
        """Return the steps of one stage, in order."""
        return tuple(step for step in self.steps if step.stage == stage_id)


def expected_of(step: Step) -> Screen | None:
    """Return the screen that `step` must show, None where there is none to be compared."""
    return step.expected if isinstance(step, ScreenStep) else None
