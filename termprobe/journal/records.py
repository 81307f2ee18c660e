"""What stands in a run file: one frozen record a kind; records.md is the page for people."""

from dataclasses import dataclass
from typing import ClassVar

from termprobe.journal.kept import Kept, KeptPhoto, ShownWithFaults
from termprobe.link.base import Received

FORMAT = 2
"""Version of the run files that are written; upgrade.py reads those of version 1."""

AS_EXPECTED, DIFFERS, UNSURE = "as-expected", "differs", "unsure"
DISPUTED, SKIPPED, NOT_FITTED = "disputed", "skipped", "not-fitted"
"""What an answer can say of a step; not-fitted: the line has not what it takes, says its note."""
RETURNED, KEYBOARD, DUMP, EYES = 4, 3, 2, 1
"""Strength of an observer: returned bytes, the board's own keyboard, a dump, eyes."""


@dataclass(frozen=True)
class BoardUnderTest(Kept):
    """The board, as its builder names it."""

    serial: str
    revision: str = ""
    builder: str = ""
    fitted: str = ""
    """What is fitted, where not everything is."""
    batch: str = ""
    """The batch of parts, or the kit, that it was built from; earlier versions did not ask."""


@dataclass(frozen=True)
class LinkUsed(Kept):
    """A link over which a run went."""

    name: str
    """As the user wrote it: a device path, a URL, `sim:`."""
    format: str = ""
    """Speed and frame in words: `9600 baud 7E1`."""
    note: str = ""
    """What the link says of itself, such as a speed that it rounds."""


@dataclass(frozen=True)
class Heard(Kept):
    """What came of one press of a key, raw."""

    speed_baud: float
    data_bits: int
    events: tuple[Received, ...] = ()
    """By time; `at_s` counts from the request."""


@dataclass(frozen=True)
class Answer(Kept):
    """What an observer says of a step."""

    word: str | None = None
    """as-expected, differs, and so on; None where only a value or bytes speak."""
    seen: tuple[str, ...] | None = None
    """The rows of the screen, where the observer can tell; U+FFFD in cells that are only marked."""
    cursor: tuple[int, int] | None = None
    bells: int | None = None
    """How often the bell rang since the screen was fresh, where the observer can tell."""
    misdrawn: tuple[tuple[str, str], ...] | None = None
    """Characters that are drawn with other dots than they should be, each with its dots; or
    `cursor` or `beam` with what is wrong with it. None where the observer does not see dots."""
    value: float | None = None
    """A reading, in the step's unit."""
    data: bytes | None = None
    """The bytes that came back, for a reply, a word typed back, or a press."""
    heard: Heard | None = None
    note: str = ""
    observer: str = ""
    """Who says so."""
    strength: int = EYES
    """How far unmarked cells of `seen` may be trusted."""
    chosen: str = ""
    """Which of the `offered` pictures is seen: `seen`, `cursor`, `bells` tell it whole."""
    offered: tuple[str, ...] = ()
    """The predicted pictures that a person was shown to choose from, each by the digest that
    diagnosis/shown.py makes of codes, cursor and bells."""
    drawn: tuple[str, ...] = ()
    """What a check of the line draws of what it found, in rows."""
    regions: tuple[tuple[str, bool], ...] = ()
    """(region, whether anything in it is wrong), as was asked of a screen that differs."""

    @property
    def speaks(self) -> bool:
        """Whether it says something of the step."""
        return self.word is not None or self.value is not None or self.data is not None


@dataclass(frozen=True, kw_only=True)
class Record(Kept):
    """What all records have; filled in as one is written."""

    kind: ClassVar[str]
    is_synced: ClassVar[bool] = True
    """Whether it is on the disk, not only with the system, before anything else happens."""
    seq: int = -1
    """Number in its file, from 0."""
    t: float = 0.0
    """Seconds of a clock of which only differences mean something."""
    at: str = ""
    """Date and time of day, ISO 8601."""


@dataclass(frozen=True, kw_only=True)
class CountingRecord(Record):
    """What also tells how many answers stand before it, so that one that is lost is missed."""

    answers: int | None = None
    """Answers and takings-back so far, filled in as it is written; None by earlier versions."""


