"""Figures of the full-screen session; run `python tests/benchmarks/session.py`.

Takes about a minute. Key to wire: from an answer key to the first byte of the next step, headless.
Repaint: drawing, and drawing with prompt_toolkit's output, 100 x 32. Late characters: solid fields
sent to a pseudo-terminal that another process reads, the session open in a console of its own; once
left alone, once with keys that repaint it ten times a second.
"""

import dataclasses
import json
import os
import pathlib
import pty
import statistics
import subprocess
import sys
import tempfile
import threading
import time

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent))

from helpers.bench_plan import PROFILE, look, plan, text  # noqa: E402
from helpers.console import Console, hold  # noqa: E402
from termprobe.board.board import Board  # noqa: E402
from termprobe.board.link import SimLink  # noqa: E402
from termprobe.clock import SystemClock  # noqa: E402
from termprobe.journal.file import Journal  # noqa: E402
from termprobe.journal.records import BoardUnderTest, Header  # noqa: E402
from termprobe.link.base import LineFormat  # noqa: E402
from termprobe.link.open import open_port  # noqa: E402
from termprobe.runner.run import Run  # noqa: E402
from termprobe.session.app import Session  # noqa: E402
from termprobe.session.draw.console_rows import draw_console  # noqa: E402
from termprobe.session.opening import first_state  # noqa: E402
from termprobe.session.react import answering  # noqa: E402
from termprobe.session.worker import Worker  # noqa: E402

FIELDS, LOOKS = 5, 60
BOARD = BoardUnderTest("0007")


def looks(count, shown):
    """Return a plan of so many looks at the text `shown`."""
    return plan(
        *(
            look(f"look-{number}", "screen", text(shown), title=f"Number {number:03}")
            for number in range(count)
        )
    )


def session_on(link, made, folder, clock):
    """Return (function that gives a Session on a console, list that will hold its Worker)."""
    journal = Journal.create(folder / "run.jsonl", Header(BOARD), clock)
    workers = []

    def session(console_input=None, console_output=None):
        def new_worker(post):
            workers.append(
                Worker(
                    link,
                    lambda line, listener: Run(made, line, journal, clock, [], listener),
                    None,
                    post,
                    clock,
                    PROFILE,
                )
            )
            return workers[0]

        return Session(
            first_state(made, PROFILE, link.format, BOARD, link.name),
            new_worker,
            clock,
            console_input,
            console_output,
        )

    return session, workers


def key_to_wire_s(folder):
    """Return the seconds from each answer key to the next step's first byte."""
    clock, written = SystemClock(), []
    link = SimLink(Board(PROFILE), clock)
    send = link.write
    link.write = lambda data: (written.append((time.monotonic(), bytes(data))), send(data))
    session, _ = session_on(link, looks(LOOKS, "X"), folder, clock)
    found = []

    def builder(console):
        console.press("\r", "- Number 000", "y as expected")
        for number in range(1, LOOKS):
            pressed_s = time.monotonic()
            console.press("y", f"- Number {number:03}", "y as expected")
            begun = (at_s for at_s, data in written if at_s > pressed_s and data[:1] == b"\x1a")
            found.append(next(begun) - pressed_s)

    hold(session, builder, Console())
    return found


def repaint_s(folder):
    """Return (seconds to draw, seconds to draw and put out) of a changed console."""
    clock = SystemClock()
    made = looks(LOOKS, "*" * 1900)
    session, _ = session_on(SimLink(Board(PROFILE), clock), made, folder, clock)
    drawing, whole = [], []

    class Sink(Console):
        def write(self, text):
            pass

    def made_session(console_input, output):
        held = session(console_input, output)
        started = []
        held.app.before_render += lambda app: started.append(time.perf_counter())
        held.app.after_render += lambda app: whole.append(time.perf_counter() - started[-1])
        return held

    def builder(console):
        for number in range(40):
            console.pipe.send_text("?" if number % 2 else "x")
            time.sleep(0.05)

    hold(made_session, builder, Sink())
    line = LineFormat(9600, 7, "even", 1)
    state = first_state(made, PROFILE, line, BOARD, "sim:")
    state = dataclasses.replace(state.at("look"), step_id="look-5")
    for _ in range(50):
        start_s = time.perf_counter()
        draw_console(state, 100, 32)
        drawing.append(time.perf_counter() - start_s)
    return statistics.median(drawing), statistics.median(whole)


def late(speed_baud, keys_a_second):
    """Return the pacer's statistics of FIELDS solid fields with the session open, as a dict."""
    drain_master, drain_slave = pty.openpty()
    reader = subprocess.Popen(
        [sys.executable, "-c", "import os\nwhile os.read(0, 4096): pass"], stdin=drain_master
    )
    with tempfile.TemporaryDirectory() as folder:
        child, master = pty.fork()
        if child == 0:
            try:
                hold_real(os.ttyname(drain_slave), speed_baud, pathlib.Path(folder))
            finally:
                os._exit(0)
        threading.Thread(target=_swallow, args=(master,), daemon=True).start()
        time.sleep(1.5)
        os.write(master, b"\r")
        end_s = time.monotonic() + FIELDS * (1900 * 10 / speed_baud + 0.6) + 1.0
        while time.monotonic() < end_s:
            time.sleep(1 / keys_a_second if keys_a_second else 0.2)
            os.write(master, b"g" * bool(keys_a_second) + b"y")
        os.write(master, b"\x03")
        os.waitpid(child, 0)
        reader.terminate()
        reader.wait()
        os.close(drain_master)
        os.close(drain_slave)
        return json.loads(pathlib.Path(folder, "statistics").read_text())


def _swallow(master):
    try:
        while os.read(master, 65536):
            pass
    except OSError:
        pass


def hold_real(port, speed_baud, folder):
    """In the child: hold the session on the real console, then write down how the sending went."""
    clock = SystemClock()
    answering.TOO_SOON_S = 0.1
    link = open_port(port, LineFormat(speed_baud, 7, "even", 1), clock)
    session, workers = session_on(link, looks(FIELDS, "*" * 1899), folder, clock)
    session().run()
    found = workers[0].run_of_plan.statistics
    (folder / "statistics").write_text(
        json.dumps(
            {
                "characters": found.characters,
                "late": found.late,
                "worst_late_ms": found.worst_late_s * 1000,
            }
        )
    )


def main():
    """Print all figures."""
    with tempfile.TemporaryDirectory() as folder:
        answering.TOO_SOON_S = 0.0
        found = sorted(key_to_wire_s(pathlib.Path(folder)))
        print(
            f"answer key to first byte: median {found[len(found) // 2] * 1000:.2f} ms, "
            f"95 % {found[int(len(found) * 0.95)] * 1000:.2f} ms, "
            f"worst {found[-1] * 1000:.2f} ms"
        )
    with tempfile.TemporaryDirectory() as folder:
        drawing, whole = repaint_s(pathlib.Path(folder))
        print(
            f"repaint of 100 x 32: {drawing * 1000:.2f} ms to draw, "
            f"{whole * 1000:.2f} ms with prompt_toolkit's output"
        )
    for speed_baud in (9600, 19200):
        for keys in (0, 10):
            found = late(speed_baud, keys)
            print(
                f"{speed_baud} baud, {keys} repaints a second asked for: "
                f"{found['late']} of {found['characters']} characters late "
                f"({found['late'] / max(found['characters'], 1):.2%}), "
                f"worst {found['worst_late_ms']:.2f} ms"
            )


if __name__ == "__main__":
    main()
