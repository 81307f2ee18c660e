"""Panels that take the place of the screen: caution, setting, reading, list, help, loop, pause, end. Pure: State -> styled lines."""

from termprobe.notation import show
from termprobe.plan.model import MEASURE, PRESS, REPLY, TYPED_BACK
from termprobe.report.keyboard_drawing import legend as keyboard_legend
from termprobe.session import keymap
from termprobe.session.draw import keyboard_rows
from termprobe.session.react import waveform
from termprobe.session.draw.fit import columns_of, cut, pad, wrap
from termprobe.session.react.typed_lines import judged_so_far, prompt
from termprobe.session.state import settings_due, steps_left, verdict_of
from termprobe.observer.base import AS_EXPECTED

MARKS = {
    "pass": "+",
    "fail": "X",
    "unsure": "?",
    "disputed": "!",
    "skipped": "-",
    "blocked": "#",
    "not-fitted": "o",
    "unanswered": " ",
}
"""A mark for each verdict, beside its word and colour."""
KEY_COLUMNS = 26


def panel(state, columns, rows):
    """Return the lines of the panel that the state calls for, or None where the screen is to be shown."""
    drawn = PANELS.get(
        state.before[-1] if state.mode == "line" and state.before[-1] in PANELS else state.mode
    )
    if drawn is None and state.step.kind == PRESS:
        drawn = (
            keyboard_rows.press_lines
        )  # also for the moment in which the next press is made ready
    if drawn is None and state.screen is None:
        drawn = _task
    return None if drawn is None else drawn(state, columns, rows)


def _text(style, text, columns, indent=2):
    return [[(style, " " * indent + line)] for line in wrap(text, max(columns - indent - 1, 1))]


def _blank():
    return [("", "")]


def _opening(state, columns, rows):
    lines = [_blank(), [("class:strong", f"  {cut(state.plan.title, columns - 3)}")], _blank()]
    for text in state.opening:
        lines += _text("", text, columns) + [_blank()]
    return lines + _text("class:strong", "Press enter to begin, ? for help.", columns)


def _caution(state, columns, rows):
    lines = [
        _blank(),
        [("class:fail", "  CAUTION")],
        _blank(),
        *_text("class:strong", state.step.caution, columns),
        _blank(),
    ]
    lines += _text("", f"Before: {state.step.title}", columns)
    if state.step.stop_if:
        lines += _text("class:fail", f"Switch off at once if: {state.step.stop_if}", columns)
    return [
        *lines,
        _blank(),
        *_text(
            "class:strong", "Press enter when you have read this and it is safe to go on.", columns
        ),
    ]


def _setting(state, columns, rows):
    due = settings_due(state, state.step) or ((state.step.option, state.step.position),)
    option, position = due[0]
    meaning = next(
        (str(known.meaning) for known in state.profile.options if known.name == option), ""
    )
    lines = [
        _blank(),
        *_text("class:strong", f"Set {option} to {position}.", columns),
        _blank(),
        *_text("", meaning, columns),
    ]
    if len(due) > 1:
        lines += _text(
            "", "Then: " + ", ".join(f"{name} to {place}" for name, place in due[1:]), columns
        )
    return [
        *lines,
        _blank(),
        *_text("", f"For: {state.step.title}", columns),
        *_text("", state.step.question, columns),
    ]


def _task(state, columns, rows):
    """Return what a step without a screen asks for."""
    step = state.step
    lines = [_blank()]
    if step.kind == MEASURE:
        lines += _text(
            "class:strong",
            f"It must read {step.limits}." if step.limits else "It is noted; there are no limits.",
            columns,
        )
        lines += _judgement(state, columns)
    elif step.kind == TYPED_BACK:
        lines += typed_lines(state, columns)
    elif step.kind == REPLY:
        lines += _text("", f"Must come back: {show(step.reply or b'')}", columns)
    if step.stop_if:
        lines += [_blank(), *_text("class:fail", f"Switch off at once if: {step.stop_if}", columns)]
    if step.source:
        lines += [_blank(), *_text("", f"Source: {step.source}", columns)]
    return lines


