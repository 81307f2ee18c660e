"""Wrong screens that are predicted, for a person to choose from."""

from collections.abc import Sequence
from typing import NamedTuple

from termprobe.terminal.screen import Screen


class Prediction(NamedTuple):
    """One screen that is not as it must be."""

    picture: str
    """The digest under which it stands in run files."""
    screen: Screen
    sentence: str
    """How it differs, in short."""
    probability: float
    """That this is what is seen, where something differs."""


EVERYWHERE = "everywhere"
"""The region that a screen is as a whole."""


class RegionAsked(NamedTuple):
    """A question about a part of a screen that differs: is anything in it wrong?"""

    words: str
    """The region, as `odd rows` or `row 0`."""
    if_wrong: "RegionAsked | None" = None
    if_right: "RegionAsked | None" = None
    """What is asked next by the answer; None for nothing."""

    @property
    def question(self) -> str:
        """What is asked of the builder."""
        if self.words == EVERYWHERE:
            return "Is any character wrong, and not only the cursor or the bell?"
        if self.words.endswith("half"):
            return f"Is anything wrong in the {self.words}?"
        if self.words.startswith(("odd", "even")):
            return f"Is anything wrong in the {self.words}, counted from 0?"
        return f"Is anything wrong in {self.words}, counted from 0?"

    def after(self, is_wrong: bool) -> "RegionAsked | None":
        """Return what is asked next."""
        if is_wrong:
            return self.if_wrong
        return self.if_right


class Predictions(NamedTuple):
    """What is offered for one look."""

    step_id: str
    found: tuple[Prediction, ...]
    """The most probable first; at least one."""
    region: RegionAsked | None = None
    """What to ask of regions where none of them is seen; None where that tells nothing."""

    @property
    def share(self) -> float:
        """How probable it is that one of them is what is seen."""
        return sum(one.probability for one in self.found)

    @property
    def offered(self) -> tuple[str, ...]:
        """The digests of all."""
        return tuple(one.picture for one in self.found)

    def region_after(self, told: Sequence[tuple[str, bool]]) -> RegionAsked | None:
        """Return what is asked of regions once so much was `told` of those before."""
        asked = self.region
        for _, is_wrong in told:
            asked = asked and asked.after(is_wrong)
        return asked
