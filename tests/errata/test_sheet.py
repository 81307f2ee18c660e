"""The sheet holds what is of the layout, in the designer's words, and names nobody."""

from helpers.batches import cause, grouped, summary
from termprobe.errata.batch import batch_of
from termprobe.errata.origin import findings_of
from termprobe.errata.remedies import remedies_in
from termprobe.errata.sheet import NO_REMEDY, NOT_OF_LAYOUT, NOT_SEEN, sheet_of
from termprobe.errata.sheet_markdown import sheet_in_markdown

FAULT = "bank-1-data/swapped/2-3"
WORDS = """
remedies:
  - what: gone/stuck/0/1
    remedy: Wire it.
  - {what: bank-1-data/swapped/2-3, title: Lines exchanged, remedy: Cut both., mended_in: B}
"""


def sheet(batch, text="remedies:\n"):
    return sheet_of(batch, findings_of(batch), remedies_in(text, "r.yaml"))


def test_what_goes_with_the_layout_is_an_item_with_all_that_is_known():
    (item,) = sheet(grouped(FAULT, ("A", 5, 5), ("B", 4, 0))).items
    assert item.what == FAULT and item.revisions == "A" and item.remedy == NO_REMEDY
    assert item.title == f"{FAULT} is wrong".capitalize()
    assert item.check == "these steps of the script quick pass: The field; The slopes"
    assert "5 of 5 boards of revision A tried, 0 of 4 of revision B" in item.evidence


def test_the_words_of_the_designer_take_the_place_of_ours():
    made = sheet(grouped(FAULT, ("A", 5, 5), ("B", 4, 0)), WORDS)
    item, _ = made.items
    assert (item.title, item.remedy, item.mended_in) == ("Lines exchanged", "Cut both.", "B")
    assert (
        item.symptom == "The field: bit 3 is 0" and [one.what for one in made.without_remedy] == []
    )


def test_an_entry_of_which_nothing_is_seen_is_kept_and_marked():
    made = sheet(grouped("x/y", ("A", 5, 5), ("B", 4, 0)), WORDS)
    assert [(item.what, item.is_seen) for item in made.items] == [
        ("x/y", True),
        ("gone/stuck/0/1", False),
        (FAULT, False),
    ]
    assert made.items[1].evidence == NOT_SEEN and made.items[1].remedy == "Wire it."
    one_board = sheet(grouped(FAULT, ("A", 5, 1), ("B", 4, 0)), WORDS)
    assert one_board.items[1].evidence == NOT_OF_LAYOUT


def test_an_entry_is_found_by_any_of_the_faults_that_look_alike():
    runs = [summary(n, "A", cause("x/1", FAULT)) for n in range(5)]
    runs += [summary(n, "B") for n in range(5, 9)]
    assert sheet(batch_of(runs), WORDS).items[0].title == "Lines exchanged"


def test_what_every_board_has_is_an_item_and_what_some_have_may_be():
    assert sheet(grouped(FAULT, ("A", 3, 3))).items[0].revisions == "A"
    made = sheet(grouped(FAULT, ("A", 3, 3), ("B", 3, 0)))
    assert made.items == () and made.unsettled == (
        f"{FAULT} is wrong (revision A): seen on 3 of 6 boards tried; too few to say whether it is "
        "the layout",
    )


def test_nobody_is_named_whatever_was_found():
    runs = [summary(f"serial{n}", "A", cause(FAULT), builder="Ada") for n in range(6)]
    runs += [summary(f"serial{n}", "B", cause("x/y"), builder="Ben") for n in range(6, 7)]
    runs += [summary(f"serial{n}", "B", builder="Ben") for n in range(7, 12)]
    runs += [
        summary(f"of{n}", "AB"[n % 2], cause("p/q", steps=("commands",)), builder="Cleo")
        for n in range(6)
    ]
    made = sheet(batch_of(runs))
    text = sheet_in_markdown(made)
    assert not [name for name in ("Ada", "Ben", "Cleo", "serial", "of1") if name in text]
    assert made.others == ("1 of one board each", "2 that go with one builder")


def test_practice_is_not_to_be_published():
    practice = summary(1, is_practice=True)
    assert sheet(batch_of([practice])).warning.startswith("PRACTICE: made from simulated boards.")
    assert sheet(batch_of([summary(2)])).warning == ""
    mixed = batch_of([practice, summary(2)], counts_practice=True)
    assert "not to be published" in sheet(mixed).warning


def test_of_many_steps_the_first_are_named_and_all_scripts_in_which_they_failed():
    steps = tuple(f"s{number}" for number in range(9))
    runs = [summary(number, "A", cause(FAULT, steps=steps)) for number in range(4)]
    runs.append(summary(4, "A", cause(FAULT, steps=steps), script="acceptance"))
    runs += [summary(number, "B") for number in range(5, 9)]
    (item,) = sheet(batch_of(runs)).items
    assert item.check == (
        "these steps of the scripts quick and acceptance pass: "
        "The s0; The s1; The s2; The s3; The s4; The s5 and 3 more"
    )