def _judgement(state, columns):
    judged = judged_so_far(state) if state.mode == "line" else None
    if judged is None:
        return []
    word, sentence = judged
    is_inside = word == AS_EXPECTED
    return [
        _blank(),
        [
            (
                "class:pass" if is_inside else "class:fail",
                f"  {'+' if is_inside else 'X'} {cut(sentence, columns - 5)}",
            )
        ],
    ]


def typed_lines(state, columns):
    """Return the word to be typed on the board's keyboard, and live which characters have come right."""
    wanted, came = state.step.typed, state.typed
    above, below = [("", "  type    ")], [("", "  came    ")]
    for place, code in enumerate(wanted):
        word = _key_name(code)
        got = _key_name(came[place]) if place < len(came) else "·"
        is_right = place < len(came) and came[place] == code
        size = max(columns_of(word), columns_of(got)) + 1
        above.append(("class:strong", word.ljust(size)))
        below.append(
            (
                "class:pass" if is_right else "class:fail" if place < len(came) else "",
                got.ljust(size),
            )
        )
    right = sum(a == b for a, b in zip(wanted, came))
    more = f", {len(came) - len(wanted)} too many" if len(came) > len(wanted) else ""
    return [above, below, [("", f"          {right} of {len(wanted)} right{more}")]]


def _key_name(code):
    return {0x0D: "RETURN", 0x20: "SPACE"}.get(code) or (
        chr(code) if 0x21 <= code <= 0x7E else show(bytes([code]))
    )


