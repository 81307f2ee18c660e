"""The designer's words for an errata sheet: read where the file is, begun where it is not."""

import pathlib
import sys

from termprobe import yamlfile
from termprobe.errata.remedies import Remedy, begun_file, entry_in_yaml, remedies_in
from termprobe.errata.sheet import ErrataSheet
from termprobe.errors import FileError
from termprobe.notation import visible


def known_remedies(path: str | None) -> tuple[Remedy, ...]:
    """Return the entries of the file at `path`; none where there is no such file.

    Raises FileError where it is there and cannot be used.
    """
    if path is None or not pathlib.Path(path).exists():
        return ()
    return remedies_in(yamlfile.read_text(path), path)


def tell_of_items(sheet: ErrataSheet, path: str) -> None:
    """Begin the file with the items of the sheet; where it is there, say which it has not.

    A file that is there is never changed. Raises FileError where it cannot be begun.
    """
    items = [(item.what, item.title) for item in sheet.without_remedy if item.is_seen]
    if not pathlib.Path(path).exists():
        _begin(path, begun_file(items))
        print(f"Begun {visible(path)}: write symptom, cause and remedy there.", file=sys.stderr)
        return
    known = {entry.what for entry in known_remedies(path)}
    missing = [item for item in items if item[0] not in known]
    if missing:
        print(f"{visible(path)} has no entry for what follows; add it there:", file=sys.stderr)
    for what, title in missing:
        sys.stderr.write(entry_in_yaml(what, title))


def _begin(path: str, text: str) -> None:
    try:
        with open(path, "x", encoding="utf-8") as file:
            file.write(text)
    except OSError as error:
        raise FileError(
            [f"{path}: must be a file that can be written ({error.strerror}); try another name"]
        ) from None