@dataclass(frozen=True)
class Header(Record):
    """The first record: the board, and the texts from which the plan can be compiled again."""

    kind = "header"
    board: BoardUnderTest
    link: LinkUsed | None = None
    profile: str = ""
    script: str = ""
    """Ids."""
    plan_hash: str | None = None
    profile_text: str = ""
    script_text: str = ""
    tool: str = ""
    """Name and version of the program."""
    platform: str = ""
    format: int = 0
    """Of the records from here on; FORMAT where this version writes it."""
    practice: int | None = None
    """The number that decides which fault a practice hides; None where it is none."""
    chosen: tuple[str, ...] | None = None
    """Ids of the steps, where only a part of the script was to be tried."""
    left_out: int = 0
    """How many steps that are fitted are not among those."""
    covered: tuple[tuple[str, tuple[str, ...]], ...] = ()
    """(id of a look, ids of those that cover it), as was worked out when the run began."""


@dataclass(frozen=True)
class Resumed(CountingRecord):
    """A program goes on with the run file, and with these texts where they are not as before."""

    kind = "resumed"
    torn: int | None = None
    """Offset of a last line that was not written whole, where there was one."""
    format: int = 1
    """Of the records from here on."""
    plan_hash: str | None = None
    profile_text: str = ""
    script_text: str = ""
    """From here on; empty where it is as before."""
    covered: tuple[tuple[str, tuple[str, ...]], ...] = ()
    """As in Header, by the texts from here on; only where they are not as before."""


@dataclass(frozen=True)
class StepBegun(CountingRecord):
    """A step is in progress: what is sent and what comes from here on belongs to it."""

    kind = "step"
    is_synced = False
    step: str
    hash: str = ""


@dataclass(frozen=True)
class Sent(Record):
    """Bytes have been handed to the line."""

    kind = "sent"
    is_synced = False
    step: str
    data: bytes
    label: str = ""


@dataclass(frozen=True)
class Arrived(Record):
    """Bytes came from the board; they are hostile until shown by termprobe.notation."""

    kind = "received"
    is_synced = False
    step: str | None
    data: bytes
    arrived_s: float = 0.0
    """By the clock of `t`."""
    error: str = ""
    """parity, framing, overrun, break, where the port reports one."""


@dataclass(frozen=True)
class Answered(Record):
    """A step has an answer; of several the last one counts."""

    kind = "answer"
    step: str
    answer: Answer
    hash: str = ""
    """Of the step as it was asked; empty where that is not known."""
    amends: bool = False
    """It takes the place of the answer before: more has come of the same press."""
    against: ShownWithFaults | None = None
    """What was expected in place of the plan's screen, in a run that goes on with known faults."""


@dataclass(frozen=True)
class TakenBack(Record):
    """No answer to the step given so far counts."""

    kind = "taken-back"
    step: str


@dataclass(frozen=True)
class Noted(Record):
    """A remark of the builder, or of the program."""

    kind = "note"
    text: str
    step: str | None = None
    photo: KeptPhoto | None = None
    """A photo that was put to it."""


@dataclass(frozen=True)
class CautionRead(Record):
    """A person has read the caution before the step, and goes on."""

    kind = "caution"
    step: str
    text: str = ""


@dataclass(frozen=True)
class OptionSet(Record):
    """An option of the board stands here now."""

    kind = "option"
    option: str
    position: str


@dataclass(frozen=True)
class Linked(Record):
    """The run goes on over another link; right behind `resumed`, over this one."""

    kind = "linked"
    is_synced = False
    link: LinkUsed


@dataclass(frozen=True)
class LineGone(Record):
    """The line could not be used any more."""

    kind = "link-lost"
    reason: str = ""
    step: str | None = None


@dataclass(frozen=True)
class SentLate(Record):
    """Characters left later than the line, or the pause that the board demands, lets them."""

    kind = "sent-late"
    characters: int
    """All that have been sent over this link."""
    late: int
    worst_s: float
    """The longest delay in seconds."""


@dataclass(frozen=True)
class Stopped(CountingRecord):
    """The run was ended before all steps had an answer; it can be gone on with."""

    kind = "stopped"
    reason: str = ""


@dataclass(frozen=True)
class Finished(CountingRecord):
    """The end was reached."""

    kind = "finished"
    verdict: str = ""


@dataclass(frozen=True)
class Unknown(Record):
    """A record of a kind, so `called`, that this version does not know; `more` has its fields."""

    called: str
    """Its kind."""
