"""Pictures made small, with nothing but their pixels, and turned as they were taken. Pure.

What a camera writes beside the pixels, such as the place, is not carried over: the pixels are put
into a new picture, and that is written.
"""

import io
import struct
import warnings
import zlib
from typing import NamedTuple

from PIL import Image, ImageOps

MOST_MILLION_PIXELS = {"JPEG": 65, "PNG": 25, "WEBP": 25}
"""The formats that are taken, each with what fits in some 400 MB: JPEG alone is read smaller."""
KEPT_SIDE, KEPT_QUALITY = 1280, 82
"""Pixels of the longer side of a photo beside a run file, and how well it is kept, of 100."""
ON_PAGES = ((640, 65), (640, 50), (480, 45))
"""(longer side, quality) of one in a page: the first that is small enough, else the last."""
MOST_ON_PAGE = 36_000
"""Bytes that are small enough."""
PAPER = "white"
"""What stands behind a picture that lets something through."""
OTHER_KINDS = {
    "HEIC": (b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"mif1", b"msf1"),
    "AVIF": (b"avif", b"avis"),
}
"""Pictures of other kinds that telephones take, and their marks in the first box of the file."""
MARK_AT = slice(4, 12)
_BROKEN = (OSError, ValueError, SyntaxError, EOFError, TypeError, LookupError, MemoryError) + (
    struct.error,
    zlib.error,
    Image.DecompressionBombError,
    Image.DecompressionBombWarning,
)
"""What bytes that are no whole picture make the reader raise."""


class BarePicture(NamedTuple):
    """A picture as JPEG, with its size in pixels."""

    data: bytes
    width: int
    height: int


class PictureError(ValueError):
    """Bytes that cannot be taken for a picture; says what must be."""


def kept_picture(data: bytes) -> BarePicture:
    """Return a picture as it stands beside a run file; raise PictureError where `data` is none."""
    return _smaller(data, KEPT_SIDE, KEPT_QUALITY)


def picture_on_page(data: bytes) -> BarePicture:
    """Return a picture as it stands in a page; raise PictureError where `data` is none."""
    for side, quality in ON_PAGES:
        made = _smaller(data, side, quality)
        if len(made.data) <= MOST_ON_PAGE:
            break
    return made


def _smaller(data: bytes, side: int, quality: int) -> BarePicture:
    """Return the picture in `data` with no side longer than `side` pixels."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # what is odd in metadata is of no account
        warnings.simplefilter("error", Image.DecompressionBombWarning)
        try:
            pixels = _pixels(data, side)
        except PictureError:
            raise
        except _BROKEN:
            raise PictureError(_refused(data)) from None
    file = io.BytesIO()
    pixels.save(file, "JPEG", quality=quality, optimize=True)
    return BarePicture(file.getvalue(), *pixels.size)


def _refused(data: bytes) -> str:
    """Return what is wrong with bytes that cannot be read."""
    for kind, marks in OTHER_KINDS.items():
        if any(data[MARK_AT] == b"ftyp" + mark for mark in marks):
            return (
                f"must be a picture as JPEG, PNG or WebP, not {kind}; convert it to JPEG, as most "
                "telephones and picture programs do where you share or export it"
            )
    return (
        "must be a whole picture as JPEG, PNG or WebP, and cannot be read as one; save it anew as "
        "JPEG"
    )


def _pixels(data: bytes, side: int) -> Image.Image:
    """Return a new picture of the pixels in `data`, and of nothing else."""
    image: Image.Image = Image.open(io.BytesIO(data), formats=tuple(MOST_MILLION_PIXELS))
    width, height = image.size
    format_ = image.format or ""
    if format_ not in MOST_MILLION_PIXELS:
        format_ = "JPEG"  # of several pictures in one file, as some cameras write
    most = MOST_MILLION_PIXELS[format_]
    if width * height > most * 1_000_000:
        raise PictureError(
            f"must be a picture of at most {most} million pixels as {format_}, "
            f"not {width} x {height}; save it smaller"
        )
    if image.mode not in ("RGB", "RGBA", "L"):
        image = image.convert("RGBA")
    image.thumbnail((side, side))
    turned = ImageOps.exif_transpose(image)
    made = Image.new("RGB", turned.size, PAPER)
    mask = None
    if turned.mode == "RGBA":
        mask = turned
    made.paste(turned, mask=mask)
    return made
