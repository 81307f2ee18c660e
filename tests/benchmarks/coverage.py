"""How long it takes to work out what a script proves of a board, cold and kept.

Run: .venv/bin/python tests/benchmarks/coverage.py

`cold` is with an empty cache folder, in a process of its own; `of a fault` is per fault that is
played and 1,000 bytes of the script, which stays the same where the cost grows with both.
"""

import os
import pathlib
import subprocess
import sys
import tempfile
import time

ROOT = pathlib.Path(__file__).resolve().parent.parent.parent
sys.path.insert(0, str(ROOT))

from termprobe.board.faults.catalogue import catalogue  # noqa: E402
from termprobe.diagnosis.coverage import coverage_of  # noqa: E402
from termprobe.diagnosis.dictionary import fault_dictionary  # noqa: E402
from termprobe.plan.choose import choose  # noqa: E402
from termprobe.plan.compile import compile_plan  # noqa: E402
from termprobe.plan.effort import effort  # noqa: E402
from termprobe.plan.model import Look  # noqa: E402
from termprobe.profile.load import load  # noqa: E402
from termprobe.script.load import load as load_script  # noqa: E402

PROFILE, SCRIPTS = "singlebyte-24x80", ("acceptance", "quick")
SPEEDS_BAUD = (300, 1200, 9600)
PARTS = 4
"""The looks of acceptance are played up to each quarter of them."""


def seconds(action):
    start_s = time.perf_counter()
    action()
    return time.perf_counter() - start_s


def run(script, folder):
    words = ("coverage", "--profile", PROFILE, "--script", script, "--json")
    subprocess.run(
        [sys.executable, "-m", "termprobe.cli.main", *words],
        check=True,
        capture_output=True,
        cwd=ROOT,
        env=os.environ | {"XDG_CACHE_HOME": folder},
    )


def show_commands():
    """Print how long the whole command takes, and what it then says of the script."""
    profile = load(PROFILE)
    for script in SCRIPTS:
        with tempfile.TemporaryDirectory() as folder:
            cold_s = seconds(lambda script=script, folder=folder: run(script, folder))
            kept_s = seconds(lambda script=script, folder=folder: run(script, folder))
        plan = compile_plan(profile, load_script(script))
        costs = [effort(plan.steps, 10 / speed) for speed in SPEEDS_BAUD]
        times = ", ".join(
            f"{cost.sending_s + cost.looking_s:.0f} s at {speed} baud"
            for cost, speed in zip(costs, SPEEDS_BAUD, strict=True)
        )
        print(f"{script:<12}cold {cold_s:.1f} s, kept {kept_s:.1f} s")
        print(f"{'':<12}all its {costs[0].looks} looks take {times}")


def show_growth():
    """Print how the cost of the dictionary grows with the bytes of a script."""
    profile = load(PROFILE)
    plan = compile_plan(profile, load_script("acceptance"))
    looks = [step.id for step in plan.steps if isinstance(step, Look) and not step.not_fitted]
    faults = len(catalogue(profile))
    for part in range(1, PARTS + 1):
        chosen = choose(plan, looks[: len(looks) * part // PARTS])
        took_s = seconds(lambda chosen=chosen: fault_dictionary(profile, chosen))
        size = sum(len(step.data) for step in chosen.steps)
        each_us = 1e6 * took_s / faults / (size / 1000)
        print(
            f"{len(chosen.steps):>3} looks, {size:>6} bytes, {faults} faults: {took_s:5.2f} s, "
            f"{each_us:6.0f} us of a fault and 1,000 bytes"
        )
    dictionary = fault_dictionary(profile, plan)
    rest_s = seconds(lambda: coverage_of(dictionary, plan, profile))
    print(f"what is told of it, keyboard and smallest set included: {rest_s:.2f} s")


def main():
    print(f"{os.cpu_count()} processors, load {os.getloadavg()[0]:.1f}")
    show_commands()
    show_growth()


if __name__ == "__main__":
    main()
