"""The log of a line is read back as it was written, and what is no log is named by its line."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from termprobe.errors import FileError
from termprobe.line.bursts import CAME, SENT, Burst
from termprobe.line.log import bytes_of, log_line, read_log

bursts = st.builds(
    Burst,
    st.integers(0, 10**9).map(lambda micro: micro / 10**6),
    st.sampled_from([SENT, CAME]),
    st.binary(min_size=1, max_size=40),
    st.sampled_from(["", "parity", "break"]),
    st.just(0.0),
)


@given(st.lists(bursts))
def test_what_is_written_is_read_back(made):
    lines = [log_line(burst) + "\n" for burst in made]
    assert all(line.isascii() and line[:-1].isprintable() for line in lines)
    assert list(read_log("x", lines)) == made
    assert bytes_of(made, SENT) == b"".join(one.data for one in made if one.way == SENT)


@pytest.mark.parametrize(
    "line",
    ["HELLO", "1.0 sent", '1.0 seen "A"', '1.0 sent "A', "1.0 sent ESX", "1 sent 41h \x1b[2J"],
)
def test_other_lines_are_refused_by_their_number_and_shown_harmless(line):
    with pytest.raises(FileError) as refused:
        list(read_log("a.log", ["# a remark", "", line]))
    assert str(refused.value).startswith("a.log:3: ") and "\x1b" not in str(refused.value)
