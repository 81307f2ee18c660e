"""What builders write of a board, in a few words, and whether the true cause is named first."""

import contextlib
import io
import json
import random
from typing import NamedTuple

from termprobe.board.counters import Counted
from termprobe.board.faults.catalogue import catalogue
from termprobe.board.generator import has_wrong_dots, misdrawn_codes
from termprobe.board.wiring import wire
from termprobe.cli.main import main
from termprobe.diagnosis.blank_board import BlankBoards
from termprobe.diagnosis.key_table import table_of
from termprobe.notation import show
from termprobe.profile.load import load

from . import tables

PROFILES = ("singlebyte-24x80", "club-16x64")
KINDS = ("display", "dots", "keys")
COUNT = 60
SLIP = 0.03
"""Of the characters that are written down."""
WORDS = (
    *("THE", "quick", "Brown", "FOX", "jumps", "over", "A", "lazy", "DOG", "0123456789"),
    *("Hello", "WORLD", "ready", "*", "U", "@", "{test}", "[]"),
)
MOST_KEYS = 6


class Story(NamedTuple):
    """What is told of a board with one fault."""

    profile: str
    fault: str
    told: tuple[str, ...]
    """Words of the command line."""


class Told(NamedTuple):
    """What came of asking for a story."""

    story: Story
    kind: str
    """One of KINDS."""
    likelier: int
    """How many suspects are likelier than the class of the true fault; -1 where it is not named."""
    is_explained: bool


class Place(NamedTuple):
    """Where a screen is wrong."""

    rows: list[int]
    columns: list[int]


def play(request):
    """Draw stories, ask for each what would explain it, and print how often that is true."""
    chance = random.Random(request.seed)
    tables.heading(
        "Stories of a few words, one slip in thirty characters",
        *("profile", "of", "no class likelier than the true one", "at most two likelier"),
        "said to be explained",
    )
    lost = []
    for profile in PROFILES:
        told = list(told_by(profile, request.count or COUNT, chance))
        for kind in KINDS:
            _row(profile, kind, [one for one in told if one.kind == kind])
        lost += [one.story for one in told if one.likelier != 0]
    tables.names([" ".join((one.fault, *map(repr, one.told))) for one in lost])


def _row(profile, kind, told):
    if not told:
        return
    first = sum(one.likelier == 0 for one in told)
    three = sum(0 <= one.likelier < 3 for one in told)
    explained_ones = sum(one.is_explained for one in told)
    counts = first, three, explained_ones
    tables.row(profile, kind, *(tables.share(count, len(told)) for count in counts))


def told_by(profile_id, count, chance):
    """Yield so many stories, each Told."""
    profile = load(profile_id)
    names = sorted(catalogue(profile))
    told = 0
    while told < count:
        name = chance.choice(_family(names, chance))
        story, kind = story_of(profile, name, chance)
        if story is None:
            continue
        told += 1
        found = explained(story)
        yield Told(story, kind, rank(found, name), found["explained"])


def _family(names, chance):
    """Return the names of one kind of fault, each kind as often."""
    kinds = sorted({_kind(name) for name in names})
    kind = chance.choice(kinds)
    return [name for name in names if _kind(name) == kind]


def _kind(name):
    return "/".join(name.split("/")[:2])


def explained(story):
    """Return the JSON document of `explain` for a story."""
    out = io.StringIO()
    with contextlib.redirect_stdout(out):
        main(["explain", "--profile", story.profile, *story.told, "--json"])
    return json.loads(out.getvalue())


def rank(found, name):
    """Return how many suspects are likelier than the class of a fault; -1 where it is not named."""
    suspects = found["suspects"]
    own = [one["probability"] for one in suspects if name in one["class"]]
    if not own:
        return -1
    return sum(one["probability"] > own[0] for one in suspects)


def story_of(profile, name, chance):
    """Return what is told of a board with the fault, and its kind; None where nothing shows."""
    wiring = wire(profile)
    catalogue(profile)[name].apply(wiring)
    if has_wrong_dots(wiring):
        return _of_dots(profile, name, wiring, chance), "dots"
    told = _of_screen(profile, wiring, chance)
    if told is not None:
        return Story(profile.id, name, tuple(told)), "display"
    return _of_keys(profile, name, chance), "keys"


def _of_dots(profile, name, wiring, chance):
    odd = misdrawn_codes(profile.display.dots, wiring)
    drawn = sorted(code for code in odd if chr(code).isalnum())
    words = {
        "cursor/dead": "the cursor is missing",
        "cursor/everywhere": "cursor in every cell",
        "blanking/dead": "bright lines over the screen",
        "blanking/stuck": "screen dark, not even a cursor",
        "dots/half": "every second row of dots is dark",
    }
    if name in words:
        return Story(profile.id, name, ("--noticed", words[name]))
    if not drawn:
        return None
    told = []
    for code in chance.sample(drawn, min(2, len(drawn))):
        rows = odd[code][1].split("/")
        told += ["--drawn", f"{chr(code)}={'/'.join(rows)}"]
    return Story(profile.id, name, tuple(told))


