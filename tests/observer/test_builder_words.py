"""What may be typed at plain prompts."""

from termprobe.observer.builder_words import BUILDER_WORDS, help_text, word_of


def test_the_help_has_a_line_for_each_word_with_its_meaning():
    lines = help_text().splitlines()
    assert lines[0] == "  y, yes       as expected"
    assert "  q, stop      end here; go on later with --resume" in lines
    assert len(lines) == len(BUILDER_WORDS)


def test_a_word_is_found_in_short_and_in_full_and_no_two_are_alike():
    for word in BUILDER_WORDS:
        assert word_of(word.short) is word_of(word.full) is word
    assert word_of("maybe") is None
