"""What a run has shown of a keyboard: its drawing, the suspects, and the presses they explain."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from termprobe.folding import folded
from termprobe.plan.model import KeyPress, Plan
from termprobe.profile.model import Keyboard
from termprobe.report.chord_words import no_chords_in_words
from termprobe.report.key_suspects import render
from termprobe.report.keyboard_drawing import drawing, states
from termprobe.verdict.counts import counts
from termprobe.verdict.model import FAIL, RunVerdict

if TYPE_CHECKING:
    from termprobe.diagnosis.key_conclusion import Conclusion
    from termprobe.diagnosis.probing import Probing

WIDTH = 80
FEWEST = 2
"""So many presses or more are told together."""


@dataclass(frozen=True)
class KeyFindings:
    """The keyboard whose keys were pressed, and what is concluded of what came."""

    keyboard: Keyboard
    conclusion: "Conclusion"
    probes: "tuple[Probing, ...]" = ()
    """What to do about the first suspect."""


def key_lines(
    findings: KeyFindings, plan: Plan, verdict: RunVerdict, left_out: int = 0
) -> list[str]:
    """Return the keyboard with the mark of each key, and the suspects below it, as lines.

    `left_out` is how many steps of the script are no part of the plan.
    """
    presses = [step for step in plan.steps if isinstance(step, KeyPress)]
    verdicts = {step.id: step for step in verdict.steps}
    lines = list(drawing(findings.keyboard, states(findings.keyboard, presses, verdicts)))
    lines.append("")
    no_chords = no_chords_in_words(findings.keyboard, plan)
    if no_chords:
        lines += [*folded("Chords: ", no_chords, WIDTH), ""]
    asked = {step.press.id: step.press for step in presses}
    left = untried(presses, plan, verdict, left_out)
    return [*lines, *render(findings.conclusion, asked, left).splitlines()]


def untried(presses: Sequence[KeyPress], plan: Plan, verdict: RunVerdict, left_out: int) -> int:
    """Return how many presses nothing is known of; a plan of presses alone left out some more."""
    asked = {step.id for step in presses}
    others = sum(not step.not_fitted and step.id not in asked for step in plan.steps)
    unknown = counts(step for step in verdict.steps if step.id in asked).left
    return unknown if others else unknown + left_out


def explained_presses(
    findings: KeyFindings | None, plan: Plan, verdict: RunVerdict
) -> tuple[str, ...]:
    """Return the ids of the failed presses that one suspect explains, in the order of the plan.

    There are none where no single fault explains what came, or where it is one press.
    """
    if findings is None or not findings.conclusion.explained or not findings.conclusion.suspects:
        return ()
    supports = frozenset(findings.conclusion.suspects[0].supports)
    failed = {step.id for step in verdict.steps if step.verdict == FAIL}
    presses = [step for step in plan.steps if isinstance(step, KeyPress) and step.id in failed]
    found = tuple(step.id for step in presses if step.press.id in supports)
    return found if len(found) >= FEWEST else ()