def _of_screen(profile, wiring, chance):
    """Return what is told of the screen; None where no text that was tried shows anything."""
    boards = BlankBoards(profile)
    good, bad = boards.wired(wire(profile)), boards.wired(wiring)
    where = _place(profile, good, bad)
    rows = where.rows or list(range(profile.display.rows))
    told = []
    for data in _tries(profile, chance):
        row = chance.choice(rows)
        cells = _cells_of(good, row, data, profile)
        seen, wanted = (_shown(one, row, data, cells, profile) for one in (bad, good))
        if seen == wanted:
            continue
        if len(told) < 4:
            told += ["--sent", _quoted(data), "--seen", _slipped(seen, chance)]
    if not told:
        return None
    words = _words_for(where, profile, chance)
    if words:
        told += ["--where", words]
    return told


def _place(profile, good, bad):
    """Return where a screen full of text is wrong."""
    columns = profile.display.columns
    line = "".join(WORDS) * 3
    size = columns * profile.display.rows - 1
    text = (line * (size // len(line) + 1))[:size].encode()
    pairs = list(zip(good.shown(Counted(0, 0), text), bad.shown(Counted(0, 0), text), strict=True))
    odd = [index for index, (one, other) in enumerate(pairs) if one != other]
    return Place(
        sorted({index // columns for index in odd}), sorted({index % columns for index in odd})
    )


def _tries(profile, chance):
    """Yield what is sent, shorter texts first."""
    words = chance.sample(WORDS, 4)
    yield " ".join(words[:2]).encode()
    yield " ".join(words[2:]).encode()
    ramp = "".join(
        str(number % 10) if number % 2 else chr(65 + number % 26)
        for number in range(profile.display.columns - 1)
    )
    yield ramp.encode()
    for command in chance.sample(profile.commands, len(profile.commands)):
        parts = [part for part in command.bytes if isinstance(part, bytes)]
        if len(parts) == len(command.bytes):
            yield b"ABC" + b"".join(parts) + b"d"


def _cells_of(good, row, data, profile):
    """Return where a builder looks: rows and columns of the text as it should stand."""
    rows = _rows(good, row, data, profile)
    written = [number for number, codes in enumerate(rows) if codes.strip(b" ")] + [row]
    return slice(min(written), max(written) + 1), max(len(codes.rstrip(b" ")) for codes in rows)


def _shown(board, row, data, cells, profile):
    """Return what is seen there, and in the rest of these rows where most of that is dark."""
    rows, width = cells
    seen = [codes.rstrip(b" ") for codes in _rows(board, row, data, profile)[rows]]
    if max(map(len, seen)) > width + 20:
        seen = [codes[:width].rstrip(b" ") for codes in seen]
    return b"\n".join(seen).strip(b"\n")


def _rows(board, row, data, profile):
    columns = profile.display.columns
    codes = board.shown(Counted(row, 0), data)
    return [codes[start : start + columns] for start in range(0, len(codes), columns)]


def _quoted(data):
    return data.decode() if data.isalnum() else show(data)


def _slipped(seen, chance):
    """Return what is written down of what is seen: in a share of all characters another."""
    wrong = bytes(
        chance.choice(b"aeioXQ1") if chance.random() < SLIP and code > 0x20 else code
        for code in seen
    )
    return show(wrong)


def _words_for(where, profile, chance):
    """Return where it is wrong, in words; empty where that is hard to say."""
    rows, columns = profile.display.rows, profile.display.columns
    if (
        where.rows in ([*range(1, rows, 2)], [*range(0, rows, 2)])
        and len(where.columns) > columns // 2
    ):
        odd = ("even rows", "odd rows")[where.rows[0]]
        return chance.choice((odd, "every other line", odd))
    if len(where.rows) == rows and len(where.columns) >= columns - 2:
        return chance.choice(("everywhere", ""))
    if len(where.rows) == rows and where.columns:
        first, last = where.columns[0], where.columns[-1]
        if last - first + 1 == len(where.columns):
            return f"columns {first} to {last}"
    return ""


def _of_keys(profile, name, chance):
    """Return what some keys send, wrong ones and right ones; None where all are right."""
    table = table_of(profile)
    cause = next((one for one in table.hypotheses if one.name == name), None)
    if cause is None:
        return None
    changed = [
        press
        for press, predicted in cause.changes(table.healthy).items()
        if table.presses[press].code.isalnum() and predicted[-1].codes != table.presses[press].code
    ]
    others = [one for one in table.presses if one not in changed]
    others = [one for one in others if table.presses[one].code.isalnum()]
    if not changed:
        return None
    chosen = chance.sample(changed, min(MOST_KEYS, len(changed))) + chance.sample(
        others, min(3, len(others))
    )
    told = [_pressed(table.presses[press], cause.sends[press][-1].codes) for press in chosen]
    return Story(profile.id, name, ("--keys", " ".join(told)))


def _pressed(press, codes):
    if codes and all(0x21 <= code < 0x7F for code in codes):
        return f"{press.code.decode()}>{codes.decode()}"
    came = " ".join(f"{code:02X}h" for code in codes)
    return f"{press.code.decode()} > {came or 'nothing'}"
