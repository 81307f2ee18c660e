"""The board must be switched off: nothing is sent, and only the step that says so can be tried."""

from termprobe.plan.model import Measure
from termprobe.report import words
from termprobe.session.draw.rows import Rows, blank, paragraph, plain
from termprobe.session.mode import Mode, ModeKey, View
from termprobe.session.react.asides import stop
from termprobe.session.react.in_hand import take_again
from termprobe.session.shared_keys import ADD_NOTE, HELP, INTERRUPT

UNTIL = (
    "Nothing is sent to the board and no other step can be tried, until this one is as it must be."
)


def _panel(view: View) -> Rows:
    step, columns = view.state.step, view.columns
    reason = words.reason(view.state.course.verdict(step.id)) or "not as it must be"
    again = "try it again"
    if isinstance(step, Measure):
        again = "measure again"
    return [
        blank(),
        plain("  SWITCH OFF NOW", "class:fail"),
        blank(),
        *paragraph(f"{step.title}: {reason}.", columns, "class:strong"),
        *paragraph(f"The rule: switch off at once if {step.stop_if}.", columns, "class:fail"),
        blank(),
        *paragraph(UNTIL, columns),
        blank(),
        *paragraph(
            f"Put it right, then press m to {again}; q stops here, and --resume goes on.",
            columns,
            "class:strong",
        ),
    ]


MODE = Mode(
    name="switch-off",
    title="switch the board off",
    keys=(
        ModeKey("m", take_again, "measure again", "try the step again, once it is put right"),
        ModeKey(
            "q escape",
            stop,
            "stop",
            "stop here; --resume goes on with this step",
            is_always_shown=True,
        ),
        ADD_NOTE,
        HELP,
        INTERRUPT,
    ),
    panel=_panel,
    link_word="SWITCH OFF",
)
