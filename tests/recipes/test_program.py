"""The recipes for an observer, a format of report and a command, followed in a copy of the
program.
"""

import pytest

from helpers.checkout import Checkout, files_named

RUN = ("run", "--profile", "singlebyte-24x80", "--script", "acceptance", "--board", "1")


@pytest.fixture
def checkout(tmp_path):
    return Checkout(tmp_path)


OBSERVER = '''\
"""Somebody who has seen it all."""

from termprobe.journal.records import AS_EXPECTED, EYES, Answer
from termprobe.observer.base import Offer
from termprobe.plan.model import Ask, Step


class Sage:
    """Says yes to every question."""

    strength = EYES

    def __init__(self, name: str) -> None:
        self.name = name

    def can_answer(self, step: Step) -> bool:
        """Return whether the step is a question."""
        return isinstance(step, Ask)

    def answer(self, step: Step) -> Answer:
        """Return yes."""
        return Answer(AS_EXPECTED)


OFFER = Offer("--sage", "NAME", "whoever answers", lambda name, plan, clock: Sage(name))
'''


def test_an_observer_is_one_file(checkout):
    assert files_named("Add an observer") == {
        "termprobe/observer/base.py",
        "tests/observer/test_contract.py",
    }
    checkout.add("termprobe/observer/sage.py", OBSERVER)
    assert "--sage NAME" in checkout.run("run", "--help").stdout
    words = (*RUN, "--port", "sim:", "--stage", "unpowered", "--sage", "Solon")
    checkout.run(*words, "--out", "runs", "--json")
    (path,) = (checkout.folder / "runs").glob("*.run.jsonl")
    done = checkout.run("report", "--format", "json", path)
    assert '"observer": "Solon"' in done.stdout, done.stdout + done.stderr


def test_a_format_of_report_is_one_file(checkout):
    assert files_named("Add a format of report") == {
        "termprobe/report/record.py",
        "termprobe/report/facts/sheet.py",
    }
    checkout.add(
        "termprobe/report/formats/csv.py",
        '"""Runs as lines of commas."""\n\n'
        "from collections.abc import Sequence\n\n"
        "from termprobe.report.record import RunReport\n\n\n"
        "def render(reports: Sequence[RunReport]) -> str:\n"
        '    """Return a line for each step."""\n'
        "    lines: list[str] = []\n"
        "    for report in reports:\n"
        '        lines += [f"{step.id},{step.verdict}" for step in report.verdict.steps]\n'
        '    return "\\n".join(lines) + "\\n"\n',
    )
    checkout.run(*RUN, "--port", "sim:", "--stage", "bell", "--out", "runs", "--json")
    (path,) = (checkout.folder / "runs").glob("*.run.jsonl")
    assert "csv" in checkout.run("report", "--help").stdout
    done = checkout.run("report", "--format", "csv", path)
    assert done.stdout == "bell-alone,pass\nbell-heard,pass\n", done.stderr


def test_a_command_is_one_file_and_one_row(checkout):
    assert files_named("Add a command") == {"termprobe/cli/main.py"}
    checkout.add(
        "termprobe/cli/greet.py",
        '"""`termprobe greet`: says hello."""\n\n'
        "import argparse\n\n\n"
        "def add_arguments(parser: argparse.ArgumentParser) -> None:\n"
        '    """Add the words of this command."""\n'
        '    parser.add_argument("name")\n\n\n'
        "def run(arguments: argparse.Namespace) -> int:\n"
        '    """Say hello; return 0."""\n'
        '    print(f"hello {arguments.name}")\n'
        "    return 0\n",
    )
    checkout.edit(
        "termprobe/cli/main.py", "COMMANDS = {\n", 'COMMANDS = {\n    "greet": "say hello",\n'
    )
    assert "say hello" in checkout.run("--help").stdout
    done = checkout.run("greet", "bench")
    assert (done.returncode, done.stdout) == (0, "hello bench\n")
