"""The nearest phrase to words that are not understood."""

from termprobe.diagnosis.nearest_phrase import LONGEST, nearest_phrase

KNOWN = ("left dot column missing", "odd rows", "row 5")


def near(words, understood=("right dot column missing", *KNOWN)):
    return nearest_phrase(words, KNOWN, lambda phrase: phrase in understood)


def test_each_word_is_mended_by_itself():
    assert near("lefft dot colum mising") == '; nearest is "left dot column missing"'
    assert near("Odd rws") == '; nearest is "odd rows"'
    assert near("right dot colum missing") == '; nearest is "right dot column missing"'


def test_a_word_of_its_own_is_left_as_it_is():
    everything = nearest_phrase("it is wrong", ("rolling", "cursor missing"), bool)
    assert everything == '; nearest is "it is wrong"', "not rolling"


def test_else_the_phrase_most_like_it():
    assert near("the odd rows", ()) == '; nearest is "odd rows"'
    assert near("it is ugly") == ""


def test_numbers_are_not_guessed_and_long_words_not_compared():
    assert near("row 99", ()) == ""
    assert near("odd rows" + " " * LONGEST, ()) == ""
