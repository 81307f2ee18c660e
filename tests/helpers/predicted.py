"""Wrong screens that are predicted, made of the right one without a board."""

from termprobe.plan.model import expected_of
from termprobe.terminal.predicted import Prediction, Predictions
from termprobe.terminal.screen import Screen


def lowered(rows):
    """Return the rows one row lower."""
    return (" " * len(rows[0]), *rows[:-1])


def changed(rows):
    """Return the rows with every letter one code too high."""
    return tuple("".join(chr(ord(c) + c.isalpha()) for c in row) for row in rows)


def predictions_of(step):
    """Return three Predictions for a step; None where it has no screen."""
    screen = expected_of(step)
    if screen is None:
        return None
    moved = Screen(lowered(screen.rows), screen.cursor)
    off = Screen(changed(screen.rows), screen.cursor)
    still = Screen(screen.rows, (2, 3), bells=1)
    return Predictions(
        step.id,
        (
            Prediction("aa", moved, "everything moved one row lower", 0.5),
            Prediction("bb", off, "every character one code too high", 0.25),
            Prediction("cc", still, "cursor at row 2, column 3; the bell rings once", 0.125),
        ),
    )
