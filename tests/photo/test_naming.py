"""A photo is named before the text of a note."""

import pytest

from termprobe.photo.naming import photo_in


@pytest.mark.parametrize(
    "typed, named",
    [
        ("U7 is hot", ("", "U7 is hot")),
        ("mail a@b about it", ("", "mail a@b about it")),
        ("@u7.jpg", ("u7.jpg", "")),
        (" @~/u7.jpg  U7 is hot # 3 ", ("~/u7.jpg", "U7 is hot # 3")),
        ("@'my photo.jpg' it's hot", ("my photo.jpg", "it's hot")),
        (r"@my\ photo.jpg hot", ("my photo.jpg", "hot")),
        ("@it's hot", ("it's hot", "")),
        ("@", ("", "")),
    ],
)
def test_what_is_typed_names_a_photo_and_a_text(typed, named):
    assert photo_in(typed) == named
