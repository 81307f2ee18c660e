"""One fault explains all that has differed: the builder decides what is to become of it."""

from dataclasses import replace

from termprobe.folding import first_of
from termprobe.runner.known_fault import NamedFault
from termprobe.session.draw.rows import Rows, blank, paragraph
from termprobe.session.messages import DecideFault, Quit
from termprobe.session.mode import Mode, ModeKey, View
from termprobe.session.react.answering import after_looking
from termprobe.session.shared_keys import HELP, INTERRUPT, way_back
from termprobe.session.state import Reaction, State

ALIKE_SHOWN = 4
_UNFORESEEN = (
    "c goes on with the known fault: what this board shows with it cannot be foreseen, so that the "
    "looks wait until it is repaired, and all else is asked. The board itself does not pass."
)
CHOICES = (
    "c goes on with the known fault: each screen is drawn as this board shows it with that fault, "
    "so that all else can be judged and a second fault stands out. The board itself does not pass.",
    "m ends here to mend it; when the run goes on, what has differed is asked again.",
    "n asks on as before.",
)


def _named(state: State) -> NamedFault:
    """Return the fault; without one nobody gets here."""
    if state.prospect.named is None:
        raise RuntimeError("a fault must be named to be decided about")
    return state.prospect.named


@after_looking
def _carry_on(state: State, key: str) -> Reaction:
    """Go on with the fault known: what comes next is sent once that is written down."""
    known = _named(state).known(is_seen_by_eyes=True)
    return replace(state.at("waiting"), is_fault_decided=True).say(""), (DecideFault(known),)


@after_looking
def _mend(state: State, key: str) -> Reaction:
    """End the session for the repair."""
    decided = replace(state, is_fault_decided=True)
    return decided, (DecideFault(_named(state).to_repair()), Quit())


@after_looking
def _ask_on(state: State, key: str) -> Reaction:
    """Go back to the step in hand, and name no fault any more."""
    decided = replace(state.back(), is_fault_decided=True, ready_at_s=state.step_ready_at_s)
    return decided.say(""), ()


def _panel(view: View) -> Rows:
    named, columns = view.state.prospect.named, view.columns
    if named is None:
        return []
    rows = paragraph("One fault explains all that has differed:", columns)
    rows += paragraph(named.title, columns, "class:strong")
    if named.alike:
        alike = first_of(named.alike, ALIKE_SHOWN)
        rows += paragraph(f"No look tells it from {alike}.", columns)
    rows.append(blank())
    for sentence in named.told:
        rows += paragraph(sentence, columns)
    rows.append(blank())
    choices = CHOICES if named.is_foreseen else (_UNFORESEEN, *CHOICES[1:])
    for choice in choices:
        rows += paragraph(choice, columns)
    return rows


MODE = Mode(
    name="cause-named",
    title="one fault explains it: what now?",
    keys=(
        ModeKey(
            "c",
            _carry_on,
            "carry on",
            "go on; screens are expected as this board shows them with the known fault",
        ),
        ModeKey("m", _mend, "mend now", "end here for the repair; --resume asks again what failed"),
        way_back("n", _ask_on, "ask on", "ask on as before, as if no fault was named"),
        HELP,
        INTERRUPT,
    ),
    has_step=False,
    panel=_panel,
)
