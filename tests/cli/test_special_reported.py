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
from termprobe.runner.walk import carry_out

STEPS = ("answerback", "answerback-cursor", "send-line", "send-line-to-cursor")


def reported(folder, fault=""):
    """Return the report of these steps on a simulated board of the profile, as it is printed."""
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
        carry_out(new_run(bench))
    return " ".join(text.page(load_run(bench.path).report).split())


def test_what_comes_back_of_a_good_board_passes_and_is_told(tmp_path):
    page = reported(tmp_path)
    assert "4 steps: 4 pass" in page
    assert 'The answerback: "CLUB 24" CR came back' in page
    assert 'and no other: " THIS LINE ALONE" CR came back' in page


def test_what_a_board_sends_wrong_is_told_in_bytes(tmp_path):
    page = reported(tmp_path, "decoder/acts-as/send-line-send-screen")
    assert "4 steps: 3 pass, 1 fail" in page
    assert '" THIS LINE ALONE" CR must come back, not "ABOVE" CR CR' in page
