"""States of the session on the plan of bench_plan.py, and what the console shows of them."""

import dataclasses

from helpers.bench_plan import PROFILE, full_plan
from termprobe.link.base import LineFormat
from termprobe.session.draw.console_rows import draw_console
from termprobe.session.react import dispatch, hearing
from termprobe.session.state import State
from termprobe.verdict.judge import judge

LINE = LineFormat(9600, 7, "even", 1)


def state(step_id="hello", mode="look", **changes):
    """Return a state whose screen has long been there."""
    made = State(
        full_plan(),
        PROFILE,
        LINE,
        "board 0007",
        "/dev/ttyUSB0",
        mode=mode,
        step_id=step_id,
        ready_at_s=-9.0,
    )
    return dataclasses.replace(made, **changes)


def after(made, *keys, now_s=0.0):
    """Return the state after some keys."""
    for key in keys:
        made = dispatch.press(made, key, now_s)[0]
    return made


def asked_by(made, key, now_s=0.0):
    """Return what a key asks of the worker."""
    return dispatch.press(made, key, now_s)[1]


def after_event(made, event, now_s=0.0):
    """Return the state after an event."""
    return hearing.hear(made, event, now_s)[0]


def rows_of(drawn):
    """Return the texts of rows."""
    return ["".join(text for _, text in row) for row in drawn]


def console(made, columns=100, rows=32):
    """Return what the console shows."""
    return "\n".join(row.rstrip() for row in rows_of(draw_console(made, columns, rows)))


def answers(*pairs):
    """Return the RunVerdict after (step, word) pairs of answers."""
    records = [
        {"kind": "answer", "step": name, "word": word, "hash": f"hash of {name}"}
        for name, word in pairs
    ]
    return judge(full_plan(), records)
