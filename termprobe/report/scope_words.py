"""How far a verdict goes, in sentences that stand below the headline."""

from collections.abc import Iterator, Sequence

from termprobe.report.headline import TRY_THE_LINE, Scope
from termprobe.verdict import model
from termprobe.verdict.model import RunVerdict

OF_CARD = (
    "Filled in from a card: nothing was on a link of this program, and what was sent, seen and "
    "measured is as it was written down by hand."
)
OF_CARD_IN_PART = (
    "Filled in from a card in part: for those answers nothing was on a link of this program, and "
    "what was sent, seen and measured is as it was written down by hand."
)
OF_PRACTICE = "Practice on a simulated board: this says nothing of a real one."


def limits(verdict: RunVerdict, scope: Scope, not_covered: Sequence[str]) -> Iterator[str]:
    """Yield what is to be known beside the headline: practice, card, line, what is not covered."""
    if scope.is_practice:
        yield OF_PRACTICE
    if scope.is_from_card:
        yield OF_CARD_IN_PART if scope.is_on_link_too else OF_CARD
    if verdict.silent:
        yield TRY_THE_LINE
    if verdict.verdict == model.PASS and not_covered:
        yield f"Not covered: {'; '.join(not_covered)}."
