"""What is said of known faults."""

from termprobe.journal.known_fault import KnownFault
from termprobe.report import words
from termprobe.report.known_fault_words import named_fault_lines, of_fault
from termprobe.verdict.model import AsOfGoodBoard, AsWithFault, Hidden

STUCK = "bank-0-data/stuck/2/0"


def test_each_reason_names_the_fault():
    assert words.because_in_words(AsWithFault((STUCK,))) == f"as expected with known fault {STUCK}"
    two = AsWithFault((STUCK, "scroll/dead"))
    assert words.because_in_words(two).endswith(f"{STUCK} and scroll/dead")
    assert f"known fault {STUCK} should have" in words.because_in_words(AsOfGoodBoard((STUCK,)))
    assert words.because_in_words(Hidden(STUCK)).startswith(f"known fault {STUCK} changes most")


def test_a_fault_is_told_with_those_that_nothing_tells_from_it():
    fault = KnownFault(STUCK, ("a/b", "c/d"), "line 2 stuck at 0", ("x",))
    assert of_fault(fault).endswith("no look tells it from a/b, c/d")


def test_what_is_named_is_told_with_what_to_probe_on_lines_of_a_page():
    lines = named_fault_lines("line 2 stuck at 0", ("a/b",), ["Probe it. " * 20])
    assert lines[0] == "One fault explains all that has differed: line 2 stuck at 0."
    assert len(lines) > 3 and max(map(len, lines)) <= 80
