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
COUNT = 60
SLIP = 0.03
"""Of the characters that are written down."""
WORDS = "THE quick Brown FOX jumps over A lazy DOG 0123456789 Hello WORLD ready * U @ {test} []".split()
MOST_KEYS = 6


class Story(NamedTuple):
    """What is told of a board with one fault."""

    profile: str
    fault: str
    told: tuple[str, ...]
    """Words of the command line."""


class Place(NamedTuple):
    """Where a screen is wrong."""

    rows: list[int]
    columns: list[int]


def play(request):
    """Draw stories by the seed, ask for each what would explain it, and print how often it fares."""
    chance = random.Random(request.seed)
    tables.heading(
        "Stories of a few words, one slip in thirty characters",
        "profile", "of", "true class first", "in the first three", "said to be explained",
    )
    lost = []
    for profile in PROFILES:
        ranks = list(told_by(profile, request.count or COUNT, chance))
        for kind in ("display", "dots", "keys"):
            of_kind = [one for one in ranks if one[1] == kind]
            if of_kind:
                first, three, explained = (
                    sum(one[2] == 0 for one in of_kind),
                    sum(0 <= one[2] < 3 for one in of_kind),
                    sum(one[3] for one in of_kind),
                )
                count = len(of_kind)
                tables.row(
                    profile, kind, tables.share(first, count), tables.share(three, count),
                    tables.share(explained, count),
                )
        lost += [" ".join((one[0].fault, *map(repr, one[0].told))) for one in ranks if one[2] != 0]
    tables.names(lost)


def told_by(profile_id, count, chance):
    """Yield (story, kind, rank of the true class or -1, whether it is said to be explained)."""
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
        yield story, kind, rank(found, name), found["explained"]


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
    """Return at which place the class of a fault stands; -1 where it is not named."""
    classes = [one["class"] for one in found["suspects"]]
    return next((index for index, names in enumerate(classes) if name in names), -1)


def story_of(profile, name, chance):
    """Return what is told of a board with the fault `name`, and of what; None where nothing shows."""
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
    words = {"cursor/dead": "the cursor is missing", "cursor/everywhere": "cursor in every cell",
             "blanking/dead": "bright lines over the screen",
             "blanking/stuck": "screen dark, not even a cursor",
             "dots/half": "every second row of dots is dark"}
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
        seen, wanted = (_shown(one, row, data, profile) for one in (bad, good))
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
    ramp = "".join(str(number % 10) if number % 2 else chr(65 + number % 26)
                   for number in range(profile.display.columns - 1))
    yield ramp.encode()
    for command in chance.sample(profile.commands, len(profile.commands)):
        parts = [part for part in command.bytes if isinstance(part, bytes)]
        if len(parts) == len(command.bytes):
            yield b"ABC" + b"".join(parts) + b"d"


def _shown(board, row, data, profile):
    columns = profile.display.columns
    codes = board.shown(Counted(row, 0), data)
    rows = [codes[start : start + columns].rstrip() for start in range(0, len(codes), columns)]
    return b"\n".join(rows).strip(b"\n")


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
    if where.rows in ([*range(1, rows, 2)], [*range(0, rows, 2)]) and len(where.columns) > columns // 2:
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
    changed = [press for press in cause.changes(table.healthy) if len(table.presses[press].code) == 1]
    changed = [press for press in changed if table.presses[press].code.isalnum()]
    others = [one for one in table.presses if one not in changed]
    others = [one for one in others if table.presses[one].code.isalnum()]
    if not changed:
        return None
    chosen = chance.sample(changed, min(MOST_KEYS, len(changed))) + chance.sample(others, min(3, len(others)))
    told = [_pressed(table.presses[press], cause.sends[press][0].codes) for press in chosen]
    return Story(profile.id, name, ("--keys", " ".join(told)))


def _pressed(press, codes):
    if codes and all(0x21 <= code < 0x7F for code in codes):
        return f"{press.code.decode()}>{codes.decode()}"
    came = " ".join(f"{code:02X}h" for code in codes)
    return f"{press.code.decode()} > {came or 'nothing'}"
