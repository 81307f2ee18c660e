"""What stands in a run file is read back, whatever is cut off, flipped or added."""

import json
import time
import zlib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helpers.run_files import HEADER, lines_ended, notes
from termprobe.clock import CrankedClock
from termprobe.errors import FileError
from termprobe.journal import reading
from termprobe.journal.file import Journal
from termprobe.journal.lost import LostRecords
from termprobe.journal.reading import header_in, parse, read
from termprobe.journal.records import Noted, Resumed, Sent


def test_every_cut_position_keeps_all_complete_records(sample):
    data, texts = sample
    for cut in range(len(data) + 1):
        recording = parse(data[:cut])
        complete = lines_ended(data[:cut])
        is_whole_without_its_line_feed = lines_ended(data[: cut + 1]) > complete
        kept = complete + is_whole_without_its_line_feed
        assert notes(recording) == texts[: max(0, kept - 1)]
        assert len(recording.damages) == (
            cut > 0 and data[cut - 1 : cut] != b"\n" and not is_whole_without_its_line_feed
        )


@given(st.data())
def test_one_flipped_bit_costs_at_most_one_record(sample, data):
    whole, texts = sample
    bit = data.draw(st.integers(0, 8 * len(whole) - 1))
    broken = bytearray(whole)
    broken[bit // 8] ^= 1 << bit % 8
    recording = parse(bytes(broken))
    kept = notes(recording)
    lost = [text for text in texts if text not in kept]
    assert len(lost) + (not recording.header) <= 1 and set(kept) <= set(texts)
    assert recording.damages


def test_a_flipped_line_feed_costs_no_record(sample):
    whole, texts = sample
    for offset in [offset for offset, code in enumerate(whole[:-1]) if code == 0x0A]:
        recording = parse(whole[:offset] + b"\x0b" + whole[offset + 1 :])
        assert notes(recording) == texts and recording.header and len(recording.damages) == 1


def test_damage_is_told_with_its_offset(sample):
    whole, texts = sample
    start = whole.index(b"\n", whole.index(b"note 7")) + 1
    recording = parse(whole[:start] + b"X" + whole[start + 1 :])
    size = whole.index(b"\n", start) - start
    assert recording.damages == (
        f"byte {start}: a damaged or unfinished record of {size} bytes was left out",
    )


@pytest.mark.parametrize("before", [b"", b"\n", b"put in\n"])
def test_the_header_alone_is_found_where_it_is_in_the_whole_file(sample, before):
    whole = before + sample[0]
    assert header_in(whole) == parse(whole).header is not None
    without = whole[whole.index(b"\n", len(before)) :]
    assert header_in(without) is parse(without).header is None


def test_of_a_header_no_other_record_is_read(sample, monkeypatch):
    read_lines = []
    records_in = reading._records_in
    monkeypatch.setattr(
        reading, "_records_in", lambda line: read_lines.append(line) or records_in(line)
    )
    assert header_in(sample[0]) and len(read_lines) == 1


def test_missing_and_repeated_records_are_told(sample):
    lines = sample[0].split(b"\n")
    missing = parse(b"\n".join(lines[:5] + lines[7:]))
    repeated = parse(b"\n".join(lines[:6] + [lines[2]] + lines[6:]))
    assert "record 5 must stand here, not 7" in missing.damages[0]
    assert "record 6 must stand here, not 2" in repeated.damages[0]


def lost_in(data):
    return [one.records for one in parse(data).records if isinstance(one, LostRecords)]


def test_where_records_are_missing_it_stands_how_many(sample):
    lines = sample[0].split(b"\n")
    assert lost_in(sample[0]) == []
    assert lost_in(b"\n".join(lines[:5] + lines[7:])) == [2]
    assert lost_in(b"\n".join(lines[:5] + [b"x", b"y"] + lines[7:])) == [2]
    assert lost_in(b"\n".join(lines[:6] + [lines[2]] + lines[6:])) == [None, 3]
    assert lost_in(b"\n".join([*lines[:4], b"x", *lines[4:]])) == [], "something was put in"
    assert lost_in(sample[0][:-5]) == [1], "the last line is torn"
    assert lost_in(sample[0] + bytes(100)) == [None]


def test_what_was_torn_before_the_run_went_on_is_missing(tmp_path, sample):
    path = tmp_path / "a.run.jsonl"
    path.write_bytes(sample[0][:-5])
    Journal.reopen(path, CrankedClock()).close()
    last, resumed = parse(path.read_bytes()).records[-2:]
    assert last == LostRecords(records=1) and isinstance(resumed, Resumed)


@given(st.binary(max_size=300))
def test_reading_never_raises_on_what_stands_in_the_file(data):
    recording = parse(data)
    assert recording.records == () or recording.damages


@given(
    st.lists(
        st.one_of(
            st.none(),
            st.booleans(),
            st.integers(),
            st.text(max_size=3),
            st.lists(st.integers(), max_size=2),
            st.dictionaries(
                st.sampled_from(["seq", "kind", "x"]),
                st.one_of(st.integers(), st.text(max_size=3), st.none()),
            ),
        ),
        max_size=4,
    )
)
def test_reading_never_raises_on_well_formed_lines_of_something_else(values):
    lines = [json.dumps(value).encode() for value in values]
    recording = parse(b"".join(b"%08x %s\n" % (zlib.crc32(line), line) for line in lines))
    assert len(recording.records) + len(recording.damages) >= bool(values)


def test_deeply_nested_lines_are_damage(sample):
    deep = b'{"a":' * 100_000
    assert len(parse(sample[0] + b"%08x %s\n" % (zlib.crc32(deep), deep)).damages) == 1


def test_what_was_sent_may_be_left_out_and_a_gap_is_told_all_the_same(tmp_path):
    path = tmp_path / "a.run.jsonl"
    journal = Journal.create(path, HEADER, CrankedClock())
    journal.append(Sent("a", b"x"))
    journal.append(Noted("one"))
    journal.append(Sent("a", b'{"kind":"note"}'))
    journal.append(Noted("two"))
    journal.close()
    data = path.read_bytes()
    short = parse(data, leaves_out_sent=True)
    assert [record.text for record in short.records] == ["one", "two"] and not short.damages
    lines = data.split(b"\n")
    for number in range(1, 4):
        cut = b"\n".join(lines[:number] + lines[number + 1 :])
        flipped = data.replace(lines[number], lines[number][:-2] + b"?}")
        for broken in (cut, flipped):
            assert parse(broken, leaves_out_sent=True).damages == parse(broken).damages != ()


def test_a_line_of_nothing_but_beginnings_is_read_as_fast_as_any():
    beginnings = b'00000000 {"' * 50_000
    started_s = time.process_time()
    assert len(parse(beginnings).damages) == 1
    assert time.process_time() - started_s < 1.0


def test_what_is_too_large_or_has_no_end_is_refused(monkeypatch):
    monkeypatch.setattr(reading, "MAX_BYTES", 5_000_000)
    with pytest.raises(FileError, match="at most 5,000,000 bytes, not more"):
        read("/dev/zero")
