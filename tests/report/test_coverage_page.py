"""What a page of coverage says of a few figures."""

from dataclasses import replace

from helpers.coverage import FOUND, TOLD
from termprobe.diagnosis.coverage import PartCoverage
from termprobe.diagnosis.smallest_steps import SmallestSteps
from termprobe.diagnosis.visibility import USUAL_MISS
from termprobe.report.coverage_page import brief_page, coverage_page


def words(*of, **changes):
    """Return a page as one line."""
    return " ".join(page(*of, **changes).split())


def page(told=TOLD, **changes):
    return coverage_page(told._replace(found=replace(FOUND, **changes)))


def test_the_head_says_what_the_script_costs_and_what_it_shows():
    assert "on a good board 2 looks, 0 presses of its keys, about 6 s of the builder" in words()
    assert "Shown: 3 of 6 faults that can be; 2 can be told apart" in page()
    assert "Not every bit of every RAM cell is shown" in page()
    assert "Every bit of every RAM cell" in page(shows_all_bits=True)


def test_the_worst_block_is_named():
    assert (
        "the worst first, which is gate:\n  gate                      0 of    2    0.0 %\n"
        in page()
    )
    assert "2 of    2  100.0 %   and 2 that make no difference" in page()
    one = {"gate": PartCoverage(3, 1, 1)}
    assert "1 of    2   50.0 %   and 1 that makes no difference" in page(by_block=one)
    assert "By block; none misses any:" in page(by_block={"ram": PartCoverage(4, 2, 2)})


def test_each_reason_stands_with_its_faults():
    assert "  1: ram/swapped/0-1: both are moved alike\n  1: ram/swapped/0-2: it is so" in page()
    assert "No difference" not in page(undetectable={})


def test_a_block_of_which_nothing_is_shown_is_missed_as_a_whole():
    assert "Missed (3): all 2 of gate, scroll/line-not-cleared" in page()
    assert "Missed" not in page(missed=())
    many = tuple(f"scroll/{number}" for number in range(20))
    assert "scroll/10 and 9 more; all with --json" in words(missed=many)


def test_what_is_proven_of_the_smallest_set():
    shows = "show every fault that the whole script shows"
    two = ("look-1", "look-2")
    proven, open_ = SmallestSteps(two, 2600, 2600), SmallestSteps(two, 2600, 1300)
    assert f"2600 steps {shows}, and it is proven that no less does: look-1, look-2" in words(
        smallest=proven
    )
    assert "that less than 1300 steps does not" in words(smallest=open_)
    timed = TOLD._replace(weigh="seconds")
    assert f"Steps that take 2.6 s {shows}, and it is proven" in words(timed, smallest=proven)
    assert "that less than 1.3 s does not" in words(timed, smallest=open_)
    assert shows not in words(smallest=SmallestSteps((), 0, 0))


def test_the_small_print_says_what_the_model_leaves_out():
    for left_out in ("timing", "floating levels", "contacts that come and go", "the dots"):
        assert left_out in words()
    assert all(len(line) <= 80 for line in page().split("\n"))


def test_of_dots_it_is_said_who_sees_them_where_a_profile_tells_of_them():
    of_dots = {"dots": PartCoverage(72, 70, 1), "shows_all_dots": False}
    assert "  of the dots, by eyes     70 of   71   98.6 %" in page(**of_dots)
    assert "Not every dot of every drawing is shown" in page(**of_dots)
    assert "only eyes see, never a dump" in words(**of_dots)
    assert "Every dot of every drawing" in page(**of_dots | {"shows_all_dots": True})
    assert "of the dots, by eyes" not in page() and "of every drawing" not in page()


def test_a_builder_and_what_he_misses():
    assert "would find 70.1 % of the faults of the display" in words()
    assert "  line        3    11 % missed" in page()
    assert "line, proofreading against a copy" in words() and "as given" not in words()
    given = words(TOLD._replace(miss=USUAL_MISS | {"line": 0.9}))
    assert "line, as given; cells, inspection of chips" in given
    assert "  line        3    90 % missed" in page(TOLD._replace(miss=USUAL_MISS | {"line": 0.9}))


def test_a_brief_page_names_what_misses_faults_and_what_is_new():
    first = brief_page(TOLD, None)
    assert "gate  " in first and "ram  " not in first and "Missed (3)" in first
    assert "moved alike" not in first and "shown (" not in first
    before = replace(FOUND, detected=("ram/stuck/0/0", "home/row-kept"))
    page_after = brief_page(TOLD, before)
    assert "Newly shown (2): ram/stuck/0/1, scroll/dead" in page_after
    assert "No longer shown (1): home/row-kept" in page_after


def test_where_no_look_shows_any_nothing_is_said_of_eyes():
    unseen = replace(FOUND.human, by_visibility=dict.fromkeys(USUAL_MISS, 0))
    assert "How visible" in page() and "How visible" not in page(human=unseen)
