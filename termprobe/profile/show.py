"""A profile as a page of text for people, and as plain data for JSON."""

import dataclasses
import textwrap

from termprobe.notation import show, show_code, show_template, visible
from termprobe.profile.draw import draw
from termprobe.profile.key_codes import PLAIN, code_of, presses
from termprobe.profile.vocabulary import VOCABULARY
from termprobe.yamlvalues import ByteText, Template

WIDTH = 80
_PARITY_LETTERS = {"none": "N", "even": "E", "odd": "O", "mark": "M", "space": "S"}
_HELD = "\xa0"
_EXPLAINED = 15
"""Where the explanations start, after their headings."""


def page(profile):
    """Return the profile as a tuple of lines, none longer than 80 characters, safe to print."""
    parts = (_display, _link, _coordinates, _commands, _options, _keyboard, _circuit)
    lines = [f"{profile.id}: {profile.title}"]
    for part in parts:
        found = part(profile)
        lines += ["", *found] if found else []
    return tuple(visible(line) for line in lines)


def as_data(value):
    """Return a record as dicts, lists, text and numbers, under the names of the file; bytes in the notation."""
    if dataclasses.is_dataclass(value):
        fields = [field for field in dataclasses.fields(value) if field.init]
        return {
            field.metadata.get("key", field.name): as_data(getattr(value, field.name))
            for field in fields
        }
    if isinstance(value, Template):
        return show_template(value)
    if isinstance(value, ByteText):
        return show(value)
    if isinstance(value, dict):
        return {str(key): as_data(item) for key, item in value.items()}
    return [as_data(item) for item in value] if isinstance(value, tuple) else value


def _entry(heading, *texts):
    """Return lines with `heading` on the left and each text, wrapped, beside it."""
    lines = [line for text in texts for line in _wrapped(text, WIDTH - _EXPLAINED)]
    return [
        f"{heading if not index else '':{_EXPLAINED}}{line}" for index, line in enumerate(lines)
    ]


def _wrapped(text, width=WIDTH, indent=""):
    """Return `text` in lines; bytes in the notation, which _bytes has made one word, are not parted."""
    lines = textwrap.wrap(
        text, width, initial_indent=indent, subsequent_indent=indent, break_on_hyphens=False
    )
    return [line.replace(_HELD, " ") for line in lines]


def _bytes(template):
    return show_template(template).replace(" ", _HELD)


def _display(profile):
    display, printing = profile.display, profile.display.printing
    stops = f"a tab stop every {display.tab_stops} columns" if display.tab_stops else "no tab stops"
    return _entry(
        "Display",
        f"{display.rows} rows x {display.columns} columns, {display.power_up} after switching on, {stops}",
        f"prints {show_code(printing.first)} to {show_code(printing.last)}",
        f"after the last column: {printing.last_column}; below the last row: {printing.last_row}",
        f"source: {printing.source}",
    )


def _link(profile):
    link = profile.link
    gap = f", {link.character_gap_ms:g} ms between characters" if link.character_gap_ms else ""
    return _entry(
        "Link",
        f"{link.speed_baud} baud, {link.data_bits}{_PARITY_LETTERS[link.parity]}{link.stop_bits} ({link.data_bits} data bits, "
        f"parity {link.parity}, stop bits {link.stop_bits})",
        f"handshake {link.handshake}, RTS {'on' if link.rts else 'off'}, DTR {'on' if link.dtr else 'off'}{gap}",
        f"speeds: {', '.join(str(speed) for speed in link.speeds_baud)}",
        f"source: {link.source}",
    )


def _coordinates(profile):
    coordinates = profile.coordinates
    if coordinates is None:
        return []
    codings = {
        "binary": "one byte each",
        "offset": f"one byte each, {coordinates.offset:02X}h added",
        "decimal": "decimal digits",
        "bcd": "one byte each, two binary coded decimal digits",
    }
    return _entry(
        "Coordinates",
        f"{codings[coordinates.coding]}; the first row and column are {coordinates.first}",
        f"source: {coordinates.source}",
    )


