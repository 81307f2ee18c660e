"""No wording is stronger than its numbers, and each says what would settle it."""

from helpers.batches import cause, grouped, summary
from termprobe.errata.batch import batch_of
from termprobe.errata.likely import likely
from termprobe.errata.origin import findings_of
from termprobe.errata.words import boards_in_words, p_in_words, revisions_of, settling, wording

FAULT = "bank-1-data/swapped/2-3"


def told(batch):
    findings = findings_of(batch)
    (finding,) = findings.found
    return wording(finding, batch), settling(finding, findings, batch)


def test_the_layout_is_what_the_numbers_are_consistent_with():
    words, settle = told(grouped(FAULT, ("A", 5, 5), ("B", 4, 0)))
    assert words == (
        "consistent with the layout of revision A: 5 of 5 boards of revision A tried, 0 of 4 of "
        "revision B; by chance p = 0.0079, p = 0.0079 corrected for all that was looked at"
    )
    assert settle == ""


def test_what_is_not_on_all_boards_of_its_group_says_so():
    words, _ = told(grouped(FAULT, ("A", 9, 7), ("B", 9, 0)))
    assert words.endswith(". It is not on all of them: look for what is marginal, or hides it")


def test_three_against_three_says_how_many_more_there_must_be():
    words, settle = told(grouped(FAULT, ("A", 3, 3), ("B", 3, 0)))
    assert words.startswith("not settled: 3 of 3 boards of revision A tried, 0 of 3 of revision B")
    assert settle == "1 more of revision A that shows it"


def test_one_board_is_told_by_what_such_a_fault_is_likely_to_be():
    words, settle = told(grouped("baud/ratio/2", ("A", 3, 1)))
    assert words == (
        "consistent with board A0 alone, a strap, switch or setting of it: tried on 2 other boards "
        "of revision A, which do not show it"
    )
    assert settle == "further boards: a second one that shows it speaks against this"
    batch = grouped(FAULT, ("A", 2, 1))
    assert "1 other board of revision A, which does not show it" in told(batch)[0]


def test_of_a_builder_with_one_board_another_is_wanted():
    runs = [summary(1, "A", cause(FAULT), builder="Ada"), summary(2, builder="Ben"), summary(3)]
    assert told(batch_of(runs))[1] == "another board of builder Ada, of which this is the only one"


def test_where_two_things_go_together_both_are_said():
    runs = [summary(n, "A", cause(FAULT), builder="Ada") for n in range(6)]
    words, settle = told(batch_of([*runs, *(summary(n, "B", builder="x") for n in range(6, 12))]))
    assert "Consistent with either: builder and revision cannot be told apart" in words
    assert "a board of revision A that is not of builder Ada" in settle


def test_on_every_board_nothing_is_left_to_compare():
    words, settle = told(grouped(FAULT, ("A", 3, 3)))
    assert words.startswith("on every board on which it was tried (3): consistent with the layout")
    assert settle == "a board of another revision than A, and one by another builder"


def test_boards_without_anything_in_common_say_so():
    words, settle = told(batch_of([summary(n, "", *[cause(FAULT)] * (n < 2)) for n in range(5)]))
    assert words == "2 of 5 boards tried, and they have nothing in common that others lack"
    assert settle == "more boards that tell their revision, builder and batch"


def test_a_board_alone_of_its_revision_needs_others():
    words, settle = told(batch_of([summary(1, "A", cause(FAULT)), summary(2, "B")]))
    assert words.startswith("one board, and no other of its revision was tried")
    assert settle == "two more boards of revision A"


def test_the_revisions_are_those_that_it_goes_with_or_was_seen_on():
    batch = grouped(FAULT, ("A", 4, 4), ("B", 4, 3), ("C", 4, 0))
    (finding,) = findings_of(batch).found
    assert revisions_of(finding, batch) == ("A", "B")
    batch = grouped(FAULT, ("A", 4, 1), ("B", 4, 1))
    (finding,) = findings_of(batch).found
    assert revisions_of(finding, batch) == ("A", "B")


def test_numbers_and_names_are_short():
    assert [p_in_words(p) for p in (1.0, 0.00794, 0.00001)] == [
        "p = 1",
        "p = 0.0079",
        "p < 0.0001",
    ]
    assert boards_in_words(tuple("abcdefghijklmn")).endswith("l and 2 more")


def test_faults_are_likely_what_such_faults_are():
    kinds = [likely(name) for name in ("parity/inverted", "x/bridged/1-2/low", "x/swapped/1-2")]
    assert [kind.split(" ")[1] for kind in kinds] == ["strap,", "bridge", "of"]
    assert likely("field") == likely("bank-0-data/stuck/1/0") == "a joint, a short or a part of it"
