"""Plan and records of a run to verdicts: pure, so that they can be computed again at any time.

The last answer to a step counts, and none that was taken back. What can be compared is compared again here, whatever word the observer chose: rows,
cursor, bells, returned bytes, readings. A step is blocked only where one that it needs failed or is itself blocked; where
one that it needs was skipped, left unanswered or disputed, nothing is known against it and it may still be tried. A step
that nobody answered passes where a look that covers it passed.
"""

from termprobe import notation
from termprobe.plan.model import MEASURE, REPLY, TYPED_BACK
from termprobe.plan.presses import press_of
from termprobe.terminal.screen import UNKNOWN, differences
from termprobe.verdict import evidence
from termprobe.verdict.model import (
    BLOCKED,
    DISPUTED,
    FAIL,
    INCOMPLETE,
    NOT_FITTED,
    PASS,
    SKIPPED,
    UNANSWERED,
    UNSURE,
    RunVerdict,
    StepVerdict,
)
from termprobe.verdict.noticed import Listening, notice, outcome, rate

_OF_WORD = {
    "as-expected": PASS,
    "differs": FAIL,
    "unsure": UNSURE,
    "disputed": DISPUTED,
    "skipped": SKIPPED,
}
_EYES = 1


def judge(plan, records, known=None):
    """Return the RunVerdict of `plan` by the journal's `records` (dicts, in order).

    `known` is a dict that is filled here; given again with the same plan and the same records and more, it saves work.
    """
    known = {} if known is None else known
    answers = {step.id: [] for step in plan.steps}
    for record in records:
        if record["kind"] == "answer" and record.get("step") in answers:
            answers[record["step"]].append(record)
        elif record["kind"] == "taken-back" and record.get("step") in answers:
            answers[record["step"]] = _TakenBack(answers[record["step"]])
    codes = dict(plan.key_codes)
    own = {step.id: _known(known, step, answers[step.id], codes) for step in plan.steps}
    blocked = _blocked(plan, own)
    passed = {
        step_id
        for step_id, verdict in own.items()
        if verdict.verdict == PASS and step_id not in blocked
    }
    verdicts = tuple(
        _with_others(step, own[step.id], blocked.get(step.id), passed) for step in plan.steps
    )
    return RunVerdict(_of_run(verdicts), verdicts)


class _TakenBack(list):
    """The answers to a step after those before were taken back; `before` tells how many."""

    def __init__(self, earlier):
        super().__init__()
        self.before = getattr(earlier, "before", 0) + len(earlier)


def _known(known, step, answers, codes):
    key = step.id, len(answers), getattr(answers, "before", 0)
    if key not in known:
        known[key] = _own(step, answers, codes)
    return known[key]


def changed(plan, records):
    """Return the ids of steps answered while they were something else than they are in `plan`, in plan order."""
    asked = {
        record["step"]: record["hash"]
        for record in records
        if record["kind"] == "answer" and record.get("hash")
    }
    return tuple(step.id for step in plan.steps if asked.get(step.id, step.hash) != step.hash)


def _of_run(verdicts):
    kinds = {verdict.verdict for verdict in verdicts}
    if FAIL in kinds:
        return FAIL
    return PASS if PASS in kinds and kinds <= {PASS, DISPUTED, NOT_FITTED} else INCOMPLETE


def _blocked(plan, own):
    """Return step id -> reason for each step that needs, directly or through others, one that failed."""
    reasons, count = {}, -1
    while count < len(reasons):
        count = len(reasons)
        for step in plan.steps:
            for need in step.needs if step.id not in reasons else ():
                if need in own and own[need].verdict == FAIL and need not in reasons:
                    reasons[step.id] = f"needs {need}, which failed"
                elif need in reasons:
                    reasons[step.id] = (
                        f"needs {need}, which is blocked: {reasons[need].split('; ')[0]}"
                    )
                else:
                    continue
                break
    return reasons


def _with_others(step, own, reason, passed):
    """Return the StepVerdict with what other steps say of this one: `reason` why it is blocked, or None; ids of those `passed`."""
    if own.verdict == UNANSWERED and reason is None and step.is_covered(passed):
        by = " and ".join(look for look in step.covered_by if look in passed)
        return StepVerdict(step.id, step.stage, step.title, PASS, f"covered by {by}, which passed")
    if reason is None or own.verdict == NOT_FITTED:
        return own
    ignored = (
        (f"an answer was given ({own.verdict}); it means nothing before that works",)
        if own.answers
        else ()
    )
    return StepVerdict(
        step.id, step.stage, step.title, BLOCKED, reason, evidence=ignored, answers=own.answers
    )


