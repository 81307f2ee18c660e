"""The report that a run leaves beside its file, as a page of HTML."""

import contextlib
import pathlib
from dataclasses import replace

from termprobe.cli.console import Console
from termprobe.cli.recorded import Recorded, load_run
from termprobe.errors import FileError, TermprobeError
from termprobe.journal.file import RUN_SUFFIX
from termprobe.report.record import RunReport

PAGE_SUFFIX = ".html"


def leave_page(recorded: Recorded, console: Console) -> None:
    """Write the report of a run beside its file, and tell where; what keeps it away is told."""
    try:
        path = write_page(recorded)
    except OSError as error:
        path = page_path(recorded.path)
        console.tell(f"No report page was written to {path} ({error.strerror}).")
        return
    console.tell(f"Report page: {path}")


def leave_page_so_far(path: pathlib.Path, console: Console) -> None:
    """Do the same for a run that ends early; one that cannot be read yet leaves none."""
    with contextlib.suppress(TermprobeError):
        leave_page(load_run(path), console)


def write_page(recorded: Recorded) -> pathlib.Path:
    """Write the report of a run beside its file; return where. Raises OSError."""
    from termprobe.report.formats.html import render  # it loads Jinja2

    path = page_path(recorded.path)
    report = report_for_page(recorded, works_out=False)
    path.write_text(render([report]), encoding="utf-8")
    return path


def report_for_page(recorded: Recorded, works_out: bool) -> RunReport:
    """Return the report as a page tells it: with coverage by block, and with its photos.

    What is not known of the blocks yet is worked out if `works_out`, else left out.
    """
    return with_photos(recorded, recorded.report_with_blocks(works_out))


def with_photos(recorded: Recorded, report: RunReport) -> RunReport:
    """Return the report of a run with its photos as a page shows them."""
    if not report.photos:
        return report
    from termprobe.photo.shown import with_pictures  # it loads Pillow

    return replace(report, photos=with_pictures(recorded.path, report.photos))


def page_path(run_file: str) -> pathlib.Path:
    """Return where the page of a run file stands: beside it, by the same name."""
    path = pathlib.Path(run_file)
    return path.with_name(path.name.removesuffix(RUN_SUFFIX) + PAGE_SUFFIX)


def write_junit(recorded: Recorded, path: str) -> None:
    """Write a run as JUnit XML to the file at `path`; raise FileError where that cannot be."""
    from termprobe.report.formats.junit import render

    try:
        pathlib.Path(path).write_text(render([recorded.report]), encoding="utf-8")
    except OSError as error:
        raise FileError(
            [f"{path}: must be a file that can be written ({error.strerror}); try another --junit"]
        ) from None
