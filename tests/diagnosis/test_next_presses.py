"""The presses that would decide next between the leading suspects."""

from helpers.key_walks import walked
from termprobe.diagnosis.key_conclusion import conclude
from termprobe.diagnosis.key_hypothesis import supposed
from termprobe.diagnosis.key_outcomes import Outcome
from termprobe.diagnosis.key_ranking import Ranked
from termprobe.diagnosis.next_presses import next_presses
from termprobe.plan.presses import coded_presses
from termprobe.profile.load import load

PROFILE = load("singlebyte-24x80")
RIGHT, WRONG = (Outcome.of(b"a"),), (Outcome.of(b""),)


def suspect(wrong, probability):
    """Return the class of a cause that makes the presses `wrong`, out of a to d, send nothing."""
    sends = dict.fromkeys("abcd", RIGHT) | dict.fromkeys(wrong, WRONG)
    return Ranked(probability, (supposed(f"key-matrix/row-open/{wrong}", "", "", sends),))


def test_the_next_presses_decide_between_the_leading_suspects():
    row, of_row = "key-matrix/row-open/3", ("press/q", "press/a", "press/z")
    presses = {press.id: press for press in coded_presses(PROFILE)}
    came = walked(PROFILE, row, presses=[presses[press] for press in of_row])
    before = conclude(PROFILE, came)
    assert len(before.suspects) > 1 and 1 <= len(before.next) <= 3
    assert not set(before.next) & set(came)
    more = walked(PROFILE, row, presses=[presses[press] for press in before.next])
    after = conclude(PROFILE, came | more)
    assert len(after.suspects[0].faults) <= len(before.suspects[0].faults)


def test_the_press_that_halves_the_suspects_comes_first_and_what_tells_nothing_is_not_named():
    leading = [suspect(wrong, 0.25) for wrong in ("a", "ab", "ac", "abc")]
    assert next_presses(leading, "dacb") == ("c", "b")


def test_a_press_that_would_hardly_tell_anything_is_not_worth_making():
    assert next_presses([suspect("a", 0.9999), suspect("b", 0.0001)], "abcd") == ()
    assert next_presses([suspect("a", 0.9), suspect("b", 0.1)], "abcd") == ("a",)


def test_no_more_than_three_presses_are_named():
    leading = [suspect(wrong, 0.2) for wrong in "abcd"] + [suspect("", 0.2)]
    assert len(next_presses(leading, "abcd")) == 3
