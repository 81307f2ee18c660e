"""A run as plain text, 80 columns wide, safe for any console and printer."""

import textwrap

from termprobe import notation
from termprobe.terminal.screen import UNKNOWN
from termprobe.verdict import model

WIDTH = 80
CELLS_SHOWN = 4
ORDER = (
    model.PASS,
    model.FAIL,
    model.DISPUTED,
    model.UNSURE,
    model.UNANSWERED,
    model.BLOCKED,
    model.SKIPPED,
    model.NOT_FITTED,
)


def render(report):
    """Return the report as text; its first word is PASS, FAIL or INCOMPLETE."""
    lines = [headline(report), ""]
    lines += _identity(report)
    failed = [step for step in report.verdict.steps if step.verdict == model.FAIL]
    if failed:
        lines += ["", "What failed"] + [
            line for group in _alike(failed) for line in _evidence(group)
        ]
    lines += ["", "Stage by stage"]
    for stage in report.plan.stages:
        lines += _stage(stage, [step for step in report.verdict.steps if step.stage == stage.id])
    lines += ["", "Totals   " + ", ".join(_totals(report.verdict.steps))]
    for text in (*report.notes, *report.damages):
        lines += _wrapped("Note     ", text)
    return "\n".join(line.rstrip() for line in lines) + "\n"


def headline(report):
    """Return the one line that says pass, fail or incomplete, of which board, and why."""
    verdict, steps = report.verdict.verdict, report.verdict.steps
    board = f"board {notation.visible(report.header['board']['serial'])}"
    fitted = [step for step in steps if step.verdict != model.NOT_FITTED]
    count = report.verdict.count
    if verdict == model.FAIL:
        left = len(
            [
                step
                for step in fitted
                if step.verdict not in (model.PASS, model.FAIL, model.DISPUTED)
            ]
        )
        return f"FAIL: {board} failed {count(model.FAIL)} of {len(fitted)} steps" + (
            f"; {left} are not proven" if left else ""
        )
    if verdict == model.PASS:
        disputed = (
            f"; {count(model.DISPUTED)} held for a wrong expectation"
            if count(model.DISPUTED)
            else ""
        )
        return f"PASS: {board} passed {count(model.PASS)} of {len(fitted)} steps{disputed}"
    return f"INCOMPLETE: {board} passed {count(model.PASS)} of {len(fitted)} steps, the rest is not proven"


def _identity(report):
    board, link = report.header["board"], report.header.get("link", {})
    about = [f"serial {board['serial']}"]
    about += [
        f"{word} {board[key]}"
        for key, word in (("revision", "revision"), ("builder", "built by"), ("fitted", "fitted:"))
        if board.get(key)
    ]
    rows = [
        ("Board", ", ".join(about)),
        ("Profile", report.plan.profile_id),
        ("Script", f"{report.plan.script_id}, plan {report.plan.hash[:12]}"),
        (
            "Link",
            " ".join(str(link[key]) for key in ("name", "format", "note") if link.get(key))
            or "none",
        ),
        (
            "Options",
            ", ".join(f"{option} {position}" for option, position in report.options) or "none set",
        ),
        ("Run", f"{report.path}, {report.header.get('at', '')} to {report.ended}"),
        ("Tool", report.header.get("tool", "")),
    ]
    return [line for word, text in rows for line in _wrapped(f"{word:<9}", text)]


def _stage(stage, steps):
    lines = [f"  {stage.title}: {', '.join(_totals(steps)) or 'no steps'}"]
    presses = [
        step for step in steps if step.id.startswith("press/") and step.verdict == model.PASS
    ]
    if presses:
        lines.append(f"    {model.PASS:<11}{len(presses)} presses, each with its code")
    for step in steps:
        if step.verdict != model.NOT_FITTED and step not in presses:
            word = "FAIL" if step.verdict == model.FAIL else step.verdict
            lines += _wrapped(f"    {word:<11}{step.id}  ", step.reason or step.title, 15)
    missing = [step.id for step in steps if step.verdict == model.NOT_FITTED]
    return lines + (
        _wrapped(f"    {model.NOT_FITTED:<11}", ", ".join(missing), 15) if missing else []
    )


def _alike(failed):
    """Return the failed steps in groups that the same first sentence of evidence explains, largest group first."""
    groups = {}
    for step in failed:
        groups.setdefault(step.evidence[0] if step.evidence else step.id, []).append(step)
    return sorted(groups.values(), key=lambda group: -len(group))


def _evidence(group):
    """Return the lines on steps that failed alike: the sentence, the steps, the cells of the first one."""
    first = group[0]
    if len(group) == 1:
        lines = _wrapped("  ", f"{first.id}: {first.title}")
        texts = [first.reason, *first.evidence]
    else:
        lines = _wrapped("  ", f"{len(group)} steps: {first.evidence[0]}")
        texts = [
            ", ".join(step.id for step in group),
            f"in {first.id}: {first.reason}",
            *first.evidence[1:],
        ]
    texts += [_cell(cell) for cell in first.differs[:CELLS_SHOWN]]
    if len(first.differs) > CELLS_SHOWN:
        texts.append(f"and {len(first.differs) - CELLS_SHOWN} more cells")
    return lines + [line for text in texts if text for line in _wrapped("    - ", text)]


def _cell(cell):
    row, column, expected, seen = cell
    if seen == UNKNOWN:
        return f"row {row}, column {column}: expected {_character(expected)}, marked as differing"
    return f"row {row}, column {column}: expected {_character(expected)}, seen {_character(seen)}"


def _character(character):
    code = ord(character)
    if 0x2400 <= code <= 0x2421:  # a control picture stands for the code itself
        code = 0x7F if code == 0x2421 else code - 0x2400
    if code == 0x22:
        return "'\"' (22h)"  # the notation has no quoted form for the quote itself
    return (
        f"{notation.show_code(code)} ({code:02X}h)"
        if code < 0x80
        else f"{notation.visible(character)} (U+{code:04X})"
    )


def _totals(steps):
    return [
        f"{count} {verdict}"
        for verdict in ORDER
        if (count := sum(step.verdict == verdict for step in steps))
    ]


def _wrapped(first, text, indent=None):
    indent = len(first) if indent is None else indent
    return textwrap.wrap(
        first + notation.visible(str(text)),
        WIDTH,
        subsequent_indent=" " * indent,
        drop_whitespace=True,
        break_on_hyphens=False,
    ) or [first]
