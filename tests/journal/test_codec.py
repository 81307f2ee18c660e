"""Records survive JSON, whatever they hold.

What a later version adds is kept; what is no record is refused.
"""

import dataclasses
import json
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from termprobe.journal.codec import RecordError, decode, encode
from termprobe.journal.kinds import RECORD_KINDS
from termprobe.journal.records import (
    Answer,
    Answered,
    BoardUnderTest,
    Header,
    Heard,
    LinkUsed,
    Noted,
    Unknown,
)
from termprobe.link.base import Received


def test_a_reading_over_the_range_of_its_instrument_is_a_word_in_json():
    record = Answered("rail", Answer(value=math.inf))
    document = json.loads(json.dumps(encode(record), allow_nan=False))
    assert document["answer"] == {"value": "OL"} and decode(document) == record
    with pytest.raises(RecordError, match="value must be float, not str"):
        decode(document | {"answer": {"value": "high"}})


JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.text(max_size=4),
    lambda inner: (
        st.lists(inner, max_size=2) | st.dictionaries(st.text(max_size=4), inner, max_size=2)
    ),
    max_leaves=4,
)
REAL = st.floats(allow_nan=False, allow_infinity=False)
TEXT = st.text(max_size=5)
RECEIVED = st.builds(Received, REAL, st.binary(max_size=3), TEXT)
HEARD = st.builds(Heard, REAL, st.integers(), st.lists(RECEIVED, max_size=3).map(tuple))
BY_TYPE = {
    Received: RECEIVED,
    Heard: HEARD,
    Answer: st.builds(
        Answer,
        word=st.none() | TEXT,
        seen=st.none() | st.lists(TEXT, max_size=2).map(tuple),
        cursor=st.none() | st.tuples(st.integers(), st.integers()),
        bells=st.none() | st.integers(),
        value=st.none() | REAL,
        data=st.none() | st.binary(max_size=3),
        heard=st.none() | HEARD,
        note=TEXT,
        observer=TEXT,
        strength=st.integers(),
    ),
    BoardUnderTest: st.builds(BoardUnderTest, TEXT, TEXT, TEXT, TEXT, TEXT),
    LinkUsed: st.builds(LinkUsed, TEXT, TEXT, TEXT),
}
for known, strategy in BY_TYPE.items():
    st.register_type_strategy(known, strategy)


def any_record(known):
    """Return a strategy of records of that class, no field of a later version in it."""
    hints = {
        "t": REAL,
        "arrived_s": REAL,
        "worst_s": REAL,
        "seconds": REAL,
        "chosen": st.none() | st.lists(TEXT, max_size=2).map(tuple),
        "more": st.just({}),
    }
    names = {field.name for field in dataclasses.fields(known)}
    return st.builds(known, **{name: hint for name, hint in hints.items() if name in names})


RECORDS = st.deferred(lambda: st.one_of([any_record(known) for known in RECORD_KINDS.values()]))
"""Made when a test asks for it, since that takes a second."""


@given(RECORDS)
def test_a_record_is_what_it_was_after_json(record):
    assert decode(json.loads(json.dumps(encode(record)))) == record


@given(RECORDS, st.dictionaries(st.sampled_from(["later", "unheard-of", "more"]), JSON))
def test_fields_of_a_later_version_are_kept_and_passed_on(record, later):
    document = json.loads(json.dumps(encode(record))) | later
    assert encode(decode(document)) == document and decode(document).more == later


@given(st.dictionaries(st.sampled_from(["later", "step", "data"]), JSON))
def test_a_kind_of_a_later_version_is_kept_and_passed_on(later):
    document = {"seq": 3, "t": 1.5, "at": "2000-01-01", "kind": "weather", **later}
    record = decode(document)
    assert isinstance(record, Unknown) and record.called == "weather"
    assert (record.seq, record.t, record.at) == (3, 1.5, "2000-01-01")
    assert encode(record) == document


def test_fields_within_an_answer_are_kept_too():
    document = encode(Answered("a", Answer("differs", heard=Heard(9600.0, 7)), seq=1))
    document["answer"]["heard"]["mood"] = "calm"
    document["answer"]["doubt"] = [1]
    record = decode(document)
    assert record.answer.heard.more == {"mood": "calm"} and record.answer.more == {"doubt": [1]}
    assert encode(record) == document


def test_what_is_usual_is_left_out():
    assert set(encode(Noted("x", seq=1))) == {"seq", "t", "at", "kind", "text"}


@pytest.mark.parametrize(
    ("document", "what"),
    [
        ({"kind": "note"}, "text must be given"),
        ({"kind": "note", "text": 5}, "text must be str, not int"),
        ({"kind": "note", "text": "a", "seq": "1"}, "seq must be int, not str"),
        ({"kind": "note", "text": "a", "t": True}, "t must be float, not bool"),
        ({"kind": "sent", "step": "a", "data": "0g"}, "data must be hexadecimal"),
        ({"kind": "sent", "step": "a", "data": 7}, "data must be hexadecimal"),
        ({"kind": "answer", "step": "a", "answer": []}, "answer must be an object"),
        ({"kind": "answer", "step": "a", "answer": {"cursor": [1]}}, "cursor must be a list of 2"),
        ({"kind": "answer", "step": "a", "answer": {"seen": "rows"}}, "seen must be a list"),
        (
            {
                "kind": "answer",
                "step": "a",
                "answer": {"heard": {"speed_baud": 1, "data_bits": 7, "events": [[0, "41"]]}},
            },
            "events must be a list of 3",
        ),
        ({"kind": None}, "called must be str, not NoneType"),
    ],
)
def test_what_is_no_record_is_refused_by_field(document, what):
    with pytest.raises(RecordError, match=what):
        decode(document)


def test_whole_numbers_are_read_where_a_number_is_wanted():
    assert decode({"kind": "received", "step": None, "data": "41", "arrived_s": 2}).arrived_s == 2.0


def test_a_header_always_tells_its_format():
    assert encode(Header(BoardUnderTest("1"), format=2))["format"] == 2
