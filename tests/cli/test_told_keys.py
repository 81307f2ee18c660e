"""Keys and what came of them, in the forms in which people write them."""

import pytest

from helpers.scripts import SINGLE
from termprobe.cli.told_keys import keys_told
from termprobe.errors import UsageError


@pytest.mark.parametrize(
    "text, told",
    [
        ("A>C B>B", [(b"A", b"C"), (b"B", b"B")]),
        ("A->C, B=>D; E=F", [(b"A", b"C"), (b"B", b"D"), (b"E", b"F")]),
        ("shift A > a", [(b"A", b"a")]),
        ("shift 1 gives 1", [(b"!", b"1")]),
        ("return > nothing", [(b"\r", b"")]),
        ("Enter sends nothing", [(b"\r", b"")]),
        ("CR>LF", [(b"\r", b"\n")]),
        ("ctrl+C > C ^G>G", [(b"\x03", b"C"), (b"\x07", b"G")]),
        ("the A key comes as C", [(b"A", b"C")]),
        (",>. =>= >>>", [(b",", b"."), (b"=", b"="), (b">", b">")]),
        ("A > 41h 43h B>B", [(b"A", b"AC"), (b"B", b"B")]),
        ("C>\u00c3", [(b"C", b"\xc3")]),
        ("A twice", [(b"A", b"AA")]),
        ("A>", [(b"A", b"")]),
        ("", []),
    ],
)
def test_forms(text, told):
    assert list(keys_told(text, SINGLE)) == told


@pytest.mark.parametrize("text", ["AC", "A", "A>B C"])
def test_what_is_no_pair_is_refused(text):
    with pytest.raises(UsageError, match="--keys must be words such as A>C or CR>LF, shift A > a"):
        keys_told(text, SINGLE)


def test_a_key_that_there_is_not():
    with pytest.raises(UsageError, match='must name keys of the profile.*not "shift F9"'):
        keys_told("shift F9 > x", SINGLE)
