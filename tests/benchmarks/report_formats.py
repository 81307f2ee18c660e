"""How large the formats of a report are, how long they take, and what axe-core finds in its page.

The runs are of 1, 60 and 600 looks at full screens, a third of which failed with half of their
cells wrong; and a page is of 60 that all failed. Run:
.venv/bin/python tests/benchmarks/report_formats.py
"""

import dataclasses
import pathlib
import sys
import tempfile
import time

ROOT = pathlib.Path(__file__).resolve().parent.parent.parent
sys.path[:0] = [str(ROOT), str(ROOT / "tests")]

from helpers.chromium import AXE, looked_at  # noqa: E402
from helpers.reports import report, step  # noqa: E402
from helpers.whole_reports import PROFILE  # noqa: E402
from termprobe.journal.records import Answer, Answered  # noqa: E402
from termprobe.plan.model import Group, Look  # noqa: E402
from termprobe.report.table import FORMATS  # noqa: E402
from termprobe.terminal.screen import Screen, differences  # noqa: E402
from termprobe.verdict.model import Differing  # noqa: E402

STEPS = (1, 60, 600)
CHART = "".join(map(chr, range(33, 127))) * 3
ROWS = tuple(CHART[7 * row : 7 * row + 80] for row in range(24))
SEEN = tuple("".join(chr(ord(one) | 8) for one in row) for row in ROWS)
CELLS = differences(ROWS, SEEN)
AT = "2026-01-02T03:04:06+00:00"


def verdict(number):
    if number % 3:
        return step("pass", f"s{number}", answers=1)
    return failed(number)


def failed(number):
    because = Differing(len(CELLS))
    return step("fail", f"s{number}", answers=1, differs=CELLS, because=because)


def run_of(count, verdict=verdict):
    """Return the RunReport of so many looks; `verdict(number)` is what each has shown."""
    made = report(*map(verdict, range(count)))
    groups = (Group("".join(ROWS).encode(), "chart"),)
    looks = tuple(
        Look(one.id, "link", f"Look {one.id}", groups=groups, expected=Screen(ROWS, None))
        for one in made.verdict.steps
    )
    records = tuple(
        Answered(one.id, Answer("differs", SEEN, observer="dump"), at=AT)
        for one in made.verdict.steps
    )
    plan = dataclasses.replace(made.plan, steps=looks)
    return dataclasses.replace(made, plan=plan, records=records, profile=PROFILE)


def main():
    for count in STEPS:
        made = run_of(count)
        for name, render in sorted(FORMATS.items()):
            render([made])
            began = time.process_time()
            text = render([made])
            took_ms = 1000 * (time.process_time() - began)
            print(
                f"{count:>4} steps  {name:<9}{len(text.encode()) / 1000:>9.1f} kB{took_ms:>8.0f} ms"
            )
    page = FORMATS["html"]([run_of(60, failed)])
    print(f"  60 steps  html, all failed {len(page.encode()) / 1000:>6.1f} kB")
    if not AXE.exists():
        print("axe-core is not installed: npm --prefix tests/pages ci")
        return
    with tempfile.TemporaryDirectory() as folder:
        pages = {"60 steps": FORMATS["html"]([run_of(60)])}
        for one in looked_at(pathlib.Path(folder), pages):
            print(f"axe-core, {one['width']} pixels: {one['violations']}")


if __name__ == "__main__":
    main()
