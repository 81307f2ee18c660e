"""What the builder answered last, kept from one time to the next; nothing depends on it."""

import contextlib
import json
import os
import pathlib
from collections.abc import Mapping

ASKED_FOR = ("port", "profile", "script", "board")


def state_file() -> pathlib.Path:
    """Return where the answers are kept: in $XDG_STATE_HOME, or in ~/.local/state."""
    told = pathlib.Path(os.environ.get("XDG_STATE_HOME", ""))
    folder = pathlib.Path(os.path.expanduser("~"), ".local", "state")
    if told.is_absolute():
        folder = told
    return folder / "termprobe" / "last-answers.json"


def last_answers() -> dict[str, str]:
    """Return name -> answer for what was answered last; empty where nothing can be read."""
    try:
        kept = json.loads(state_file().read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    if not isinstance(kept, dict):
        return {}
    return {name: kept[name] for name in ASKED_FOR if isinstance(kept.get(name), str)}


def remember(answers: Mapping[str, str]) -> None:
    """Keep `answers` beside those of before; where that cannot be done nothing is kept."""
    path = state_file()
    text = json.dumps({**last_answers(), **answers}, indent=1)
    fresh = path.with_suffix(f".{os.getpid()}")
    with contextlib.suppress(OSError):
        path.parent.mkdir(parents=True, exist_ok=True)
        fresh.write_text(text, encoding="utf-8")
        fresh.replace(path)
