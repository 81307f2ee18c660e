"""A profile as a page of text for people, and as plain data for JSON."""

import dataclasses
from collections.abc import Iterator

from termprobe.folding import folded
from termprobe.notation import show, show_code, show_template, visible
from termprobe.profile.draw import draw_keyboard
from termprobe.profile.key_codes import PLAIN, code_of, presses
from termprobe.profile.model import Circuit, Command, Display, Fill, Keyboard, Option, Profile
from termprobe.profile.screen_words import contents_in_words, graphics_in_words, shown_by
from termprobe.profile.simulated import lack_in_words
from termprobe.profile.vocabulary import VOCABULARY
from termprobe.yamlvalues import Mapped, Template

Data = dict[str, "Data"] | list["Data"] | str | int | float | None

WIDTH = 80
_PARITY_LETTERS = {"none": "N", "even": "E", "odd": "O", "mark": "M", "space": "S"}
_ON_OR_OFF = {True: "on", False: "off"}
_PAIRINGS = {
    "bit": "bit-paired",
    "typewriter": "typewriter-paired",
    "none": "every shifted code written out",
}
_HELD = "\xa0"
"""A blank at which no line is broken."""
_EXPLAINED = 15
"""Where the explanations start, after their headings."""
_ROW_NUMBERS = 6
"""Where the crossings of the matrix start, after the numbers of its rows."""


def page(profile: Profile) -> tuple[str, ...]:
    """Return the profile as lines, none longer than 80 characters, safe to print."""
    lines = [f"{profile.id}: {profile.title}"]
    for part in (_display, _link, _coordinates, _commands, _options, _keyboard, _circuit):
        found = part(profile)
        if found:
            lines += ["", *found]
    return tuple(visible(line) for line in lines)


def as_data(value: object) -> Data:
    """Return a value of a profile as dicts, lists, text and numbers, under the names of the file.

    Bytes are in the notation.
    """
    if isinstance(value, Mapped):
        return {key: as_data(item) for key, item in _items(value)}
    if isinstance(value, Template):
        return show_template(value)
    if isinstance(value, bytes):
        return show(value)
    if isinstance(value, dict):
        return {str(key): as_data(item) for key, item in value.items()}
    if isinstance(value, tuple):
        return [as_data(item) for item in value]
    if value is None or isinstance(value, str | int | float):
        return value
    raise TypeError(f"a profile holds text, numbers and bytes, not {type(value).__name__}")


def _items(record: Mapped) -> Iterator[tuple[str, object]]:
    """Yield the key in the file and the value of each field."""
    for field in dataclasses.fields(record):
        if field.init:
            yield field.metadata.get("key", field.name), getattr(record, field.name)


def _entry(heading: str, *texts: str) -> list[str]:
    """Return lines with `heading` on the left and each text, folded, beside it."""
    lines = []
    first = f"{heading:{_EXPLAINED - 1}} "
    for text in texts:
        if text.strip():
            lines += _folded(first, text, _EXPLAINED)
            first = " " * _EXPLAINED
    return lines


def _folded(first: str, text: str, indent: int) -> list[str]:
    """Return text in lines; bytes in the notation, which _bytes has made one word, stay whole."""
    lines = folded(first, text.replace("\n", " "), WIDTH, indent)
    return [line.replace(_HELD, " ") for line in lines]


def _bytes(template: Template) -> str:
    return show_template(template).replace(" ", _HELD)


def _display(profile: Profile) -> list[str]:
    display, printing = profile.display, profile.display.printing
    stops = "no tab stops"
    if display.tab_stops:
        stops = f"a tab stop every {display.tab_stops} columns"
    size = f"{display.rows} rows x {display.columns} columns"
    return _entry(
        "Display",
        f"{size}, {display.power_up} after switching on, {stops}",
        f"prints {show_code(printing.first)} to {show_code(printing.last)}",
        f"after the last column: {printing.last_column}; below the last row: {printing.last_row}",
        f"source: {printing.source}",
        *_dots(display),
        *graphics_in_words(display),
    )


def _dots(display: Display) -> Iterator[str]:
    dots = display.dots
    if dots is not None:
        box = f"a box of {dots.columns} dots and {dots.lines} scan lines"
        yield f"characters are drawn as set {dots.characters} has them, in {box}"
        yield f"source: {dots.source}"


def _link(profile: Profile) -> list[str]:
    link = profile.link
    line_format = f"{link.data_bits}{_PARITY_LETTERS[link.parity]}{link.stop_bits}"
    bits = f"{link.data_bits} data bits, parity {link.parity}, stop bits {link.stop_bits}"
    control = f"handshake {link.handshake}, RTS {_ON_OR_OFF[link.rts]}, DTR {_ON_OR_OFF[link.dtr]}"
    if link.character_gap_ms:
        control += f", {link.character_gap_ms:g} ms between characters"
    return _entry(
        "Link",
        f"{link.speed_baud} baud, {line_format} ({bits})",
        control,
        f"speeds: {', '.join(str(speed) for speed in link.speeds_baud)}",
        f"source: {link.source}",
    )


