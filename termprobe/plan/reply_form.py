"""The form of a reply that differs from unit to unit, between bytes that are known."""

from typing import NamedTuple

from termprobe.notation import show_template
from termprobe.profile.vocabulary import PARAMETERS, PROGRAMMED
from termprobe.yamlvalues import Template

_PARAMETER_BYTES = range(0x30, 0x40)
"""ECMA-48 5.4: those of a control sequence, private ones included."""
_PRINTABLE = range(0x20, 0x7F)


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


class TextForm(ReplyForm):
    """What must come before and behind text that the owner of a unit has given it."""

    @property
    def in_notation(self) -> str:
        """The form as a profile writes it: `text CR`."""
        parts = (self.before, PROGRAMMED, self.behind)
        return show_template(part for part in parts if part)

    def is_complete(self, data: bytes) -> bool:
        """Return whether `data` is long enough and ends as it must; the text may be empty."""
        shortest = len(self.before) + len(self.behind)
        return len(data) >= shortest and data.endswith(self.behind)

    def allows(self, data: bytes) -> bool:
        """Return whether `data` has the form: its text is printable."""
        text = data[len(self.before) : len(data) - len(self.behind)]
        is_printable = all(code in _PRINTABLE for code in text)
        return is_printable and data == self.before + text + self.behind


def form_of(reply: Template) -> ReplyForm | None:
    """Return the form of a reply of which a part is known to the unit alone, else None."""
    if PARAMETERS in reply.slots:
        before, behind = (part for part in reply if isinstance(part, bytes))
        return ReplyForm(before, behind)
    if PROGRAMMED in reply.slots:
        known = [part for part in (b"", *reply) if isinstance(part, bytes)]
        return TextForm(b"".join(known[:-1]), known[-1])
    return None
