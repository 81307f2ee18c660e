"""Why a step is the one to ask next."""

from enum import Enum, auto


class WhyNext(Enum):
    """The reason, as far as it is to be told."""

    TELLS_MOST = auto()
    """Of all steps that can be asked it is expected to tell most."""
    TELLS_MOST_AGAIN = auto()
    """So it is, but has been answered: it is to be asked once more."""
    HANGS = auto()
    """The cause hangs on the answer that it has."""
    AGAINST = auto()
    """The answer that it has stands alone against the cause that leads."""
