"""What a check of the line found was not as it must be; the builder sees it before going on."""

from termprobe.plan.model import LineCheck
from termprobe.report.words import reason
from termprobe.session.draw.rows import Rows, paragraph
from termprobe.session.mode import Mode, ModeKey, View
from termprobe.session.modes.reply import go_to_next
from termprobe.session.shared_keys import AROUND, BESIDE_A_STEP, DISPUTED_KEY


def _task(view: View) -> Rows:
    state = view.state
    if not isinstance(state.step, LineCheck):
        return []
    return paragraph(reason(state.course.verdict(state.step.id)), view.columns)


MODE = Mode(
    name="line-check",
    title="what the line did",
    keys=(
        ModeKey("enter space escape", go_to_next, "go on", "go on to the next step"),
        DISPUTED_KEY,
        *AROUND,
        *BESIDE_A_STEP,
    ),
    kind=LineCheck.kind,
    is_of_step=True,
    task=_task,
    shows_question=True,
)
