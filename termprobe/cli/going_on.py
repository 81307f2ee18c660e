"""A run that is gone on with: that it is of the same board, and over which line it was before."""

import sys
from collections.abc import Iterable

from termprobe.cli.console import Console
from termprobe.errors import UsageError
from termprobe.journal.records import BoardUnderTest, Header, Linked, LinkUsed, Record
from termprobe.notation import visible

OF_BOARD = {
    "board": "serial",
    "revision": "revision",
    "builder": "builder",
    "fitted": "fitted",
    "batch": "batch",
}
"""Each option that tells of the board: the field in which it stands."""


def refuse_other_board(known: BoardUnderTest, given: BoardUnderTest) -> None:
    """Refuse to go on with a run of the board `known` where another is `given`."""
    for option, field in OF_BOARD.items():
        wanted, told = getattr(given, field), getattr(known, field)
        if wanted and wanted != told:
            must = "must not be given"
            if told:
                must = f"must be {visible(told)}"
            raise UsageError(
                f"--{option} {must} on --resume, as the run was begun, not {visible(wanted)}; "
                "leave it out, or begin a new run for another board"
            )


def last_link(header: Header, records: Iterable[Record]) -> LinkUsed | None:
    """Return the link over which a run went last; None where it does not tell."""
    links = [record.link for record in records if isinstance(record, Linked)]
    return links[-1] if links else header.link


def other_link_in_words(before: LinkUsed | None, now: LinkUsed) -> str:
    """Return the sentence that the run goes on over another link; empty where it does not."""
    if before is None or _told(before) == _told(now):
        return ""
    return f"The run goes on over {_told(now)}; so far it was over {_told(before)}."


def tell_of_link(sentence: str) -> None:
    """Tell on standard error what is to be said of the link, where anything is."""
    if sentence:
        Console(sys.stderr).tell_paragraph(sentence)


def _told(link: LinkUsed) -> str:
    return f"{link.name} {link.format}".strip()
