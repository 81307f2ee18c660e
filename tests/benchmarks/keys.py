"""Time from a byte's arrival to its drawing in the full-screen key walk, headless, 100 x 32.

Run: .venv/bin/python tests/benchmarks/keys.py
"""

import pathlib
import statistics
import sys
import tempfile
import threading
import time

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent))

from helpers.console import Console, hold  # noqa: E402
from termprobe.board.board import Board  # noqa: E402
from termprobe.board.link import SimLink  # noqa: E402
from termprobe.clock import SystemClock  # noqa: E402
from termprobe.journal.file import Journal  # noqa: E402
from termprobe.journal.records import BoardUnderTest, Header  # noqa: E402
from termprobe.observer.press import PRESS_QUIET_S  # noqa: E402
from termprobe.plan.compile import compile_plan  # noqa: E402
from termprobe.plan.model import KeyPress  # noqa: E402
from termprobe.profile.load import load  # noqa: E402
from termprobe.runner.run import Run  # noqa: E402
from termprobe.script.load import load as load_script  # noqa: E402
from termprobe.session.app import Session  # noqa: E402
from termprobe.session.opening import first_state  # noqa: E402
from termprobe.session.worker import Worker  # noqa: E402

PROFILE = load("singlebyte-24x80")
PLAN = compile_plan(PROFILE, load_script("keyboard"))
HAND_S = 0.3
"""From the question to the press: no hand is quicker, and the console is at rest by then."""
PRESSES = [step.press for step in PLAN.steps if isinstance(step, KeyPress)][:40]
BOARD = BoardUnderTest("0007")


class Watched(Console):
    """A console that notes what each drawing shows.

    That is (moment at which it was put out, row of the bytes that came back).
    """

    def __init__(self):
        super().__init__()
        self.drawings = [(0.0, "")]

    def write(self, text):
        at_s = time.monotonic()
        super().write(text)
        rows = (line.rpartition("back:")[2] for line in self.screen.display if "back:" in line)
        self.drawings.append((at_s, next(rows, "")))

    def first_change_s(self, number):
        """Return the moment of the first drawing whose row is another than in drawing `number`."""
        return next(at_s for at_s, row in self.drawings[number:] if row != self.drawings[number][1])

    def last_s(self):
        return self.drawings[-1][0]


def measure(folder):
    """Return pairs of seconds from a byte's arrival at the program, one for each press.

    They are those to its drawing, and to the drawing of what the press is worth.
    """
    clock, board, arrived = SystemClock(), Board(PROFILE), []
    link = SimLink(board, clock)
    journal = Journal.create(folder / "run.jsonl", Header(BOARD), clock)
    lock, read = threading.Lock(), link.read

    def noted(*words, **named):
        with lock:
            came = read(*words, **named)
        if came:
            arrived.append(time.monotonic())
        return came

    link.read = noted

    def session(console_input, console_output):
        def new_worker(post):
            return Worker(
                link,
                lambda line, listener: Run(PLAN, line, journal, clock, [], listener),
                None,
                post,
                clock,
                PROFILE,
            )

        return Session(
            first_state(PLAN, PROFILE, link.format, BOARD, link.name),
            new_worker,
            clock,
            console_input,
            console_output,
        )

    found = []

    def builder(console):
        console.press("\r", "let go")
        for press in PRESSES:
            time.sleep(HAND_S)
            seen, before = len(arrived), len(console.drawings) - 1
            with lock:
                board.press(press.key, frozenset(press.modifiers))
            console.wait(f"Last: {press.asked}: right")
            drawn_s, judged_s = console.first_change_s(before), console.last_s()
            found.append((drawn_s - arrived[seen], judged_s - arrived[seen]))

    hold(session, builder, Watched())
    journal.close()
    return found


def main():
    with tempfile.TemporaryDirectory() as folder:
        found = measure(pathlib.Path(folder))
    drawn, judged = zip(*found, strict=True)
    for name, times_s in (("byte drawn", drawn), ("press judged and drawn", judged)):
        print(
            f"{name}, {len(times_s)} presses: median {statistics.median(times_s) * 1000:.0f} ms, "
            f"worst {max(times_s) * 1000:.0f} ms"
        )
    print(f"{PRESS_QUIET_S * 1000:.0f} ms of the second wait for the press to be over")


if __name__ == "__main__":
    main()
