"""The plan: everything that a run needs, with no YAML below it and no port above it. Frozen and deterministic."""

from dataclasses import dataclass

from termprobe.terminal.screen import Screen

LOOK, TYPED_BACK, REPLY, ASK, MEASURE, SWITCH, PRESS = (
    "look",
    "typed-back",
    "reply",
    "ask",
    "measure",
    "switch",
    "press",
)
KINDS = (LOOK, TYPED_BACK, REPLY, ASK, MEASURE, SWITCH, PRESS)
"""Kinds of steps, each named by what answers it."""


@dataclass(frozen=True)
class Group:
    """Bytes that belong together, such as one command: what a step is played by, one after another."""

    data: bytes
    label: str
    """What it is, in words: `address 5, 10`, `text "HELLO"`."""
    settle_s: float = 0.0
    """Pause after its last bit."""


@dataclass(frozen=True)
class Step:
    """One thing to try and to answer, ready to be carried out."""

    id: str
    stage: str
    kind: str
    title: str
    question: str
    groups: tuple[Group, ...] = ()
    expected: Screen | None = None
    """look and typed-back: the screen after the last group; ask: where there is one to be compared."""
    reply: bytes | None = None
    """reply and press: the bytes that must come; a press that must give a break has none."""
    key: str | None = None
    """press: the name of the key."""
    legend: str = ""
    """press: what the keycap shows."""
    modifiers: tuple[str, ...] = ()
    """press: the modifiers held meanwhile, by alphabet."""
    held: tuple[str, ...] = ()
    """press: keys that go down before it and are held meanwhile."""
    may_repeat: bool = False
    """press: the key goes on sending while it is held."""
    word: str | None = None
    """typed-back: the characters that must come from the board's own keyboard, RETURN last."""
    unit: str | None = None
    low: float | None = None
    high: float | None = None
    source: str | None = None
    option: str | None = None
    position: str | None = None
    settings: tuple[tuple[str, str], ...] = ()
    """(option, position) that must hold for this step, normal positions included where the script ever moves the option."""
    needs: tuple[str, ...] = ()
    """Ids of the steps that must not have failed."""
    covered_by: tuple[str, ...] = ()
    """Ids of looks each of which shows all that this step would, so that it is not asked once one has passed."""
    not_fitted: str | None = None
    """Why this terminal cannot do the step, where it cannot."""
    caution: str | None = None
    """Text to acknowledge before the step."""
    stop_if: str | None = None
    glances: int = 4
    """look and ask: how many places the eye must rest on to answer; 4 for a regular screen."""
    continues: bool = False
    """The screen goes on from the step before, which must have been sent right before."""
    hash: str = ""
    """Of all the fields above; equal steps are the same step."""

    @property
    def data(self):
        """All bytes of the step."""
        return b"".join(group.data for group in self.groups)

    @property
    def typed(self):
        """typed-back: the bytes that the board's own keyboard must send, RETURN once and last."""
        return (self.word or "").rstrip("\r").encode("latin-1", "replace") + b"\r"

    def is_covered(self, passed):
        """Return whether the step need not be asked, where the looks whose ids are in `passed` have passed."""
        return not passed.isdisjoint(self.covered_by)

    @property
    def limits(self):
        """measure: the limits in words, `4.75 to 5.25 V`, `at least 3 V`; empty where there are none."""
        unit = f" {self.unit}" if self.unit else ""
        if self.low is not None and self.high is not None:
            return f"{self.low:.6g} to {self.high:.6g}{unit}"
        if self.low is not None:
            return f"at least {self.low:.6g}{unit}"
        return f"at most {self.high:.6g}{unit}" if self.high is not None else ""

    def allows(self, value):
        """measure: return whether a reading lies within the limits, the limits included."""
        return (self.low is None or value >= self.low) and (self.high is None or value <= self.high)


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
    """For each code of the keyboard what to press for it, also where the plan asks for a part of the presses only."""

    def step(self, step_id):
        """Return the step called `step_id`; raise KeyError."""
        return next(iter([step for step in self.steps if step.id == step_id]), None) or _missing(
            step_id
        )

    def of_stage(self, stage_id):
        """Return the steps of one stage, in order."""
        return tuple(step for step in self.steps if step.stage == stage_id)


def _missing(step_id):
    raise KeyError(step_id)
