"""Golden files: what a program printed and a person read.

They stand under tests/golden/recorded/, one file a case.
`tests/record` records them anew and shows what has changed.
"""

import os

from helpers.paths import RECORDED

RECORD = "TERMPROBE_RECORD"
"""Set in the environment, this makes each case write its file instead of comparing."""


def check(case, text):
    """Compare `text` with the golden file of `case`, a path such as `reports/session.txt`."""
    path = RECORDED / case
    if os.environ.get(RECORD):
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
        return
    assert path.exists(), f"{case} is not recorded yet: run tests/record"
    wanted = path.read_text(encoding="utf-8")
    assert text == wanted, f"{case} has changed; where that is meant, run tests/record"
