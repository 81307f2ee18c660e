"""Requests and events."""

import dataclasses
import inspect
import typing

from helpers.bench_state import answers, course
from termprobe.session import messages
from termprobe.session.drawn_anew import Torn
from termprobe.session.messages import Judged, Quit, Ring, Trouble
from termprobe.session.stage_left import SkipStage


def records_of():
    """Return the classes that the module defines."""
    found = vars(messages).values()
    return {one for one in found if inspect.isclass(one) and one.__module__ == messages.__name__}


def test_each_record_is_frozen_and_either_a_request_or_an_event():
    requests = set(typing.get_args(messages.Request)) - {SkipStage}
    events = set(typing.get_args(messages.WorkerEvent))
    assert not requests & events
    assert requests | (events - {Torn}) | {Quit, Ring, Trouble} == records_of(), (
        "the console does these itself"
    )
    for record in records_of():
        assert dataclasses.is_dataclass(record) and record.__dataclass_params__.frozen, record


def test_what_comes_next_is_the_first_step_that_waits():
    some = answers(("hello", "as-expected"))
    assert Judged(course(some)).next_id == "supply-5v"
    assert Judged(course(some, left_open=frozenset({"supply-5v"}))).next_id == "more"
    everything = frozenset(step.id for step in course().plan.steps)
    assert Judged(course(left_open=everything)).next_id is None
