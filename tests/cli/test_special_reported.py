"""Answerback and sent lines from the profile's text through a run to the report's words."""

import contextlib

from helpers.special import special_text
from termprobe.cli.assembly import new_run
from termprobe.cli.bench import open_bench
from termprobe.cli.recorded import load_run
from termprobe.cli.request import BenchRequest
from termprobe.clock import CrankedClock
from termprobe.journal.records import BoardUnderTest
from termprobe.plan.choose import choose
from termprobe.report.formats import text
from termprobe.report.words import reason
from termprobe.runner.walk import carry_out

STEPS = ("answerback", "answerback-cursor", "send-line", "send-line-to-cursor")


def run_on(folder, fault=""):
    """Return the run file of these steps on a simulated board of the profile, and its course."""
    path = folder / "special.yaml"
    path.write_text(special_text(), encoding="utf-8")
    request = BenchRequest(
        f"sim:{fault}",
        str(path),
        "acceptance",
        BoardUnderTest("7"),
        folder=str(folder),
        choice=lambda profile, plan: choose(plan, STEPS),
    )
    with contextlib.closing(open_bench(request, CrankedClock())) as bench:
        run = new_run(bench)
        carry_out(run)
    return bench.path, run.course


def test_what_comes_back_of_a_good_board_passes_and_is_told(tmp_path):
    path, _ = run_on(tmp_path)
    page = " ".join(text.page(load_run(path).report).split())
    assert "4 steps: 4 pass" in page
    assert 'The answerback: "CLUB 24" CR came back' in page
    assert 'and no other: " THIS LINE ALONE" CR came back' in page


def test_what_a_board_sends_wrong_is_told_in_bytes(tmp_path):
    _, course = run_on(tmp_path, "decoder/acts-as/send-line-send-screen")
    assert [course.word(step) for step in STEPS] == ["pass", "pass", "fail", "pass"]
    told = '"   THIS LINE ALONE" CR must come back, not "ABOVE" CR CR'
    assert told in reason(course.verdict("send-line"))
