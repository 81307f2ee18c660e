"""A run file whose end is missing lets no run pass."""

import pytest

from helpers.bench import look, plan
from termprobe.journal.records import (
    AS_EXPECTED,
    DIFFERS,
    Answer,
    Answered,
    Finished,
    Noted,
    Resumed,
    Stopped,
    TakenBack,
)
from termprobe.verdict.ending import as_filed, has_end
from termprobe.verdict.judge import judge

PLAN = plan(look("a"))
GIVEN = Answered("a", Answer(AS_EXPECTED))


@pytest.mark.parametrize(
    "records, is_ended",
    [
        ([], True),
        ([Noted("a remark")], True),
        ([GIVEN], False),
        ([GIVEN, Finished("pass")], True),
        ([GIVEN, Stopped("by the builder")], True),
        ([GIVEN, Finished("pass"), Resumed()], True),
        ([GIVEN, Finished("pass"), Resumed(), GIVEN], False),
        ([GIVEN, Finished("pass"), TakenBack("a")], False),
    ],
)
def test_an_answer_is_followed_by_an_end(records, is_ended):
    assert has_end(records) == is_ended


def test_without_an_end_a_pass_is_incomplete_and_a_fail_stands():
    failed = Answered("a", Answer(DIFFERS))
    for records, verdict in (
        ([GIVEN], "incomplete"),
        ([GIVEN, Finished("pass")], "pass"),
        ([failed], "fail"),
    ):
        assert as_filed(judge(PLAN, records), records).verdict == verdict
