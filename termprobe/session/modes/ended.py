"""The steps are at their end: each has its verdict, or was passed over."""

from termprobe.report.headline import Scope, headline
from termprobe.report.scope_words import limits
from termprobe.report.step_groups import NOT_TRIED, step_groups
from termprobe.session.draw.rows import Rows, blank, paragraph
from termprobe.session.draw.step_list import step_row
from termprobe.session.mode import Mode, ModeKey, View
from termprobe.session.react.asides import interrupt, jump, read_report, stop
from termprobe.session.react.in_hand import go_back
from termprobe.session.shared_keys import ADD_NOTE, HELP
from termprobe.session.state import State
from termprobe.verdict.counts import Counts, counts
from termprobe.verdict.model import PASS, UNANSWERED

NOT_LISTED = (PASS, *NOT_TRIED)


def _panel(view: View) -> Rows:
    """Return the headline of the run, how far it goes, and the steps that have no good verdict."""
    state, columns = view.state, view.columns
    verdict = state.course.verdicts
    scope = Scope(state.left_out, state.is_practice, state.is_from_card, is_on_link_too=True)
    first = headline(state.board, state.plan, verdict, scope)
    rows = [blank()]
    for text in filter(None, (first, state.cause, *state.ending)):
        rows += [*paragraph(text, columns, "class:strong"), blank()]
    for text in limits(verdict, scope, ()):
        rows += [*paragraph(text, columns), blank()]
    if state.path:
        rows += [*_whereabouts(state.path, columns), blank()]
    found = counts(verdict.steps)
    told = f"{_how_many_have_one(found)}: {', '.join(found.in_words())}"
    rows += [*paragraph(told, columns), blank()]
    for group in step_groups(state.plan, verdict):
        rows += paragraph(f"{group.verdict}: {group.in_words()}", columns)
    bad = [step for step in state.plan.steps if state.course.word(step.id) not in NOT_LISTED]
    listed = [step_row(state, step, columns) for step in bad]
    return rows + listed[: max(view.rows - len(rows), 0)]


def _how_many_have_one(found: Counts) -> str:
    """Return whether every step has its verdict, else how many of them have none."""
    open_steps = found.of(UNANSWERED)
    if not open_steps:
        return "Every step has its verdict"
    return f"{open_steps} of {found.all} steps have no verdict yet (j lists them); so far"


def _whereabouts(path: str, columns: int) -> Rows:
    """Return where the run file lies, and how its report is read."""
    report = f"Its report: r reads it here; later, termprobe report {path}"
    return paragraph(f"Run file: {path}", columns) + paragraph(report, columns)


def _is_read(state: State) -> bool:
    return bool(state.report)


MODE = Mode(
    name="ended",
    title="the end of the steps",
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
