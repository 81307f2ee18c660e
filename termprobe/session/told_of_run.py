"""What the run alone carries out of requests: remarks, single groups of a step, looks again."""

from collections.abc import Callable

from termprobe.errors import FileError
from termprobe.journal.asked_again import AskedAgain
from termprobe.photo.keeping import keep_photo
from termprobe.runner.attention import Attention
from termprobe.runner.run import Run
from termprobe.session.messages import Note, Send, SendGroups, Told

PHOTO_KEPT = "noted, with the photo as {}"


def note(run: Run, attention: Attention, request: Note, post: Callable[[Told], None]) -> None:
    """Write down a remark, and a photo to it if one is named; tell what became of that.

    The words stand where the photo cannot be taken. One of a wrong screen that is shown on purpose
    is marked as such.
    """
    step = None if request.step_id is None else run.plan.step(request.step_id)
    if not request.photo:
        attention.note(request.text, step)
        return
    try:
        kept = keep_photo(request.photo, run.journal.path)
    except FileError as error:
        done = "not noted"
        if request.text:
            attention.note(request.text, step)
            done = "noted without the photo"
        post(Told(f"{done}: {error}"))
        return
    attention.note(request.text, step, kept)
    post(Told(PHOTO_KEPT.format(kept.name)))


def ask_again(run: Run, request: Send) -> None:
    """Write down that a step which is sent was answered, and is asked once more, where it is so."""
    if request.is_again:
        run.decide(AskedAgain(request.step_id))


def send_groups(run: Run, request: SendGroups) -> None:
    """Send groups of the step that is played."""
    if run.step is None:
        return
    for group in request.groups:
        run.send_group(run.step, group)
