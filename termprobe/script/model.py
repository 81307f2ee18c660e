"""What to try, as frozen records. Each is read from YAML field by field (termprobe/yamlfile.py)."""

from dataclasses import dataclass, field
from typing import Literal

from termprobe.yamlvalues import ByteText, Mapped, Text


@dataclass(frozen=True)
class Fragment(Mapped):
    """A part of what a step sends; one of text, command, pattern, probe and bytes is given."""

    text: Text | None = None
    """Printable characters."""
    command: str | None = None
    """A command of the profile, by name."""
    times: int = 1
    """How often text, command or bytes are sent; for a command with a count slot, the count."""
    rows: int | None = None
    """How many rows of the screen are filled with a text of one character."""
    at: tuple[int, ...] = ()
    """Row and column for a command that addresses, or of the first cell that a probe may use;
    negative ones count from the last (-1)."""
    short: bool = False
    """The command is sent in the shortest form that ECMA-48 5.4.2 allows, without the parameters
    that have their default value. Other grammars have no shorter form."""
    pattern: str | None = None
    """A pattern of the pattern library, by name."""
    with_: str | None = field(default=None, metadata={"key": "with"})
    """Argument of the pattern, for example the character of `solid`."""
    probe: str | None = None
    """A probe of the probe library, by name."""
    bytes: ByteText | None = None
    """Bytes as they are, for codes that no command stands for."""


@dataclass(frozen=True)
class Span(Mapped):
    """Readings from `low` to `high`; either may be left out."""

    low: float | None = None
    high: float | None = None


@dataclass(frozen=True)
class ScriptStep(Mapped):
    """One thing to try and to answer."""

    id: Text
    kind: Literal[
        "look", "typed-back", "reply", "ask", "measure", "switch", "keys", "chords", "line-check"
    ]
    """`keys` stands for one press of each key in each shift state, `chords` for three keys at a
    time for each diode."""
    title: str
    question: str = ""
    """What to look for, and where; for `ask` and `switch` the request itself."""
    start: Literal["fresh", "keep", "none"] = "fresh"
    """`fresh`: the profile's fresh commands are sent first; `keep`: go on from the step before;
    `none`: nothing is known of the screen (only for steps that no screen is expected of)."""
    send: tuple[Fragment, ...] = ()
    needs: tuple[Text, ...] = ()
    """Ids of steps or stages without which this one means nothing."""
    covered_by: tuple[Text, ...] = ()
    """Without effect; only scripts in old run files have it, whose steps keep their hashes."""
    enlarged: Text | None = None
    """look: the dots of the characters are asked for, and those of these are drawn enlarged."""
    word: Text | None = None
    """typed-back: what the builder types."""
    command: str | None = None
    """reply: the command of the profile whose reply must come."""
    short: bool = False
    """reply: that command is sent in its shortest form, as in a part of `send`."""
    unit: str | None = None
    low: float | None = None
    high: float | None = None
    """measure: the lowest and highest reading that passes."""
    ranges: tuple[Span, ...] = ()
    """measure: in the place of low and high, several ranges of which the board keeps to one."""
    usual: Span | None = None
    """measure: within the limits, but outside these, the step passes with a warning."""
    possible: Span | None = None
    """measure: what the instrument can show there; anything else is no reading."""
    over_range: bool = False
    """measure: OL is a reading, and higher than any number."""
    per_baud: bool = False
    """measure: all of these are for one baud, and multiplied by the speed of the line."""
    check: (
        Literal[
            "plug-bytes",
            "plug-rate",
            "plug-delay",
            "plug-lines",
            "plug-break",
            "no-echo",
            "board-lines",
            "key-format",
            "wiring",
            "levels",
            "board-stops-xoff",
            "board-stops-cts",
            "board-stops-dtr",
            "host-sees-busy",
            "busy-ignored",
            "both-ways",
            "long-text",
            "nothing-comes",
            "break-sent",
            "key-repeats",
            "keys-stay-local",
        ]
        | None
    ) = None
    """line-check: what is tried of the line itself."""
    told_by: dict[str, Text] = field(default_factory=dict)
    """line-check: word of the check -> id of the earlier step that tells it."""
    source: str | None = None
    """Where the limits, or the expectation, come from."""
    option: str | None = None
    """switch: the option of the profile."""
    position: str | None = None
    """switch: where to set it."""
    settings: dict[str, str] = field(default_factory=dict)
    """Positions that options must have for this step, where not normal."""
    variants: Literal["each", "other"] | None = None
    """The step is carried out once in each position of the option by which the profile chooses a
    national variant; `other`: in each but the normal one."""
    rows: Literal["all", "half"] | None = None
    """The option by which the profile lights all rows or half of them must stand so."""
    has: Literal["break-key", "repeat", "local-key"] | None = None
    """What the keyboard must have for this step."""
    caution: str | None = None
    """Id of a caution of the script, shown and acknowledged before the step."""
    stop_if: str | None = None
    """When to switch off at once."""
    blames: Literal["builder", "adapter", "cable", "line", "strap"] | None = None
    """Whom a failure speaks against, where not the board."""
    glances: int = 4
    """look and ask: how many times the eye must rest to answer: 2 for a word, 4 for a regular
    screen, else one for each row or group."""


@dataclass(frozen=True)
class ScriptStage(Mapped):
    """Steps that belong together."""

    id: Text
    title: str
    steps: tuple[ScriptStep, ...]
    needs: tuple[Text, ...] = ()
    """Ids of steps or stages that every step of this stage needs."""
    caution: str | None = None


@dataclass(frozen=True)
class Script(Mapped):
    """All that is to be tried, in order."""

    id: Text
    title: str
    stages: tuple[ScriptStage, ...]
    cautions: dict[str, str] = field(default_factory=dict)