def _list(state, columns, rows):
    lines, chosen, stage = [], 0, None
    for place, step in enumerate(state.plan.steps):
        if step.stage != stage:
            stage = step.stage
            lines.append(stage)
        chosen = len(lines) if place == state.chosen else chosen
        lines.append(step)
    first = min(max(chosen - rows // 2, 0), max(len(lines) - rows, 0))
    return [
        [
            (
                "class:strong",
                cut(f" {stage_title(state, line)}  {stage_counts(state, line)}", columns),
            )
        ]
        if isinstance(line, str)
        else _list_row(state, line, columns, place == chosen)
        for place, line in enumerate(lines[first : first + rows], first)
    ]


def _list_row(state, step, columns, is_chosen):
    word = verdict_of(state, step.id)
    here = ">" if is_chosen else "*" if step.id == state.step_id else " "
    reason = state.verdicts[step.id].reason if step.id in state.verdicts else ""
    text = pad(
        f" {here} {MARKS[word]} {word:<10} {step.title}{f'  ({reason})' if reason else ''}", columns
    )
    style = {"pass": "class:pass", "fail": "class:fail"}.get(word, "")
    return [(f"{style} class:chosen" if is_chosen else style, text)]


def stage_title(state, stage_id):
    """Return a stage's number of how many, and its title."""
    places = {stage.id: place for place, stage in enumerate(state.plan.stages)}
    return (
        f"stage {places[stage_id] + 1} of {len(places)}: {state.plan.stages[places[stage_id]].title}"
        if stage_id in places
        else ""
    )


def stage_counts(state, stage_id):
    """Return how far a stage is, in marks and numbers."""
    steps = state.plan.of_stage(stage_id)
    words = [verdict_of(state, step.id) for step in steps]
    counts = [
        f"{words.count(word)} {word}" for word in MARKS if word in words and word != "unanswered"
    ]
    left = len(steps_left(state, steps))
    return ", ".join(counts + ([f"{left} left"] if left else []))


def _help(state, columns, rows):
    mode = state.before[-1]
    lines = [[("class:strong", cut(f" {keymap.MODES[mode].title}", columns))]]
    lines += [*_text("", state.step.question, columns), _blank()] if state.step.question else []
    for names, text in keymap.help_lines(mode, state.is_practice):
        first, *rest = wrap(text, max(columns - KEY_COLUMNS - 2, 10))
        lines.append(
            [
                ("class:strong", pad(f"  {names}", KEY_COLUMNS)),
                ("", cut(first, columns - KEY_COLUMNS)),
            ]
        )
        lines += [[("", " " * KEY_COLUMNS + line)] for line in rest]
    lines += [
        _blank(),
        *_text(
            "",
            "Verdicts: "
            + ", ".join(f"{mark} {word}" for word, mark in MARKS.items() if mark != " "),
            columns,
        ),
    ]
    if mode == "press":
        lines.append([("", cut(f"  {keyboard_legend()}", columns))])
    pages = max(1, -(-len(lines) // max(rows, 1)))
    first = state.page % pages * rows
    return lines[first : first + rows]


def _wave(state, columns, rows):
    wave = state.loop
    levels, names = waveform.drawn(wave.data[: 1 + columns // 50], wave.format)
    lines = [
        _blank(),
        *_text("class:strong", f"Bytes for the scope: {waveform.title(wave)}", columns),
        _blank(),
    ]
    for sentence in waveform.waveform(wave):
        lines += _text("", sentence, columns)
    lines += [
        _blank(),
        [("", "  " + cut(levels, columns - 3))],
        [("", "  " + cut(names, columns - 3))],
        _blank(),
    ]
    if state.mode == "waving":
        return lines + _text("class:strong", ">> sending, until any key", columns)
    return lines + _text(
        "",
        "Enter starts. The board's screen fills with it; the step is sent again afterwards.",
        columns,
    )


def _paused(state, columns, rows):
    return [
        _blank(),
        *_text("class:strong", "Paused. All answers are in the run file.", columns),
        _blank(),
        *_text("", "Press p to go on.", columns),
    ]


def _lost(state, columns, rows):
    title = [
        _blank(),
        [("class:fail", "  THE LINE IS GONE" if state.is_gone else "  TROUBLE WITH THE LINE")],
        _blank(),
        *_text("", state.lost, columns),
        _blank(),
    ]
    if not state.is_gone:
        return title + _text(
            "class:strong",
            "Put it right, then press enter: the step is sent again. Nothing answered is lost.",
            columns,
        )
    return [
        *title,
        *_text(
            "class:strong",
            "Plug the adapter into the computer again: the session goes on by itself, with this step. "
            "Nothing answered is lost.",
            columns,
        ),
        *_text(
            "",
            "Is it under another name now? Press q, and go on with --resume and the new --port.",
            columns,
        ),
    ]


def _stopping(state, columns, rows):
    return [
        _blank(),
        *_text("class:strong", "Stop the session? y stops, n goes on.", columns),
        _blank(),
        *_text("", "All answers are in the run file; --resume goes on from there.", columns),
    ]


def _announced(state, columns, rows):
    return [
        _blank(),
        *_text("class:strong", "The board's keyboard has proven y and n.", columns),
        _blank(),
        *_text(
            "",
            "From now on you may answer on it: y as expected, n differs. This is on the board's screen as well.",
            columns,
        ),
        _blank(),
        *_text("class:strong", "Press y on the board's keyboard, or here, to go on.", columns),
    ]


def _end(state, columns, rows):
    words = [verdict_of(state, step.id) for step in state.plan.steps]
    lines = [
        _blank(),
        *_text(
            "class:strong",
            "Every step has its verdict: "
            + ", ".join(f"{words.count(word)} {word}" for word in MARKS if word in words),
            columns,
        ),
        _blank(),
    ]
    for text in state.ending:
        lines += _text("class:strong", text, columns) + [_blank()]
    bad = [
        step
        for step in state.plan.steps
        if verdict_of(state, step.id) not in ("pass", "not-fitted", "unanswered")
    ]
    return (
        lines
        + [_list_row(state, step, columns, False) for step in bad][: max(rows - len(lines), 0)]
    )


PANELS = {
    "press": keyboard_rows.press_lines,
    "opening": _opening,
    "caution": _caution,
    "setting": _setting,
    "list": _list,
    "help": _help,
    "wave": _wave,
    "waving": _wave,
    "paused": _paused,
    "lost": _lost,
    "stopping": _stopping,
    "announced": _announced,
    "end": _end,
}


def line_row(state, columns):
    """Return the row in which a line is typed; its end stays in sight."""
    words = f" {prompt(state)}: "
    room = max(columns - columns_of(words) - 2, 8)
    words = cut(words, columns - 10)
    return [
        ("class:strong", words),
        (
            "class:line",
            state.text[-room:] if columns_of(state.text) <= room else state.text[-(room // 2) :],
        ),
        ("class:cursor", " "),
    ]
