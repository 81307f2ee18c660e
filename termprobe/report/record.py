"""What a report is made from: one run, read back, compiled and judged."""

from dataclasses import dataclass

from termprobe.plan.model import Plan
from termprobe.verdict.model import RunVerdict


@dataclass(frozen=True)
class RunReport:
    """One run of one board."""

    path: str
    """The run file."""
    header: dict
    """The first record of the run file: board, link, tool, texts of profile and script."""
    plan: Plan
    verdict: RunVerdict
    options: tuple[tuple[str, str], ...] = ()
    """(option, position) as last set."""
    ended: str = ""
    """Date of the last record."""
    damages: tuple[str, ...] = ()
    """What could not be read of the run file."""
    notes: tuple[str, ...] = ()
    """Remarks on the reading itself, for example that the plan compiles differently today."""


def run_report(path, recording, plan, verdict):
    """Return the RunReport of a recording whose plan and verdict are known."""
    options = {}
    for record in recording.records:
        if record["kind"] == "option":
            options[record["option"]] = record["position"]
    notes = ()
    left_out = recording.header.get("left_out", 0)
    if left_out:
        notes += (
            f"only a part of the script was chosen for this run: {left_out} step{'s' * (left_out > 1)} left out",
        )
    if recording.header.get("plan_hash") not in (None, plan.hash):
        notes += (
            "the plan was compiled by another version of termprobe; steps may have changed since the run",
        )
    ended = recording.records[-1].get("at", "") if recording.records else ""
    return RunReport(
        str(path),
        recording.header,
        plan,
        verdict,
        tuple(sorted(options.items())),
        ended,
        tuple(recording.damages),
        notes,
    )
