"""The photos of a run as a page shows them: small."""

from collections.abc import Iterable
from dataclasses import replace

from termprobe.photo.found import FoundPhoto, beside
from termprobe.photo.picture import PictureError, picture_on_page

NOT_SHOWN = "cannot be shown: it is no picture"


def with_pictures(run_file: str, found: Iterable[FoundPhoto]) -> tuple[FoundPhoto, ...]:
    """Return the photos of `run_file`, each that is whole with its picture for a page."""
    return tuple(_with_picture(run_file, one) for one in found)


def _with_picture(run_file: str, found: FoundPhoto) -> FoundPhoto:
    if found.trouble:
        return found
    try:
        data = beside(run_file, found.kept).read_bytes()
        return replace(found, picture=picture_on_page(data).data)
    except (OSError, PictureError):
        return replace(found, trouble=NOT_SHOWN)
