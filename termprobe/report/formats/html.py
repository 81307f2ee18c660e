"""Runs as one page of HTML that needs nothing else: for paper, phones and screens."""

from collections.abc import Iterator, Sequence

from termprobe.report.facts.clipping import clipped_text
from termprobe.report.facts.numbers import counted
from termprobe.report.facts.sheet import Sheet, sheet
from termprobe.report.pages import page
from termprobe.report.record import RunReport
from termprobe.report.shown_photos import pictures_of

TEMPLATE = "report.html"


def render(reports: Sequence[RunReport]) -> str:
    """Return the reports as one page, each with sections of its own."""
    sheets = [sheet(report) for report in reports]
    title = f"{counted(len(reports), 'run')} of termprobe"
    if len(reports) == 1:
        title = f"{sheets[0].first.word}: {clipped_text(reports[0].board_name)}"
    pictures = [pictures_of(report) for report in reports]
    contents = list(_contents(sheets))
    return page(TEMPLATE, title=title, sheets=sheets, pictures=pictures, contents=contents)


def _contents(sheets: Sequence[Sheet]) -> Iterator[tuple[str, str]]:
    """Yield (id, title) of each section; of several runs only the runs themselves."""
    for number, one in enumerate(sheets, 1):
        anchor = f"run{number}"
        if len(sheets) > 1:
            yield anchor, one.first.told
            continue
        for part, title, is_there in _sections(one):
            if is_there:
                yield f"{anchor}-{part}", title


def _sections(one: Sheet) -> Iterator[tuple[str, str, bool]]:
    """Yield (end of its id, title, whether it is there) of each section."""
    yield "failed", "What failed", bool(one.first.causes)
    yield "shown", "What this run shows", True
    yield "untried", "What was not tried", True
    yield "changed", "What has changed", bool(one.changes)
    yield "suspects", "What would explain it", bool(one.suspects)
    yield "blocks", "Coverage by block", bool(one.blocks)
    yield "readings", "Readings", bool(one.readings)
    yield "keyboard", "Keyboard", one.keyboard is not None
    yield "stages", "Stage by stage", True
    yield "notes", "Notes", bool(one.notes or one.checks)
    yield "about", "What limits this report", True
