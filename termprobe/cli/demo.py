"""`termprobe demo`: the whole job without hardware, on an invented board with one fault."""

import argparse
import contextlib
import pathlib
import sys
import tempfile

from termprobe.board.faults.catalogue import fault as fault_of
from termprobe.cli.assembly import carry_out, hands_at, unwatched_clock
from termprobe.cli.bench import Bench, open_bench
from termprobe.cli.observers import simulated_hands, simulated_screen
from termprobe.cli.recorded import load_run
from termprobe.cli.request import SIMULATED, BenchRequest
from termprobe.errors import EXIT_FAILED, EXIT_PASSED
from termprobe.journal.records import AS_EXPECTED, Answer, BoardUnderTest
from termprobe.notation import visible
from termprobe.observer.scripted import ScriptedObserver
from termprobe.plan.model import Ask, Look, Measure, Plan, Step, expected_of
from termprobe.report.formats import text
from termprobe.report.record import RunReport
from termprobe.verdict.model import FAIL, PASS, StepVerdict

PROFILE, DEMO_SCRIPT = "singlebyte-24x80", "acceptance"
DEFAULT_FAULT = "glyph-address/swapped/1-4"
NO_FAULT = "none"
DEMO_BOARD = BoardUnderTest("DEMO-07", "B", "nobody; it is simulated")
INVENTED = "invented for the demonstration"
COLUMNS_SHOWN = 36


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the words of this command to `parser`."""
    parser.add_argument(
        "--fault",
        metavar="NAME",
        default=DEFAULT_FAULT,
        help=f"its fault, or none (default: {DEFAULT_FAULT})",
    )
    parser.add_argument(
        "--out",
        metavar="DIR",
        help="folder of the run file and the report (default: a new one for temporary files)",
    )


def run(arguments: argparse.Namespace) -> int:
    """Show the job; return 0 where the run found what was announced, 1 where it did not."""
    folder = arguments.out or tempfile.mkdtemp(prefix="termprobe-demo-")
    fault = arguments.fault
    if fault == NO_FAULT:
        fault = ""
    port = f"{SIMULATED}{fault}"
    request = BenchRequest(port, PROFILE, DEMO_SCRIPT, DEMO_BOARD, folder=folder)
    with contextlib.closing(open_bench(request, unwatched_clock(port))) as bench:
        _introduce(bench, fault)
        answers = ScriptedObserver(_invented_answers(bench.plan))
        observers = [*simulated_screen(bench), *simulated_hands(bench), answers]
        carry_out(bench, observers, hands_at(bench), sys.stdout)
    report = load_run(bench.path).report
    _show_a_difference(report)
    return _conclude(report, fault, folder)


def _introduce(bench: Bench, fault: str) -> None:
    steps = [step for step in bench.plan.steps if not step.not_fitted]
    looks = sum(isinstance(step, Look) for step in steps)
    announced = "no fault at all."
    if fault:
        announced = f"this fault:\n    {fault_of(bench.profile, fault).title}"
    print(
        f"On the bench: board {DEMO_BOARD.serial}, a terminal of 24 x 80 "
        "built of small TTL chips.\n"
        f"It is simulated at the level of its circuit, and has {announced}\n"
        f"The script '{bench.plan.script_id}' is not told. It knows what the manual says, "
        "sends codes,\n"
        f"and compares: {len(steps)} steps, {looks} of them looks at the screen.\n"
    )


def _invented_answers(plan: Plan) -> dict[str, Answer]:
    """Return step id -> what a builder with good supplies would answer where no screen can."""
    answers = {step.id: _invented(step) for step in plan.steps}
    return {step_id: answer for step_id, answer in answers.items() if answer}


def _invented(step: Step) -> Answer | None:
    """Return a reading in the middle of what is best, or a yes; None where a screen answers."""
    if isinstance(step, Measure):
        limits = [limit for limit in step.best if limit is not None]
        middle = sum(limits) / max(len(limits), 1)
        return Answer(AS_EXPECTED, value=middle, note=INVENTED)
    if isinstance(step, Ask) and step.expected is None:
        return Answer(AS_EXPECTED, note=INVENTED)
    return None


def _show_a_difference(report: RunReport) -> None:
    """Print rows of the failed look that differs most, what must be seen beside what is seen."""
    steps = report.verdict.steps
    failed = [step for step in steps if step.verdict == FAIL and step.differs]
    if not failed:
        return
    worst = max(failed, key=_extent)
    expected = expected_of(report.plan.step(worst.id))
    if expected is None:
        return
    rows = expected.rows
    first = min(row for row, _, _, _ in worst.differs)
    seen = {(row, column): character for row, column, _, character in worst.differs}
    print(f"\nThe look '{worst.id}', left as it must be, right as this board shows it:\n")
    for row in range(max(0, first - 1), min(len(rows), first + 3)):
        wanted = rows[row][:COLUMNS_SHOWN]
        characters = [seen.get((row, column), own) for column, own in enumerate(wanted)]
        print(f"  {row:>2} {visible(wanted)}  {visible(''.join(characters))}")
    print()


def _extent(failed: StepVerdict) -> tuple[int, int]:
    """Return how many cells differ, and in how many of them something was to be seen."""
    visible_cells = [expected for _, _, expected, _ in failed.differs if expected != " "]
    return len(failed.differs), len(visible_cells)


def _conclude(report: RunReport, fault: str, folder: str) -> int:
    """Print the report; return whether it says what was announced, as an exit code."""
    rendered = text.page(report)
    path = pathlib.Path(folder) / f"{DEMO_BOARD.serial}-report.txt"
    path.write_text(rendered, encoding="utf-8")
    print(rendered)
    print(f"Run file and report are in {folder}")
    verdict = report.verdict.verdict
    announced, found = PASS, "The board passed."
    if fault:
        announced, found = FAIL, "The fault was found."
    exit_code = EXIT_PASSED
    if verdict != announced:
        exit_code = EXIT_FAILED
        found = f"This is not what was announced: the verdict is {verdict}."
    print(found)
    print(f"Next: termprobe script show {DEMO_SCRIPT} --profile {PROFILE}")
    print("or:   termprobe session --help")
    return exit_code
