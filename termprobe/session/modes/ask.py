"""A question is answered with yes or no."""

from termprobe.plan.model import Ask
from termprobe.session.mode import Mode, ModeKey
from termprobe.session.react.answering import as_expected, by_board_key, differs
from termprobe.session.shared_keys import (
    AROUND,
    AT_ANY_TIME,
    DISPUTED_KEY,
    UNSURE_KEY,
    hint_of_answers,
)

YES = ModeKey("y", as_expected, "yes", "yes: it is as it must be")
NO = ModeKey("n", differs, "no", "no: it is not as it must be")

MODE = Mode(
    name="ask",
    title="answer the question",
    keys=(YES, NO, UNSURE_KEY, DISPUTED_KEY, *AROUND, *AT_ANY_TIME),
    kind=Ask.kind,
    is_of_step=True,
    on_code=by_board_key,
    shows_question=True,
    hint=hint_of_answers(YES, NO),
)
