"""A screen is looked at and answered."""

from termprobe.plan.model import Look
from termprobe.session.mode import Mode, ModeKey
from termprobe.session.react.answering import as_expected, by_board_key, differs
from termprobe.session.shared_keys import (
    AROUND,
    AT_ANY_TIME,
    DISPUTED_KEY,
    UNSURE_KEY,
    hint_of_answers,
)

YES = ModeKey("y", as_expected, "as expected", "the screen is exactly as expected, cursor included")
NO = ModeKey("n", differs, "differs", "it differs: mark where, or press enter at once")

MODE = Mode(
    name="look",
    title="look at the screen",
    keys=(YES, NO, UNSURE_KEY, DISPUTED_KEY, *AROUND, *AT_ANY_TIME),
    kind=Look.kind,
    is_of_step=True,
    on_code=by_board_key,
    shows_screen=True,
    shows_question=True,
    hint=hint_of_answers(YES, NO),
)
