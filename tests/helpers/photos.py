"""Pictures such as cameras write, and files that only look like them."""

import io
import struct
import zlib

from PIL import Image

ORIENTATION, GPS, MAKE = 0x0112, 0x8825, 0x010F
TURNED_LEFT = 6
"""The camera was held upright: what it wrote is to be turned right by a quarter."""
LATITUDE = b"\x01\x02"


def image(size=(64, 32)):
    """Return a picture whose left half is red and whose right half is blue."""
    made = Image.new("RGB", size, "red")
    made.paste("blue", (size[0] // 2, 0, *size))
    return made


def photo(size=(64, 32), format_="JPEG", orientation=1, quality=90):
    """Return the bytes of a picture with a place, a maker and a comment beside its pixels."""
    exif = Image.Exif()
    exif[ORIENTATION], exif[MAKE] = orientation, "Maker of nothing"
    exif.get_ifd(GPS).update({1: "N", 2: (52.0, 30.0, 0.0), 3: "E", 4: (13.0, 20.0, 0.0)})
    file = io.BytesIO()
    more = {"comment": b"at home"} if format_ == "JPEG" else {}
    image(size).save(file, format_, exif=exif, quality=quality, **more)
    return file.getvalue()


def claiming(width, height):
    """Return a PNG of a few bytes that says that it has so many pixels."""
    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    chunks = ((b"IHDR", head), (b"IDAT", zlib.compress(b"\0" * 100)), (b"IEND", b""))
    parts = [
        struct.pack(">I", len(data)) + name + data + _crc(name + data) for name, data in chunks
    ]
    return b"\x89PNG\r\n\x1a\n" + b"".join(parts)


def _crc(data):
    return struct.pack(">I", zlib.crc32(data))
