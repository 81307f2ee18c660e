"""The national variants of ISO 646, against the charmaps of the GNU C library by iconv."""

import gzip
import pathlib
import shutil
import subprocess

import pytest

from termprobe.errors import FileError
from termprobe.profile.variants import (
    in_ascii,
    open_codes,
    parse,
    shipped_variants,
    shown_as,
    variants,
)

PRINTING = bytes(range(0x20, 0x7F))
OPEN = bytes.fromhex("2324405b5c5d5e607b7c7d7e")  # what ISO 646 leaves open: its basic charmap
CHARMAPS = pathlib.Path("/usr/share/i18n/charmaps")
IDS = list(variants())


def by_iconv(charmap, folder):
    """Return what all printing codes show in a charmap of the GNU C library."""
    path = CHARMAPS / f"{charmap}.gz"
    from_ = charmap
    if path.exists():  # some have no converter of their own; iconv reads the charmap itself then
        plain = folder / charmap
        plain.write_bytes(gzip.decompress(path.read_bytes()))
        from_ = str(plain)
    done = subprocess.run(
        ["iconv", "-f", from_, "-t", "UTF-8"], input=PRINTING, capture_output=True
    )
    return done.stdout.decode("utf-8") if done.returncode == 0 else None


def test_twelve_codes_are_open():
    assert open_codes() == OPEN


@pytest.mark.skipif(shutil.which("iconv") is None, reason="iconv is not installed")
@pytest.mark.parametrize("name", IDS)
def test_a_variant_shows_what_its_charmap_has(name, tmp_path):
    told = by_iconv(variants()[name].charmap, tmp_path)
    if told is None:
        pytest.skip("this iconv has no such charmap")
    assert shown_as(PRINTING.decode(), name) == told


@pytest.mark.parametrize("name", IDS)
def test_what_a_variant_shows_tells_the_code_again(name):
    text = PRINTING.decode()
    assert in_ascii(shown_as(text, name), name) == text
    assert len(set(shown_as(text, name))) == len(text)


def test_a_character_that_no_code_shows_has_none():
    assert in_ascii("[Ä", "german") == "\ufffd["
    assert shown_as("[A]", "") == in_ascii("[A]", "") == "[A]"


def test_a_row_that_is_wrong_is_a_finding():
    row = shipped_variants().variants[0]
    text = f"id: x\ntitle: X\ncodes: '\"#$\"'\nvariants:\n  - {{id: a, title: A, shows: '# # #', \
charmap: {row.charmap}, source: unverified}}\n"
    with pytest.raises(FileError) as caught:
        parse(text, "some.yaml")
    (finding,) = caught.value.findings
    assert "shows of a must be 2 characters with blanks between" in finding
    with pytest.raises(FileError, match="different characters"):
        parse(text.replace("# # #", "# #"), "some.yaml")
