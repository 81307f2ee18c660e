"""Each record of a run is taken once, and whatever does not go on from before is taken anew."""

from hypothesis import given
from hypothesis import strategies as st

from termprobe.journal.followed import Followed
from termprobe.journal.records import Noted


class Taken:
    """Keeps what it has taken."""

    def __init__(self):
        self.records = []

    def take(self, record):
        self.records.append(record)


def notes(count):
    return [Noted(str(number)) for number in range(count)]


def test_of_records_that_go_on_only_the_new_ones_are_taken():
    followed, records = Followed(Taken), notes(5)
    first = followed.after(records[:2])
    assert first.records == records[:2]
    assert followed.after(records) is first and first.records == records
    assert followed.after(records) is first and len(first.records) == 5


@given(st.lists(st.tuples(st.sampled_from("abc"), st.integers(0, 4)), max_size=12))
def test_it_has_always_taken_just_the_records_that_it_is_asked_after(asked):
    """Also where they are fewer than before, or those of another run."""
    followed, of_run = Followed(Taken), {name: notes(4) for name in "abc"}
    for name, count in asked:
        wanted = of_run[name][:count]
        assert all(map(_is, followed.after(wanted).records, wanted))
        assert len(followed.after(wanted).records) == len(wanted)


def _is(one, other):
    return one is other
