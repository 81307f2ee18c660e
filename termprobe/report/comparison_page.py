"""Two runs side by side as a page of text, and as a page of HTML. Pure."""

from collections.abc import Iterator

from termprobe.folding import folded
from termprobe.report.comparison import WHAT_BECAME, PhotosCompared, RunComparison, StepCompared
from termprobe.report.facts.clipping import clipped
from termprobe.report.facts.pictures import ScreenFacts
from termprobe.report.pages import page
from termprobe.report.shown_photos import Pictures
from termprobe.report.text_screens import BEFORE, ROWS_SHOWN, WINDOW, shown_cells

WIDTH = 80
TEMPLATE = "compare.html"
PHOTOS, WHOLE_RUN = "Photos", "The run as a whole"
NO_PICTURES: tuple[Pictures, Pictures] = ({}, {})


def comparison_page(found: RunComparison) -> str:
    """Return the page of text, with a line feed at its end."""
    return "\n".join(_lines(found)) + "\n"


def comparison_html(found: RunComparison, pictures: tuple[Pictures, Pictures] = NO_PICTURES) -> str:
    """Return the page of HTML, with the photos of the first and of the second run."""
    shown = clipped(found)
    groups = [(became, words, shown.of(became)) for became, words in WHAT_BECAME.items()]
    present = [(f"part{number}", *group) for number, group in enumerate(groups, 1) if group[2]]
    contents = [(anchor, words) for anchor, _, words, _ in present]
    if found.photos:
        contents.append(("photos", PHOTOS))
    return page(
        TEMPLATE,
        found=shown,
        summary=_summary(shown),
        groups=present,
        contents=contents,
        photos_heading=PHOTOS,
        whole_run=WHOLE_RUN,
        pictures=pictures,
    )


def _summary(found: RunComparison) -> str:
    """Return how many steps became what, in one line."""
    counts = [(len(found.of(became)), words) for became, words in WHAT_BECAME.items()]
    told = [f"{count} {words[0].lower()}{words[1:]}" for count, words in counts if count]
    if not told:
        return f"Nothing has changed: {found.same} steps have the same verdict"
    return f"{'; '.join(told)}; {found.same} are the same"


def _lines(found: RunComparison) -> Iterator[str]:
    yield from folded("First   ", found.first, WIDTH)
    yield from folded("Second  ", found.second, WIDTH)
    yield from folded("", f"{_summary(found)}.", WIDTH)
    if found.fields:
        yield ""
        yield "What is not the same about the runs"
    for name, first, second in found.fields:
        yield from folded(f"  {name:<9} ", f"{first} -> {second}", WIDTH)
    for became, words in WHAT_BECAME.items():
        steps = found.of(became)
        if steps:
            yield ""
            yield words
        for step in steps:
            yield from _step(step)
    if found.photos:
        yield ""
        yield PHOTOS
    for one in found.photos:
        yield from _photos(one)


def _photos(compared: PhotosCompared) -> Iterator[str]:
    """Yield what was noted with each photo, and the name of its file."""
    yield from folded("  ", compared.step or WHOLE_RUN, WIDTH)
    for note in compared.first:
        yield from folded("    first:  ", f"{note.time}: {note.told}", WIDTH)
    for note in compared.second:
        yield from folded("    second: ", f"{note.time}: {note.told}", WIDTH)


def _step(step: StepCompared) -> Iterator[str]:
    verdicts = " -> ".join(filter(None, (step.first, step.second)))
    yield from folded("  ", f"{step.id}: {step.title} ({verdicts})", WIDTH, 4)
    if step.screen is not None:
        yield from _screens(step.screen)


def _screens(screen: ScreenFacts) -> Iterator[str]:
    """Yield the rows that differ of both screens, one below the other, with marks below."""
    assert screen.seen is not None
    rows = list(dict.fromkeys(stretch.row for stretch in screen.differing))
    for row in rows[:ROWS_SHOWN]:
        yield from _row(screen, row)
    if len(rows) > ROWS_SHOWN:
        yield f"    and in {len(rows) - ROWS_SHOWN} more rows"
    if screen.cursor != screen.cursor_seen:
        yield f"    cursor {screen.cursor} -> {screen.cursor_seen} (row, column, from 0)"


def _row(screen: ScreenFacts, row: int) -> Iterator[str]:
    """Yield a row of both screens, or the part of it in which the first difference stands."""
    assert screen.seen is not None
    first = min(stretch.column for stretch in screen.differing if stretch.row == row)
    start = 0
    if screen.columns > WINDOW:
        start = max(0, min(first - BEFORE, screen.columns - WINDOW))
    part = slice(start, start + WINDOW)
    yield f"    row {row}, from column {start}"
    yield f"      first  |{shown_cells(screen.expected[row][part])}|"
    yield f"      second |{shown_cells(screen.seen[row][part])}|"
    yield f"              {screen.marked_rows[row][part]}".rstrip()
