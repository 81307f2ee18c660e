"""Over which link a run went when, and which steps were answered over it. Pure."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from termprobe.journal.added import of_sittings
from termprobe.journal.records import Answered, Header, Linked, LinkUsed, Record, Resumed, TakenBack
from termprobe.link.base import is_simulated

NOT_RECORDED = LinkUsed("", note="not recorded")
"""The link of a sitting of which an earlier version did not write it down."""


@dataclass(frozen=True)
class LinkSpan:
    """A time in which one link was in use."""

    link: LinkUsed
    start: str
    """ISO 8601."""
    end: str = ""
    steps: tuple[str, ...] = ()
    """Ids of the steps whose answer that counts was given then, in order."""

    @property
    def is_practice(self) -> bool:
        """Whether the board was a simulated one."""
        return is_simulated(self.link.name)


def link_spans(header: Header, records: Iterable[Record]) -> tuple[LinkSpan, ...]:
    """Return the links of a run in order; a link that came back within a sitting is one."""
    found = [LinkSpan(header.link or LinkUsed(""), header.at, header.at)]
    is_new = False
    for record in of_sittings(records):
        match record:
            case Resumed():
                found.append(LinkSpan(NOT_RECORDED, record.at))
                is_new = True
            case Linked(link=link) if is_new:
                found[-1] = replace(found[-1], link=link)
            case Linked(link=link) if link != found[-1].link:
                found.append(LinkSpan(link, record.at))
            case TakenBack(step=step_id):
                found = [_without(span, step_id) for span in found]
            case Answered(step=step_id):
                found = [_without(span, step_id) for span in found]
                found[-1] = replace(found[-1], steps=(*found[-1].steps, step_id))
        is_new = isinstance(record, Resumed)
        found[-1] = replace(found[-1], end=record.at or found[-1].end)
    return tuple(span for span in found if span.link != LinkUsed(""))


def _without(span: LinkSpan, step_id: str) -> LinkSpan:
    return replace(span, steps=tuple(other for other in span.steps if other != step_id))
