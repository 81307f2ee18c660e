"""Characters that were drawn with wrong dots, enlarged: as they must be, and as they were seen."""

from collections.abc import Iterable

from termprobe.folding import folded
from termprobe.plan.dot_drawing import draw_dots, enlarged_of, wrong_dots
from termprobe.plan.model import Plan
from termprobe.terminal.dots import Enlarged
from termprobe.terminal.screen import Screen
from termprobe.verdict.model import Differing, StepVerdict

INDENT = "    "
MOST_SHOWN = 6
"""So many characters are drawn."""
MUST_BE, SEEN = "  must be", "  were seen"


def lines_on_dots(plan: Plan, failed: Iterable[StepVerdict], width: int) -> list[str]:
    """Return the drawings of the failed look that tells most of wrong dots; none without one."""
    told = [step for step in failed if _drawn(step, plan)]
    if not told:
        return []
    first = max(told, key=lambda step: len(enlarged_of(plan.step(step.id))))
    asked, drawn = enlarged_of(plan.step(first.id)), _drawn(first, plan)
    lines = ["", *folded("", f"Dots at {first.id}, # lit and . dark", width)]
    wrong = {one.character for one in drawn}
    right = [one for one in asked if one.character in wrong][:MOST_SHOWN]
    room = width - len(INDENT)
    if right:
        lines += [MUST_BE, *_indented(right, room)]
    return [*lines, SEEN, *_indented(drawn[: len(right) or MOST_SHOWN], room)]


def _indented(drawn: Iterable[Enlarged], room: int) -> list[str]:
    return [INDENT + line for line in draw_dots(tuple(drawn), room)]


def _drawn(step: StepVerdict, plan: Plan) -> tuple[Enlarged, ...]:
    """Return the characters that were drawn wrong at a step, those that it asks for first."""
    if not isinstance(step.because, Differing) or step.id not in plan.index:
        return ()
    screen = Screen((), None, misdrawn=step.because.misdrawn)
    return wrong_dots(screen, enlarged_of(plan.step(step.id)))
