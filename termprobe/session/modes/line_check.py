"""What a check of the line found was not as it must be; the builder sees it before going on."""

from termprobe.plan.model import LineCheck
from termprobe.report.words import drawing, reason
from termprobe.session.draw.rows import Rows, paragraph, plain
from termprobe.session.mode import Mode, View
from termprobe.session.modes.reply import SEEN_KEYS


def _task(view: View) -> Rows:
    state = view.state
    if not isinstance(state.step, LineCheck):
        return []
    verdict = state.course.verdict(state.step.id)
    shown = paragraph(reason(verdict), view.columns)
    return shown + [plain(f"  {row}") for row in drawing(verdict)]


MODE = Mode(
    name="line-check",
    title="what the line did",
    keys=SEEN_KEYS,
    kind=LineCheck.kind,
    is_of_step=True,
    task=_task,
    shows_question=True,
)