def _own(step, answers, codes):
    """Return the StepVerdict by the step's own answers alone; `codes` says which press sends which code."""

    def verdict(word, reason="", **fields):
        return StepVerdict(
            step.id, step.stage, step.title, word, reason, answers=len(answers), **fields
        )

    if step.not_fitted:
        return verdict(NOT_FITTED, step.not_fitted)
    if not answers:
        return verdict(UNANSWERED)
    last = answers[-1]
    said = _OF_WORD.get(last.get("word"))
    note = (f"note: {last['note']}",) if last.get("note") else ()
    remarks = note + _remarks(step, last)
    if said in (UNSURE, DISPUTED, SKIPPED):
        return verdict(
            said,
            last.get("note") or "",
            evidence=_remarks(step, last),
            observer=last.get("observer", ""),
        )
    found, reason, fields = (
        _pressed(step, answers, codes) if last.get("heard") else _compared(step, last, said)
    )
    fields["evidence"] = fields.get("evidence", ()) + remarks
    return verdict(found, reason, observer=last.get("observer", ""), **fields)


def _remarks(step, answer):
    changed_since = answer.get("hash") and step.hash and answer["hash"] != step.hash
    return ("answered before the step was changed; answer it again",) if changed_since else ()


def _compared(step, answer, said):
    """Return (verdict, reason, more fields of StepVerdict)."""
    if step.kind == MEASURE:
        return _measured(step, answer.get("value"))
    if step.kind == REPLY and answer.get("data") is not None:
        return _returned(step.reply, bytes.fromhex(answer["data"]))
    if step.kind == TYPED_BACK and answer.get("data") is not None:
        return _returned(step.typed, bytes.fromhex(answer["data"]))
    if step.expected is not None and answer.get("seen") is not None:
        return _seen(step.expected, answer, said)
    return (said or UNANSWERED), "", {}


def _measured(step, value):
    if value is None:
        return UNANSWERED, "not measured", {}
    reading = f"{value:.6g} {step.unit or ''}".strip()
    inside = step.allows(value)
    source = (f"limits from {step.source}",) if step.source and step.limits else ()
    relation = (
        f"{'within' if inside else 'outside'} the limits, {step.limits}"
        if step.limits
        else "noted; no limits are given"
    )
    return (PASS if inside else FAIL), f"{reading}, {relation}", {"evidence": source}


def _returned(wanted, came):
    if wanted == came:
        return PASS, f"{notation.show(came)} came back", {}
    what = notation.show(came) if came else "nothing"
    return (
        FAIL,
        f"{notation.show(wanted)} must come back, not {what}",
        {"evidence": evidence.of_bytes(wanted, came)},
    )


def _pressed(step, answers, codes):
    """Judge a press by what came: the last press counts, all of them together give the rate of a contact that fails at times."""
    press = press_of(step)
    noticed = [
        notice(press, *heard(answer["heard"], step, codes))
        for answer in answers
        if answer.get("heard")
    ]
    texts = tuple(one.text for one in noticed[-1])
    worked = rate(noticed)
    flaky = (worked.text,) if 0 < worked.came < worked.of else ()
    return (FAIL if flaky else outcome(noticed[-1])), texts[0], {"evidence": texts[1:] + flaky}


def heard(record, step, codes):
    """Return (received, listening) for presses.notice, from the journal's record of what came."""
    received = tuple((at_s, bytes.fromhex(data), error) for at_s, data, error in record["events"])
    return received, Listening(record["speed_baud"], record["data_bits"], codes, step.may_repeat)


def _seen(expected, answer, said):
    differs = differences(expected.rows, answer["seen"])
    reasons = []
    if differs:
        reasons.append(f"{len(differs)} {'cell differs' if len(differs) == 1 else 'cells differ'}")
    cursor = answer.get("cursor")
    if (
        cursor is not None
        and expected.cursor is not None
        and tuple(cursor) != tuple(expected.cursor)
    ):
        reasons.append(f"the cursor must be at {_place(expected.cursor)}, not at {_place(cursor)}")
    bells = answer.get("bells")
    if bells is not None and bells != expected.bells:
        reasons.append(f"the bell must ring {_times(expected.bells)}, not {_times(bells)}")
    if not reasons and said != FAIL:
        return PASS, "", {}
    told = tuple(cell for cell in differs if cell[3] != UNKNOWN)
    proof = evidence.of_screen(expected.rows, told, is_whole=answer.get("strength", _EYES) > _EYES)
    return FAIL, "; ".join(reasons) or "seen to differ", {"differs": differs, "evidence": proof}


def _place(cursor):
    return f"row {cursor[0]}, column {cursor[1]}"


def _times(count):
    return {0: "never", 1: "once"}.get(count, f"{count} times")
