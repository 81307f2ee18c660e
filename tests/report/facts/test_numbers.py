"""Numbers and lists as people read them."""

from termprobe.report.facts.numbers import counted, is_or_are, listed, share_in_words


def test_a_noun_follows_its_number():
    assert (counted(1, "step"), counted(1920, "cell")) == ("1 step", "1,920 cells")


def test_what_is_not_whole_is_never_rounded_up_to_it():
    assert share_in_words(1920, 1920) == "100 %"
    assert share_in_words(99_999, 100_000) == "99.9 %"
    assert (share_in_words(0, 5), share_in_words(1, 3)) == ("0.0 %", "33.3 %")


def test_lists_end_with_and():
    assert (listed(["a"]), listed(["a", "b", "c"])) == ("a", "a, b and c")


def test_the_verb_of_a_number():
    assert (is_or_are(0), is_or_are(1), is_or_are(2)) == ("are", "is", "are")
