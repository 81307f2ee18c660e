"""The keyboard drawn as text: each key with a mark for what its presses have shown."""

from dataclasses import dataclass

from termprobe.notation import visible
from termprobe.profile.draw import caps, draw
from termprobe.verdict import model

RIGHT, WRONG, MISSING, PARTLY, UNTESTED, SKIPPED, ASKED, NONE = (
    "right",
    "wrong",
    "missing",
    "partly",
    "untested",
    "skipped",
    "asked",
    "none",
)
MARKS = {
    RIGHT: "+",
    WRONG: "x",
    MISSING: "!",
    PARTLY: ":",
    UNTESTED: ".",
    SKIPPED: "-",
    ASKED: "?",
    NONE: " ",
}
"""The mark stands in the upper right corner of the key; colour never stands alone."""
MEANINGS = (
    ("+", "right"),
    ("x", "wrong"),
    ("!", "nothing"),
    (":", "so far right"),
    (".", "untested"),
    ("-", "left out"),
    ("?", "asked"),
)


@dataclass(frozen=True)
class Mark:
    """Where the mark of one key stands in the drawing, and what the key's state is."""

    line: int
    column: int
    width: int
    """Of the key's face, which begins at `face_column`; two lines from `line` on."""
    face_column: int
    state: str

    @property
    def character(self):
        """The character in the corner."""
        return MARKS[self.state]


def states(keyboard, steps, verdicts, asked=None):
    """Return key name -> state. `steps` are the plan's presses, `verdicts` step id -> StepVerdict, `asked` a step or None."""
    own = {str(key.name): [] for key in keyboard.keys}
    for step in steps:
        if step.key in own and step.id in verdicts:
            own[step.key].append(verdicts[step.id])
    found = {name: _state(its) for name, its in own.items()}
    return found | ({asked.key: ASKED} if asked is not None else {})


def _state(own):
    """Return the state of a key by the verdicts of its presses: the worst one speaks."""
    if not own:
        return NONE
    words = {verdict.verdict for verdict in own}
    if model.FAIL in words:
        failed = [verdict for verdict in own if verdict.verdict == model.FAIL]
        return (
            MISSING
            if all(verdict.reason.startswith("nothing came") for verdict in failed)
            else WRONG
        )
    if words == {model.UNANSWERED}:
        return UNTESTED
    if model.UNANSWERED in words:
        return PARTLY
    return SKIPPED if model.SKIPPED in words else RIGHT


def marks(keyboard, key_states):
    """Return the Mark of every key that has a state to show."""
    return tuple(
        Mark(
            cap.line,
            cap.column + cap.width - 1,
            cap.width,
            cap.column,
            key_states[str(cap.key.name)],
        )
        for cap in caps(keyboard)
        if key_states[str(cap.key.name)] != NONE
    )


def drawing(keyboard, key_states):
    """Return the keyboard as lines of text with the marks in it, and below them what the marks mean."""
    lines = [list(line) for line in draw(keyboard)]
    for mark in marks(keyboard, key_states):
        lines[mark.line][mark.column] = mark.character
    return tuple("".join(line).rstrip() for line in lines) + (legend(),)


def legend():
    """Return the line that explains the marks."""
    return "  ".join(f"{mark} {meaning}" for mark, meaning in MEANINGS)


def place(keyboard, key):
    """Return where a key is for somebody who sees no keycaps: `row 2 of 5, key 3 from the left, matrix row 3 column 1`."""
    rows = sorted({other.row for other in keyboard.keys})
    own_row = sorted(
        (other.offset, str(other.name)) for other in keyboard.keys if other.row == key.row
    )
    number = own_row.index((key.offset, str(key.name))) + 1
    matrix = f", matrix row {key.matrix[0]} column {key.matrix[1]}" if key.matrix else ""
    return f"row {rows.index(key.row) + 1} of {len(rows)}, key {number} from the left{matrix}"


def request(keyboard, step):
    """Return how a press is asked for: `"1 !" with SHIFT (row 1 of 5, key 2 from the left, ...)`."""
    held = "".join(f" with {modifier.upper()}" for modifier in step.modifiers)
    if step.held:
        names = " and ".join(
            f'"{visible(keyboard.key(name).legend)}" ({place(keyboard, keyboard.key(name))})'
            for name in step.held
        )
        return f'and hold {names}, then "{visible(step.legend)}" ({place(keyboard, keyboard.key(step.key))})'
    return f'"{visible(step.legend)}"{held} ({place(keyboard, keyboard.key(step.key))})'
