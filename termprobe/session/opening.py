"""What the session begins with: the first State, and what is to be said before the first step. Pure."""

from termprobe.session.react.answering import KEPT_LOOKS as KEPT_PACES
from termprobe.session.state import State
from termprobe.verdict.model import NOT_FITTED

NAMED, LONG_LOOK_S = 12, 600.0
PRACTICE = (
    "Practice: a simulated board with a fault that is not told before the end. Where the console is 165 columns wide its screen "
    "stands beside the expected one; elsewhere v shows it. i types on its keyboard."
)
REHEARSAL = "A simulated board. Where the console is 165 columns wide its screen stands beside the expected one; elsewhere v shows it."


def first_state(
    plan,
    profile,
    line_format,
    board,
    link_name,
    records=(),
    changed=(),
    practice=None,
    path="",
    positions=None,
    ending=(),
):
    """Return the State to begin with.

    `board` is the header's record of the board; `records` are those of a run that is resumed; `changed` the ids of the steps
    that are not what they were; `practice` is None for a real board, else whether the fault is hidden; `positions` says where
    the options stand, `ending` what is told at the end.
    """
    revision = f" rev. {board['revision']}" if board.get("revision") else ""
    options = dict(positions or {}) | {
        record["option"]: record["position"] for record in records if record["kind"] == "option"
    }
    opening = [
        *_size(plan),
        f"Run file: {path}" if path else "",
        *resumed(plan, records, changed),
        "" if practice is None else PRACTICE if practice else REHEARSAL,
    ]
    return State(
        plan,
        profile,
        line_format,
        f"board {board['serial']}{revision}",
        link_name,
        is_practice=practice is not None,
        options=options,
        opening=tuple(text for text in opening if text),
        trail=_answered(plan, records),
        looks_s=paces_s(records),
        ending=tuple(ending),
    )


def _size(plan):
    fitted = [step for step in plan.steps if not step.not_fitted]
    other = len(plan.steps) - len(fitted)
    more = f"; {other} more are {NOT_FITTED} on this terminal" if other else ""
    return (
        f"{len(fitted)} steps in {len(plan.stages)} stage{'s' * (len(plan.stages) > 1)}{more}.",
    )


def _answered(plan, records):
    known = {step.id for step in plan.steps}
    return tuple(
        record["step"]
        for record in records
        if record["kind"] == "answer" and record.get("step") in known
    )


def paces_s(records):
    """Return how long the latest answers took, from the step's beginning on; what took longer than a long look is a pause."""
    begun, found = {}, []
    for record in records:
        if record["kind"] == "step":
            begun[record["step"]] = record["t"]
        elif record["kind"] == "answer" and record["step"] in begun:
            found.append(record["t"] - begun.pop(record["step"]))
    return tuple(took_s for took_s in found if 0 <= took_s < LONG_LOOK_S)[-KEPT_PACES:]


def resumed(plan, records, changed):
    """Return sentences on how far the run was, and which steps have changed since."""
    if not records:
        return ()
    answered = set(_answered(plan, records))
    told = [f"The run goes on: {len(answered)} of {len(plan.steps)} steps have an answer already."]
    gone = {record["step"] for record in records if record["kind"] == "answer"} - {
        step.id for step in plan.steps
    }
    again = [name for name in changed if name in answered]
    fresh = [name for name in changed if name not in answered]
    if not (changed or gone):
        return (*told, "Profile and script are what they were.")
    told.append("Profile or script was edited since.")
    if again:
        told.append(
            f"Answered, but changed since then; go to them with j and answer again: {_names(again)}."
        )
    if fresh:
        told.append(f"Changed or new, not answered yet: {_names(fresh)}.")
    if gone:
        told.append(f"Answered, but no longer in the script: {_names(sorted(gone))}.")
    return tuple(told)


def _names(names):
    return ", ".join(names[:NAMED]) + (
        f" and {len(names) - NAMED} more" if len(names) > NAMED else ""
    )