def _commands(profile):
    lines = _entry(
        "Commands",
        f"{len(profile.commands)}; for a known state of the screen: {', then '.join(profile.fresh)}",
    )
    for command in profile.commands:
        edge = f"edge: {command.edge}" if command.edge else ""
        lines.append(f"  {command.name:26}{show_template(command.bytes):30}{edge}".rstrip())
        lines += _wrapped("; ".join(_details(command)), indent=" " * 6)
    return lines


def _details(command):
    """Return what there is to say of a command besides its bytes and its edge, most important first."""
    if command.reply is None:
        yield VOCABULARY[command.action].does
    else:
        yield f"sends {_bytes(command.reply)}"
    if command.also:
        yield f"also {', '.join(_bytes(coding) for coding in command.also)}"
    if command.settle_ms:
        yield f"busy for {command.settle_ms:g} ms"
    if command.fill:
        yield f"{command.fill.count} x {show(command.fill.code)} to fill, from {command.fill.from_baud} baud"
    yield f"source: {command.source}"


def _options(profile):
    lines = ["Options"] if profile.options else []
    for option in profile.options:
        positions = ", ".join(
            f"{position} (normal)" if position == option.normal else position
            for position in option.positions
        )
        lines += _entry(f"  {option.name}", positions, option.meaning, f"source: {option.source}")
    return lines


def _keyboard(profile):
    keyboard = profile.keyboard
    if keyboard is None:
        return []
    diodes = "a diode at each key" if keyboard.diodes else "no diodes"
    shift = {
        "bit": "bit-paired",
        "typewriter": "typewriter-paired",
        "none": "every shifted code written out",
    }
    return [
        *_entry(
            "Keyboard",
            f"{len(keyboard.keys)} keys, {shift[keyboard.pairing]}, {keyboard.letters}; "
            f"{len(presses(keyboard))} presses show every code",
            f"CONTROL by {keyboard.control}, LOCK for {keyboard.lock}, repeat: {keyboard.repeat}",
            f"source: {keyboard.source}",
        ),
        "",
        *(f"  {line}" for line in draw(keyboard)),
        "",
        "Keys without a character",
        *_special_keys(keyboard),
        "",
        f"Matrix of {keyboard.rows} rows (down) and {keyboard.columns} columns (across), {diodes}",
        *_matrix(keyboard),
    ]


def _special_keys(keyboard):
    words = []
    for key in keyboard.keys:
        code = code_of(keyboard, key, PLAIN)
        if code is None:
            words.append(f"{key.name}: {key.role}")
        elif len(code) > 1 or not 0x20 < code[0] < 0x7F:
            words.append(f"{key.name}:{_HELD}{_bytes((code,))}")
    return _wrapped("; ".join(words), indent="  ")


def _matrix(keyboard):
    names = {tuple(key.matrix): key.legend.split(" ")[0] for key in keyboard.keys if key.matrix}
    width = max(2, min(8, (WIDTH - 6) // keyboard.columns))
    across = range(min(keyboard.columns, (WIDTH - 6) // width))
    yield "      " + "".join(f"{column:<{width}}" for column in across).rstrip()
    for row in range(keyboard.rows):
        cells = (names.get((row, column), ".")[: width - 1] for column in across)
        yield f"  {row:>2}  " + "".join(f"{cell:<{width}}" for cell in cells).rstrip()


def _circuit(profile):
    circuit = profile.circuit
    if circuit is None:
        return []
    labels = [f"{bus}: {', '.join(lines)}" for bus, lines in circuit.labels.items()]
    options = [
        f"{what} with {option} {position}"
        for what, option, position in (
            ("keys reach the screen and the line", circuit.echo_option, circuit.echo_position),
            ("keys reach the screen alone", circuit.local_option, circuit.local_position),
        )
        if option
    ]
    return _entry(
        "Circuit", f"RAM banks: {circuit.banks}", *options, *labels, f"source: {circuit.source}"
    )
