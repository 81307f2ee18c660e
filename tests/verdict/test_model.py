"""What a run shows of its board."""

from termprobe.verdict.model import FAIL, PASS, SKIPPED, RunVerdict, StepVerdict


def test_the_steps_of_a_verdict_are_counted():
    words = (PASS, FAIL, PASS)
    steps = tuple(StepVerdict(str(n), "s", "A step", word) for n, word in enumerate(words))
    verdict = RunVerdict(FAIL, steps)
    assert [verdict.count(word) for word in (PASS, FAIL, SKIPPED)] == [2, 1, 0]