def _coordinates(profile: Profile) -> list[str]:
    coordinates = profile.coordinates
    if coordinates is None:
        return []
    codings = {
        "binary": "one byte each",
        "offset": f"one byte each, {coordinates.offset:02X}h added",
        "decimal": "decimal digits",
        "bcd": "one byte each, two binary coded decimal digits",
    }
    coding = codings[coordinates.coding]
    return _entry(
        "Coordinates",
        f"{coding}; the first row and column are {coordinates.first}",
        f"source: {coordinates.source}",
    )


def _commands(profile: Profile) -> list[str]:
    fresh = ", then ".join(profile.fresh)
    count = len(profile.commands)
    lines = _entry("Commands", f"{count}; for a known state of the screen: {fresh}")
    for command in profile.commands:
        line = f"  {command.name:26}{show_template(command.bytes):30}"
        if command.edge:
            line += f"edge: {command.edge}"
        lines.append(line.rstrip())
        lines += _folded(" " * 6, "; ".join(_details(command)), 6)
    return lines


def _details(command: Command) -> Iterator[str]:
    """Yield what there is to say of a command besides its bytes and its edge, best first."""
    if command.reply is None:
        yield VOCABULARY[command.action].does
    else:
        yield f"sends {_bytes(command.reply)}"
        yield from contents_in_words(command)
    if command.also:
        yield f"also {', '.join(_bytes(template) for template in command.also)}"
    if command.settle_ms:
        yield f"busy for {command.settle_ms:g} ms"
    if command.fill:
        yield _filling(command.fill)
    yield f"source: {command.source}"


def _filling(fill: Fill) -> str:
    return f"{fill.count} x {show(fill.code)} to fill, from {fill.from_baud} baud"


def _options(profile: Profile) -> list[str]:
    if not profile.options:
        return []
    lines = ["Options"]
    for option in profile.options:
        positions = ", ".join(_positions(option))
        texts = (positions, option.meaning, *shown_by(option), f"source: {option.source}")
        lines += _entry(f"  {option.name}", *texts)
    return lines


def _positions(option: Option) -> Iterator[str]:
    for position in option.positions:
        if position == option.normal:
            yield f"{position} (normal)"
        else:
            yield position


def _keyboard(profile: Profile) -> list[str]:
    keyboard = profile.keyboard
    if keyboard is None:
        return []
    diodes = "no diodes"
    if keyboard.diodes:
        diodes = "a diode at each key"
    rows, columns = f"{keyboard.rows} rows (down)", f"{keyboard.columns} columns (across)"
    return [
        *_about_keys(keyboard),
        "",
        *(f"  {line}" for line in draw_keyboard(keyboard)),
        "",
        "Keys without a character",
        *_special_keys(keyboard),
        "",
        f"Matrix of {rows} and {columns}, {diodes}",
        *_matrix(keyboard),
    ]


def _about_keys(keyboard: Keyboard) -> list[str]:
    pairing, count = _PAIRINGS[keyboard.pairing], len(presses(keyboard))
    return _entry(
        "Keyboard",
        f"{len(keyboard.keys)} keys, {pairing}, {keyboard.letters}; "
        f"{count} presses show every code",
        f"CONTROL by {keyboard.control}, LOCK for {keyboard.lock}, repeat: {keyboard.repeat}",
        f"source: {keyboard.source}",
    )


def _special_keys(keyboard: Keyboard) -> list[str]:
    words = []
    for key in keyboard.keys:
        code = code_of(keyboard, key, PLAIN)
        if code is None:
            words.append(f"{key.name}: {key.role}")
        elif len(code) > 1 or not 0x20 < code[0] < 0x7F:
            words.append(f"{key.name}:{_HELD}{_bytes(Template((code,)))}")
    if not words:
        return []
    return _folded("  ", "; ".join(words), 2)


def _matrix(keyboard: Keyboard) -> Iterator[str]:
    """Yield the matrix as a table, cut where it is wider than the page."""
    names = {key.matrix: key.legend.split(" ")[0] for key in keyboard.keys if key.matrix}
    room = WIDTH - _ROW_NUMBERS
    width = max(2, min(8, room // keyboard.columns))
    across = range(min(keyboard.columns, room // width))
    heading = "".join(f"{column:<{width}}" for column in across)
    yield f"{'':{_ROW_NUMBERS}}{heading}".rstrip()
    for row in range(keyboard.rows):
        cells = (names.get((row, column), ".")[: width - 1] for column in across)
        line = "".join(f"{cell:<{width}}" for cell in cells)
        yield f"  {row:>2}  {line}".rstrip()


def _circuit(profile: Profile) -> list[str]:
    circuit = profile.circuit
    if circuit is None:
        return _entry("Circuit", lack_in_words(profile))
    return _entry(
        "Circuit",
        f"RAM banks: {circuit.banks}",
        *_switches(circuit),
        *(f"{bus}: {', '.join(lines)}" for bus, lines in circuit.labels.items()),
        f"source: {circuit.source}",
    )


def _switches(circuit: Circuit) -> Iterator[str]:
    if circuit.echo_option:
        setting = f"{circuit.echo_option} {circuit.echo_position}"
        yield f"keys reach the screen and the line with {setting}"
    if circuit.local_option:
        setting = f"{circuit.local_option} {circuit.local_position}"
        yield f"keys reach the screen alone with {setting}"
