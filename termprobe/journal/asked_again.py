"""Record of a look that is asked once more, since the cause hangs on what was answered to it."""

from dataclasses import dataclass

from termprobe.journal.known_fault import FaultNamed
from termprobe.journal.records import Record


@dataclass(frozen=True)
class AskedAgain(Record):
    """The next answer to the step is a further reading of the same screen.

    The answers before it count beside it as evidence; the verdict is by the last.
    """

    kind = "asked-again"
    step: str


OnCause = AskedAgain | FaultNamed
"""What is written down on the way to the cause, and once it is named."""
