"""What each key does: the key is looked up in the present mode.

Pure: the time is passed in.
"""

from dataclasses import replace

from termprobe.session.mode_table import MODES
from termprobe.session.state import Reaction, State


def press(state: State, key: str, now_s: float) -> Reaction:
    """Return the reaction to `key` at `now_s`.

    A key is a character, or a name that prompt_toolkit gives it; `enter`, `space` and `backspace`
    are called so.
    """
    state = replace(state, now_s=now_s)
    mode = MODES[state.mode]
    taken = mode.takes_first(state, key)
    if taken is not None:
        return taken
    # What was typed before by mistake ends with a key that means something.
    state = replace(state, mistyped="")
    bound = mode.find(key, state)
    action = mode.other if bound is None else bound.action
    return action(state, key)
