"""Reports on made-up runs."""

from termprobe.journal.records import BoardUnderTest, Header, LinkUsed
from termprobe.journal.spans import link_spans
from termprobe.plan.model import Look, Plan, Stage
from termprobe.report.record import RunReport
from termprobe.verdict.model import RunVerdict, StepVerdict

STAGES = (Stage("link", "The serial line"), Stage("looks", "Looks"))


def step(verdict, step_id="a", **fields):
    """Return a StepVerdict; `fields` are other ones than usual."""
    usual = {"id": step_id, "stage": "link", "title": "A step"}
    return StepVerdict(**usual | fields, verdict=verdict)


def report(*steps, verdict="fail", serial="0042", **header):
    """Return the RunReport of a run with these verdicts, whose plan is a look for each."""
    plan = Plan(
        "singlebyte-24x80",
        "acceptance",
        "All of it",
        24,
        80,
        STAGES,
        tuple(Look(step.id, step.stage, step.title) for step in steps),
        "f" * 64,
    )
    usual = {
        "board": BoardUnderTest(serial, "C", "R. Example"),
        "at": "2026-01-02T03:04:05+00:00",
        "link": LinkUsed("sim:", "9600 baud 7E1"),
        "tool": "termprobe 0.1.0",
    }
    header = Header(**usual | header)
    return RunReport(
        "0042.run.jsonl",
        header,
        plan,
        RunVerdict(verdict, steps),
        (("echo", "off"),),
        "2026-01-02T03:09:05+00:00",
        links=link_spans(header, ()),
    )


def harmful(page):
    """Return the characters of a page that could act on a console."""
    return [character for character in page if character != "\n" and _acts(ord(character))]


def _acts(code):
    return code < 0x20 or 0x7F <= code <= 0x9F or 0x202A <= code <= 0x202E
