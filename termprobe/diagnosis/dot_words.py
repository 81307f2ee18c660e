"""How the dots of the characters are wrong, as one short sentence.

The sentence is made by rules from what is drawn and what should be: the first that fits says it.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from termprobe.board.generator import good_drawing
from termprobe.profile.characters import LIT, art_of, character_set
from termprobe.profile.model import Dots
from termprobe.terminal.dots import Misdrawn, dots_in_words, is_character

Art = tuple[str, ...]
ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth")


@dataclass(frozen=True)
class Drawn:
    """The drawings of some characters, in the same order, each as rows of dots of the whole box."""

    wanted: Sequence[Art]
    seen: Sequence[Art]
    columns: int
    """Of a drawing without the gap."""
    rows: int

    def pairs(self) -> Iterator[tuple[Art, Art]]:
        """Yield each as it should be, and as it is."""
        return zip(self.wanted, self.seen, strict=True)


def dots_sentence(misdrawn: Sequence[Misdrawn], box: Dots | None) -> str:
    """Return how `misdrawn` characters are drawn; nothing where none is."""
    others = [one for one in misdrawn if not is_character(one)]
    characters = [one for one in misdrawn if is_character(one)]
    if box is None or not characters:
        return "; ".join(dots_in_words(misdrawn))
    drawn = _drawn(characters, box)
    said = next(filter(None, (rule(drawn) for rule in RULES)), "")
    told = [said] if said else dots_in_words(characters)
    return "; ".join([*told, *dots_in_words(others)])


def _drawn(characters: Sequence[Misdrawn], box: Dots) -> Drawn:
    size = character_set(str(box.characters))
    wanted = [art_of(good_drawing(box, one[0]), box.columns) for one in characters]
    return Drawn(wanted, [tuple(one[1].split("/")) for one in characters], size.columns, size.rows)


def _all_dark(drawn: Drawn) -> str:
    is_dark = not any(LIT in row for seen in drawn.seen for row in seen)
    return "no character has a dot: the screen is dark" * is_dark


def _every_second_row(drawn: Drawn) -> str:
    if all(seen == _without_odd_rows(wanted) for wanted, seen in drawn.pairs()):
        return "every second row of dots is missing"
    return ""


def _without_odd_rows(art: Art) -> Art:
    dark = "." * len(art[0])
    return tuple((row, dark)[number % 2] for number, row in enumerate(art))


def _one_column(drawn: Drawn) -> str:
    """One column is the same in each drawing, and all else is right."""
    return _same_columns(drawn, lambda column: (column,), ("is missing", "is always lit"))


def _columns_from(drawn: Drawn) -> str:
    """So is each from one column on."""
    width = len(drawn.seen[0][0])
    return _same_columns(
        drawn, lambda column: tuple(range(column, width)), ("on is missing", "on is always lit")
    )


def _same_columns(
    drawn: Drawn, reach: Callable[[int], tuple[int, ...]], words: tuple[str, str]
) -> str:
    for column in range(drawn.columns):
        for level, dot in enumerate((".", LIT)):
            columns = reach(column)
            if all(_is_held(pair, columns, dot) for pair in drawn.pairs()):
                first = f"the {ORDINALS[column]} column of dots"
                if len(columns) > 1:
                    first = f"all from {first}"
                return f"{first} {words[level]}"
    return ""


def _is_held(pair: tuple[Art, Art], columns: Sequence[int], dot: str) -> bool:
    """Return whether the columns of a drawing hold `dot` where light may be, and all else is right.

    Scan lines below a drawing may be darkened behind the column.
    """
    for wanted, seen in zip(*pair, strict=True):
        held = list(wanted)
        for column in columns:
            held[column] = dot
        if "".join(held) != seen:
            return False
    return True


def _columns_swapped(drawn: Drawn) -> str:
    for first in range(drawn.columns):
        for second in range(first + 1, drawn.columns):
            if all(seen == _swapped(wanted, first, second) for wanted, seen in drawn.pairs()):
                both = f"{ORDINALS[first]} and {ORDINALS[second]}"
                return f"the {both} columns of dots are swapped"
    return ""


def _swapped(art: Art, first: int, second: int) -> Art:
    def row_swapped(row: str) -> str:
        dots = list(row)
        dots[first], dots[second] = dots[second], dots[first]
        return "".join(dots)

    return tuple(map(row_swapped, art))


def _half_twice(drawn: Drawn) -> str:
    for half, first in (("upper", 0), ("lower", 4)):
        if all(_shows_twice(pair, first) for pair in drawn.pairs()):
            return f"the {half} half of each character is drawn twice"
    return ""


def _shows_twice(pair: tuple[Art, Art], first: int) -> bool:
    wanted, seen = pair
    part = wanted[first : first + 4]
    return seen[:4] == part and seen[4:8] == part


def _rows_read(drawn: Drawn) -> str:
    """Each scan line shows another row of the drawing, the same for all."""
    rows = [_row_read(drawn, line) for line in range(drawn.rows)]
    if None in rows:
        return ""
    wrong = [line for line, row in enumerate(rows) if row != line]
    if len(wrong) == 2 and [rows[line] for line in wrong] == wrong[::-1]:
        first, second = (ORDINALS[line] for line in wrong)
        return f"the {first} and {second} rows of dots are swapped"
    if wrong:
        line, row = wrong[0], rows[wrong[0]]
        where = f"the {ORDINALS[line]} row of dots is like the {ORDINALS[row or 0]}"
        return f"rows of dots repeated or moved: {where}"
    return ""


def _row_read(drawn: Drawn, line: int) -> int | None:
    """Return the row of the drawings that each shows at a scan line: its own, if that fits."""
    for row in sorted(range(drawn.rows), key=lambda row: row != line):
        if all(seen[line] == wanted[row] for wanted, seen in drawn.pairs()):
            return row
    return None


RULES: tuple[Callable[[Drawn], str], ...] = (
    _all_dark,
    _every_second_row,
    _one_column,
    _columns_from,
    _columns_swapped,
    _half_twice,
    _rows_read,
)
