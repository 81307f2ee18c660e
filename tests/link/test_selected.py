"""A line that takes no byte is held."""

import pytest

from helpers.lines import opened
from termprobe.errors import LinkError
from termprobe.link import selected


def test_a_line_that_takes_nothing_is_an_error_that_says_so(board, monkeypatch):
    monkeypatch.setattr(selected, "WRITE_LIMIT_S", 0.05)
    with opened(board.path) as link, pytest.raises(LinkError, match="takes no more"):
        for _ in range(100):
            link.write(bytes(4096))
