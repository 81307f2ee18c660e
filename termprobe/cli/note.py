"""`termprobe note`: adds a note, and a photo to it, to a run file afterwards."""

import argparse
import contextlib
import sys

from termprobe.cli.console import Console
from termprobe.cli.recorded import Recorded, load_run
from termprobe.cli.report_page import leave_page
from termprobe.clock import SystemClock
from termprobe.errors import EXIT_PASSED, UsageError
from termprobe.findings import nearest
from termprobe.journal.added import Added
from termprobe.journal.file import Journal
from termprobe.journal.records import Noted
from termprobe.notation import visible
from termprobe.photo.naming import PHOTO_SIGN, photo_in

WHOLE_RUN = "-"
"""Stands for the step where a note is of none."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the words of this command to `parser`."""
    parser.add_argument("run", metavar="RUN", help="run file")
    parser.add_argument(
        "step",
        metavar="STEP",
        help=f"id of the step that the note is of, {WHOLE_RUN} for the run as a whole",
    )
    parser.add_argument(
        "text",
        metavar="TEXT",
        nargs="*",
        help=f"what is noted; {PHOTO_SIGN}FILE before it is a photo, as with --photo",
    )
    parser.add_argument(
        "--photo",
        metavar="FILE",
        help="a picture (JPEG, PNG, WebP) that is put to the note: a smaller copy without "
        "metadata, such as the place, is kept beside the run file and shown in its page",
    )


def run(arguments: argparse.Namespace) -> int:
    """Add the note, make the page of the run anew, and say what was done."""
    text, photo = " ".join(arguments.text).strip(), arguments.photo
    if not photo:
        photo, text = photo_in(text)
    if not text and not photo:
        raise UsageError("a note must have a TEXT or a --photo FILE, and neither was given")
    step = _step(load_run(arguments.run), arguments.step)
    _add(arguments.run, step, text, photo)
    leave_page(load_run(arguments.run), Console(sys.stderr))
    return EXIT_PASSED


def _step(recorded: Recorded, wanted: str) -> str | None:
    """Return the id of the step that is meant; None for the run as a whole."""
    if wanted == WHOLE_RUN:
        return None
    if wanted not in recorded.plan.index:
        near = nearest(wanted, list(recorded.plan.index))
        raise UsageError(
            f"STEP must be a step of {visible(recorded.path)}, or {WHOLE_RUN} for the whole run, "
            f"not {visible(wanted)!r}{near}; `termprobe script show {recorded.plan.script_id}` "
            "lists them"
        )
    return wanted


def _add(path: str, step: str | None, text: str, photo: str | None) -> None:
    """Write the note where nobody else writes the run file, and say what was written."""
    from termprobe.photo.keeping import forget_photo, keep_photo  # it loads Pillow

    kept = None
    if photo:
        kept = keep_photo(photo, path)
    try:
        with contextlib.closing(Journal.reopen(path, SystemClock(), Added())) as journal:
            journal.append(Noted(text, step, kept))
    except BaseException:
        if kept is not None:
            forget_photo(kept, path)
        raise
    print(f"Noted in {visible(path)}.")
    if kept is not None:
        size = f"{kept.width} x {kept.height} pixels, {kept.size_bytes / 1000:.0f} kB"
        print(f"Photo: {visible(kept.name)} beside it ({size}); nothing but its pixels is kept.")
