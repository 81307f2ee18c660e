"""An errata sheet as one page of HTML, with a drawing of the batch. Pure."""

from collections.abc import Iterator

from termprobe.errata.batch import Batch
from termprobe.errata.batch_chart import chart_of
from termprobe.errata.origin import BatchFindings
from termprobe.errata.sheet import ErrataSheet
from termprobe.errata.sheet_markdown import NOTHING_FOUND, made_from, rows_of
from termprobe.report.facts.clipping import clipped
from termprobe.report.pages import page

TEMPLATE = "errata.html"


def sheet_in_html(sheet: ErrataSheet, batch: Batch, findings: BatchFindings) -> str:
    """Return the page."""
    shown = clipped(sheet)
    items = [(item, tuple(rows_of(item))) for item in shown.items]
    return page(
        TEMPLATE,
        sheet=shown,
        made_from=made_from(shown),
        items=items,
        nothing_found=NOTHING_FOUND,
        chart=clipped(chart_of(batch, findings)),
        contents=list(_contents(shown)),
    )


def _contents(sheet: ErrataSheet) -> Iterator[tuple[str, str]]:
    """Yield (id, title) of each section."""
    for number, item in enumerate(sheet.items, 1):
        yield f"item{number}", f"{number}. {item.title}"
    if sheet.unsettled:
        yield "unsettled", "May be of the layout"
    if sheet.others:
        yield "others", "Not of the layout"
    yield "batch", "The batch"
