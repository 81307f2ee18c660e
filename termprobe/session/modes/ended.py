"""Every step has its verdict."""

from termprobe.session.draw.rows import Rows, blank, paragraph
from termprobe.session.draw.step_list import counted, step_row
from termprobe.session.mode import Mode, ModeKey, View
from termprobe.session.react.asides import interrupt, jump, read_report, stop
from termprobe.session.react.in_hand import go_back
from termprobe.session.shared_keys import ADD_NOTE, HELP
from termprobe.session.state import State
from termprobe.verdict.model import NOT_FITTED, PASS, UNANSWERED

NOT_BAD = (PASS, NOT_FITTED, UNANSWERED)


def _panel(view: View) -> Rows:
    """Return how many verdicts there are of each kind, and the steps that have no good one."""
    state, columns = view.state, view.columns
    steps = state.plan.steps
    words = [state.course.word(step.id) for step in steps]
    told = f"Every step has its verdict: {', '.join(counted(words))}"
    rows = [blank()]
    for text in filter(None, (state.headline, told, *state.ending)):
        rows += [*paragraph(text, columns, "class:strong"), blank()]
    if state.path:
        rows += [*_whereabouts(state.path, columns), blank()]
    bad = [step for step, word in zip(steps, words, strict=True) if word not in NOT_BAD]
    listed = [step_row(state, step, columns) for step in bad]
    return rows + listed[: max(view.rows - len(rows), 0)]


def _whereabouts(path: str, columns: int) -> Rows:
    """Return where the run file lies, and how its report is read."""
    report = f"Its report: r reads it here; later, termprobe report {path}"
    return paragraph(f"Run file: {path}", columns) + paragraph(report, columns)


def _is_read(state: State) -> bool:
    return bool(state.report)


MODE = Mode(
    name="ended",
    title="every step has its verdict",
    keys=(
        ModeKey("q enter escape", stop, "end", "end the session", is_always_shown=True),
        ModeKey("r", read_report, "report", "read the report", is_useful=_is_read),
        ModeKey("j", jump, "jump", "go to any step and answer it again"),
        ModeKey("b", go_back, "back", "back to the step answered last"),
        ADD_NOTE,
        HELP,
        ModeKey("c-c", interrupt, "", "stop at once"),
    ),
    has_step=False,
    panel=_panel,
)
