"""The form of a reply that differs from model to model: parameters between bytes that are known."""

from typing import NamedTuple

from termprobe.notation import show_template
from termprobe.profile.vocabulary import PARAMETERS

_PARAMETER_BYTES = range(0x30, 0x40)
"""ECMA-48 5.4: those of a control sequence, private ones included."""


class ReplyForm(NamedTuple):
    """What must come before and behind parameters that only the board knows."""

    before: bytes
    behind: bytes

    @property
    def in_notation(self) -> str:
        """The form as a profile writes it: `ESC "[" parameters "c"`."""
        return show_template((self.before, PARAMETERS, self.behind))

    def is_complete(self, data: bytes) -> bool:
        """Return whether `data` is long enough and ends as it must."""
        shortest = len(self.before) + len(self.behind) + 1
        return len(data) >= shortest and data.endswith(self.behind)

    def allows(self, data: bytes) -> bool:
        """Return whether `data` has the form.

        Its parameters are not empty and not 0 alone: that would be the request, sent back.
        """
        parameters = data[len(self.before) : len(data) - len(self.behind)]
        is_request = not parameters.strip(b"0")
        are_parameters = all(code in _PARAMETER_BYTES for code in parameters)
        return are_parameters and not is_request and data == self.before + parameters + self.behind
