"""A key is equal where it holds the same record, not one that is alike."""

from termprobe.profile.itself import Itself


def test_only_the_same_record_is_the_same_key():
    record = {"a": 1}
    assert Itself(record) == Itself(record) and hash(Itself(record)) == hash(Itself(record))
    assert Itself(record) != Itself(dict(record)) and Itself(record) != record
    assert {Itself(record): "kept"}[Itself(record)] == "kept"
