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


class Predictions(NamedTuple):
    """What is offered for one look."""

    step_id: str
    found: tuple[Prediction, ...]
    """The most probable first; at least one."""

    @property
    def share(self) -> float:
        """How probable it is that one of them is what is seen."""
        return sum(one.probability for one in self.found)

    @property
    def offered(self) -> tuple[str, ...]:
        """The digests of all."""
        return tuple(one.picture for one in self.found)
