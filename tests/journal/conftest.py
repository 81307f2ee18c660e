"""A run file that is cut off, flipped and broken."""

import pytest

from helpers.run_files import make


@pytest.fixture(scope="module")
def sample(tmp_path_factory):
    """A run file of 40 notes, some that look like records themselves, as (bytes, texts)."""
    texts = [
        f"note {number}" + ' 0123abcd {"kind":"note"} ' * (number % 3) + "é\n\x1b[2J" * (number % 2)
        for number in range(40)
    ]
    with open(make(tmp_path_factory.mktemp("run"), *texts), "rb") as file:
        return file.read(), texts
