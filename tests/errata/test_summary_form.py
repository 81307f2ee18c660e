"""A summary is kept as plain data, and comes back just as it was."""

import json

import pytest

from helpers.batches import cause, summary
from termprobe.errata.summary_form import WRONG_SUMMARY, plain_summary, summary_from
from termprobe.errata.time_to_cause import TimeToCause


@pytest.mark.parametrize("time", [None, TimeToCause(3, 1.5, True)])
def test_it_comes_back_as_it_was(time):
    made = summary(7, "A", cause("a/1", "a/2"), failed=("field",), time=time, was_repaired=True)
    plain = json.loads(json.dumps(plain_summary(made)))
    assert "path" not in plain
    assert summary_from(plain, made.path, made.digest) == made


@pytest.mark.parametrize("plain", [{}, {"passed": 3}, {"passed": [], "failed": [], "causes": [1]}])
def test_what_is_none_is_refused(plain):
    with pytest.raises(WRONG_SUMMARY):
        summary_from(plain, "x", "y")


@pytest.mark.parametrize("name", ["script", "is_from_card"])
def test_one_that_was_kept_before_that_was_told_is_worked_out_anew(name):
    plain = json.loads(json.dumps(plain_summary(summary(7))))
    del plain[name]
    with pytest.raises(WRONG_SUMMARY):
        summary_from(plain, "x", "y")
