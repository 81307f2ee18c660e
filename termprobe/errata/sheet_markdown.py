"""An errata sheet as Markdown: whatever came from elsewhere is escaped. Pure."""

from collections.abc import Iterator, Sequence

from termprobe.errata.sheet import ErrataSheet, SheetItem
from termprobe.report.formats.markdown import escaped

NOTHING_FOUND = "Nothing was found that goes with the layout."


def sheet_in_markdown(sheet: ErrataSheet) -> str:
    """Return the sheet, with a line feed at its end."""
    return "\n".join(_lines(sheet)) + "\n"


def rows_of(item: SheetItem) -> Iterator[tuple[str, str]]:
    """Yield (what is told, the text) of an item, in the order in which it is read."""
    yield "Symptom", item.symptom
    yield "Affected revisions", item.revisions
    yield "Cause", item.cause
    yield "Remedy", item.remedy
    yield "How to check", item.check
    if item.mended_in:
        yield "Mended in", item.mended_in
    yield "Evidence", item.evidence


def made_from(sheet: ErrataSheet) -> str:
    """Return from how many boards of which revisions the sheet was made."""
    boards = "1 board" if sheet.boards == 1 else f"{sheet.boards} boards"
    return f"Made from the runs of {boards}; revisions: {', '.join(sheet.revisions)}"


def _lines(sheet: ErrataSheet) -> Iterator[str]:
    if sheet.warning:
        yield f"**{escaped(sheet.warning)}**"
        yield ""
    yield f"# {escaped(sheet.title)}"
    yield ""
    yield escaped(made_from(sheet)) + "."
    if not sheet.items:
        yield ""
        yield NOTHING_FOUND
    for number, item in enumerate(sheet.items, 1):
        yield ""
        yield f"## {number}. {escaped(item.title)}"
        yield ""
        for name, text in rows_of(item):
            yield f"- **{name}:** {escaped(text)}"
        yield f"- **Name:** {escaped(item.what)}"
    yield from _section("May be of the layout", sheet.unsettled)
    yield from _section("Not of the layout", sheet.others)
    if sheet.small_print:
        yield ""
        yield escaped(sheet.small_print)


def _section(title: str, texts: Sequence[str]) -> Iterator[str]:
    if texts:
        yield ""
        yield f"## {title}"
        yield ""
        for text in texts:
            yield f"- {escaped(text)}"
