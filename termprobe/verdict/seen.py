"""What was seen of a screen against what it must show. Pure."""

from collections.abc import Sequence
from dataclasses import replace

from termprobe.journal.records import EYES, Answer
from termprobe.terminal.dots import Misdrawn
from termprobe.terminal.screen import Screen, differences
from termprobe.verdict import evidence
from termprobe.verdict.model import FAIL, PASS, Differing, StepVerdict

REACH = 4
"""So many times as high and as wide as the screen is what is compared of what was seen."""


def of_screen(
    verdict: StepVerdict, expected: Screen, answer: Answer, said: str | None
) -> StepVerdict:
    """Return the verdict by what an answer that tells of a screen has seen of it, and `said`."""
    assert answer.seen is not None
    differs = differences(expected.rows, _within_reach(answer.seen, expected))
    cursor = bells = None
    if answer.cursor and expected.cursor and answer.cursor != expected.cursor:
        cursor = expected.cursor, answer.cursor
    if answer.bells is not None and answer.bells != expected.bells:
        bells = expected.bells, answer.bells
    misdrawn: tuple[Misdrawn, ...] = ()
    if answer.misdrawn is not None and answer.misdrawn != expected.misdrawn:
        misdrawn = answer.misdrawn
    if not (differs or cursor or bells or misdrawn) and said != FAIL:
        return replace(verdict, verdict=PASS)
    is_whole = answer.strength > EYES or bool(answer.chosen)
    return replace(
        verdict,
        verdict=FAIL,
        because=Differing(len(differs), cursor, bells, is_whole, misdrawn),
        differs=differs,
        evidence=evidence.of_screen(expected.rows, differs, is_whole),
    )


def _within_reach(seen: Sequence[str], expected: Screen) -> list[str]:
    """Return the rows without what no board can have shown: a broken file may hold millions."""
    width = max(map(len, expected.rows), default=0)
    return [row[: REACH * width] for row in seen[: REACH * len(expected.rows)]]
