"""Pictures are made small and turned, keep nothing but pixels, and what is none is refused."""

import io
import random

import pytest
from PIL import Image

from helpers.photos import TURNED_LEFT, claiming, image, photo
from termprobe.photo.picture import (
    KEPT_SIDE,
    MOST_ON_PAGE,
    PictureError,
    kept_picture,
    picture_on_page,
)


def opened(picture):
    return Image.open(io.BytesIO(picture.data))


@pytest.mark.parametrize("format_", ["JPEG", "PNG", "WEBP"])
def test_nothing_is_kept_but_the_pixels(format_):
    given = photo(format_=format_)
    assert Image.open(io.BytesIO(given)).getexif()
    made = kept_picture(given)
    kept = opened(made)
    assert kept.format == "JPEG" and kept.size == (64, 32) == made[1:]
    assert not kept.getexif() and not {"exif", "comment", "icc_profile"} & set(kept.info)
    assert not [word for word in (b"Exif", b"home", b"Maker") if word in made.data]


def test_it_is_turned_as_it_was_taken():
    kept = opened(kept_picture(photo(orientation=TURNED_LEFT)))
    assert kept.size == (32, 64)
    assert kept.getpixel((16, 8))[0] > 200 and kept.getpixel((16, 56))[2] > 200


def test_a_large_one_is_made_smaller_and_keeps_its_shape():
    made = kept_picture(photo((2600, 1300), quality=30))
    assert made[1:] == (KEPT_SIDE, KEPT_SIDE // 2)


def test_one_of_endless_detail_is_small_enough_for_a_page():
    noise = random.Random(1).randbytes(900 * 700 * 3)
    file = io.BytesIO()
    Image.frombytes("RGB", (900, 700), noise).save(file, "PNG", compress_level=0)
    made = picture_on_page(file.getvalue())
    assert made.width == 480 and len(made.data) < 3 * MOST_ON_PAGE
    assert picture_on_page(photo((900, 700))).width == 640


def test_what_lets_something_through_stands_on_white():
    file = io.BytesIO()
    Image.new("RGBA", (8, 8), (0, 0, 0, 0)).save(file, "PNG")
    assert opened(kept_picture(file.getvalue())).getpixel((4, 4)) == (255, 255, 255)


@pytest.mark.parametrize(
    "data, told",
    [
        (b"", "must be a whole picture"),
        (b"\x89PNG\r\n\x1a\n", "must be a whole picture"),
        (photo()[:-300], "must be a whole picture"),
        (photo(format_="PNG")[:-60], "must be a whole picture"),
        (b"GIF89a" + bytes(40), "must be a whole picture"),
        (claiming(9000, 9000), "at most 25 million pixels as PNG, not 9000 x 9000"),
        (claiming(60000, 60000), "must be a whole picture"),
    ],
)
def test_what_is_no_picture_is_refused_in_words(data, told):
    with pytest.raises(PictureError, match=told):
        kept_picture(data)


def test_of_several_pictures_in_one_file_the_first_is_taken():
    file = io.BytesIO()
    image().save(file, "MPO", save_all=True, append_images=[Image.new("RGB", (8, 8))])
    assert kept_picture(file.getvalue())[1:] == (64, 32)


def test_damaged_ones_are_taken_or_refused_and_nothing_else(recwarn):
    chance = random.Random(3)
    for format_ in ("JPEG", "PNG", "WEBP"):
        whole = photo(format_=format_)
        for _ in range(40):
            data = bytearray(whole)
            for _ in range(chance.randint(1, 6)):
                data[chance.randrange(len(data))] = chance.randrange(256)
            try:
                made = kept_picture(bytes(data))
            except PictureError:
                continue
            assert made.width <= KEPT_SIDE
    assert not recwarn.list


def test_grey_and_palette_pictures_are_taken():
    for mode in ("L", "P", "LA", "1", "I;16"):
        file = io.BytesIO()
        source = image()
        source.convert("L" if mode == "I;16" else mode).convert(mode).save(file, "PNG")
        assert kept_picture(file.getvalue()).width == 64


@pytest.mark.parametrize("mark, kind", [(b"heic", "HEIC"), (b"mif1", "HEIC"), (b"avif", "AVIF")])
def test_a_kind_that_telephones_take_is_named_with_what_to_do(mark, kind):
    with pytest.raises(PictureError, match=f"not {kind}; convert it to JPEG, as most telephones"):
        kept_picture(b"\0\0\0\x18ftyp" + mark + b"\0\0\0\0mif1heic")
