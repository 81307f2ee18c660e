"""How far the session is, in its own words: whether any key may be pressed, how long it will take.

Pure. What the run is due stands in termprobe/runner/course.py.
"""

from termprobe.runner.time_left import time_left_s
from termprobe.session.state import State

MINUTE_S, HOUR_S = 60, 3600


def is_any_key(state: State) -> bool:
    """Return whether any key may be pressed.

    So it is in free order, but where a key answered already is to be pressed again.
    """
    return state.course.is_any_press(state.step, state.is_free)


def seconds_left(state: State) -> float | None:
    """Return the seconds that the steps left will take if all is well, at the pace so far."""
    return time_left_s(state.course.steps_left(), state.format.character_s, state.looks_s)


def shown_time(seconds: float) -> str:
    """Return a duration as people say it."""
    if seconds < 1.5 * MINUTE_S:
        return f"about {max(round(seconds / 10) * 10, 10)} s"
    if seconds < 1.5 * HOUR_S:
        return f"about {round(seconds / MINUTE_S)} min"
    return f"about {seconds / HOUR_S:.1f} h"
