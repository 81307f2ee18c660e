"""The kinds of a script's steps, each with the record of the plan that it becomes."""

from collections.abc import Callable
from dataclasses import dataclass

from termprobe.plan.model import (
    Ask,
    KeyPress,
    LineCheck,
    Look,
    Measure,
    NoChords,
    NoPresses,
    Press,
    Reply,
    Step,
    Switch,
    TypedBack,
)
from termprobe.plan.presses import chord_presses, coded_presses
from termprobe.plan.readings import limited
from termprobe.profile.model import Profile
from termprobe.script.model import ScriptStep
from termprobe.yamlvalues import Text

OF_KIND: dict[str, Callable[[ScriptStep], Step]] = {
    "look": lambda step: Look(*_begun(step), glances=step.glances),
    "ask": lambda step: Ask(*_begun(step), glances=step.glances),
    "typed-back": lambda step: TypedBack(*_begun(step), word=str(step.word)),
    "reply": lambda step: Reply(*_begun(step)),
    "line-check": lambda step: LineCheck(
        *_begun(step), check=str(step.check), told_by=_pairs(step.told_by)
    ),
    "measure": lambda step: limited(Measure(*_begun(step)), step),
    "switch": lambda step: Switch(
        *_begun(step), option=str(step.option), position=str(step.position)
    ),
    "keys": lambda step: NoPresses(*_begun(step)),
    "chords": lambda step: NoChords(*_begun(step)),
}
"""Kind of a script's step: the record that it becomes, with the fields of its kind and those that
all begin with.
"""


@dataclass(frozen=True)
class Presses:
    """A script's step that stands for many presses."""

    of: Callable[[Profile], tuple[Press, ...]]
    lacks: str
    """What the profile lacks where there are none."""


PRESSES = {
    "keys": Presses(coded_presses, "no keyboard"),
    "chords": Presses(chord_presses, "no keyboard with diodes"),
}


def _begun(step: ScriptStep) -> tuple[str, str, str, str]:
    """Return id, stage (not known yet), title and question."""
    return str(step.id), "", str(step.title), str(step.question)


def _pairs(named: dict[str, Text]) -> tuple[tuple[str, str], ...]:
    return tuple((str(word), str(step)) for word, step in named.items())


def of_press(record: Step, press: Press) -> KeyPress:
    """Return the step that asks for `press`, with what `record` says of all presses."""
    return KeyPress(
        id=press.id,
        stage=record.stage,
        title=press.title,
        question=record.question,
        groups=record.groups,
        settings=record.settings,
        needs=record.needs,
        not_fitted=record.not_fitted,
        caution=record.caution,
        stop_if=record.stop_if,
        source=record.source,
        blames=record.blames,
        continues=record.continues,
        press=press,
    )
