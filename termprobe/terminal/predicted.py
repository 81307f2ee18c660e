"""Wrong screens that are predicted, for a person to choose from."""

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


class RegionAsked(NamedTuple):
    """A question about a part of a screen that differs: is anything in it wrong?"""

    words: str
    """The region, as `odd rows` or `row 0`."""
    if_wrong: "RegionAsked | None" = None
    if_right: "RegionAsked | None" = None
    """What is asked next by the answer; None for nothing."""

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
