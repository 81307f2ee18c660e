"""How a photo is named where a note is typed. Pure."""

import io
import shlex

PHOTO_SIGN = "@"
NOTE_PROMPT = "Note (@FILE: photo)"


def photo_in(typed: str) -> tuple[str, str]:
    """Return (path of the photo, the note) of what was typed: `@FILE` may stand before the text.

    The path is empty where no photo is named. One with blanks is quoted as for a shell.
    """
    text = typed.strip()
    if not text.startswith(PHOTO_SIGN):
        return "", text
    stream = io.StringIO(text[1:])
    reader = shlex.shlex(stream, posix=True)
    reader.whitespace_split, reader.commenters = True, ""
    try:
        path = reader.get_token() or ""
    except ValueError:  # a quote that is not closed: all of it is the path
        return text[1:], ""
    return path, stream.read().strip()
