"""An invented terminal with special functions, made for tests: what it has is in its text."""

import functools

from helpers.paths import ROOT
from termprobe.profile.load import parse

HEAD = """\
id: special-24x40
title: An invented terminal with special functions
display:
  rows: 24
  columns: 40
  printing: {first: 20h, last: 7Eh, last_column: next-row, last_row: scroll, source: invented}
link: {speed_baud: 4800, speeds_baud: [300, 4800], data_bits: 7, parity: odd, stop_bits: 1}
grammar: codes
fresh: [clear]
coordinates: {coding: offset, offset: 30h, source: invented}
commands:
  - {name: bell, bytes: BEL, action: bell, source: RFC 20 section 5.2}
  - {name: left, bytes: EM, action: left, edge: stay, source: invented}
  - {name: down, bytes: LF, action: down, edge: scroll, source: invented}
  - {name: up, bytes: SYN, action: up, edge: stay, source: invented}
  - {name: right, bytes: ACK, action: right, edge: stay, source: invented}
  - {name: return, bytes: CR, action: return, source: RFC 20 section 5.2}
  - {name: clear, bytes: STX, action: clear, source: invented}
  - {name: home, bytes: FS, action: home, source: invented}
  - {name: address, bytes: GS column row, action: address, edge: keep, source: invented}
  - {name: enquire, bytes: ENQ, action: reply, reply: '"CLUB 24" CR', source: invented}
  - name: report-cursor
    bytes: 'ESC "?"'
    action: reply
    reply: GS column row CR
    source: invented
  - name: send-line
    bytes: 'ESC "L"'
    action: reply
    reply: line CR
    sends_blanks: no
    source: invented
  - name: send-screen
    bytes: 'ESC "S"'
    action: reply
    reply: screen EOT
    row_end: CR
    sends_blanks: no
    source: invented
  - name: send-to-cursor
    bytes: 'ESC "T"'
    action: reply
    reply: screen-to-cursor EOT
    source: invented
  - name: send-line-to-cursor
    bytes: 'ESC "U"'
    action: reply
    reply: line-to-cursor CR
    source: invented
options:
  - name: character-set
    positions: [ascii, german, swedish]
    normal: ascii
    meaning: which characters the open codes show
    source: invented
    variants: {german: german, swedish: swedish-names}
  - name: rows
    positions: ['24', '12']
    normal: '24'
    meaning: how many rows are lit
    source: invented
    rows: {'12': 12}
  - name: line
    positions: [on-line, local]
    normal: on-line
    meaning: local parts keyboard and screen from the line
    source: invented
"""
TAIL = """\
circuit:
  local_option: line
  local_position: local
  source: invented
"""


FIELDS = """\
  - {name: dim, bytes: 'ESC "D"', action: dim, source: invented}
  - {name: plain, bytes: 'ESC "P"', action: plain, source: invented}
  - {name: graphics-on, bytes: SO, action: graphics-on, source: invented}
  - {name: graphics-off, bytes: SI, action: graphics-off, source: invented}
  - {name: protect, bytes: 'ESC "("', action: protect, source: invented}
  - {name: unprotect, bytes: 'ESC ")"', action: unprotect, source: invented}
  - {name: guard, bytes: 'ESC "&"', action: guard, edge: skip, source: invented}
  - {name: unguard, bytes: 'ESC "*"', action: unguard, source: invented}
  - {name: printer-on, bytes: DC2, action: printer-on, source: invented}
  - {name: printer-off, bytes: DC4, action: printer-off, source: invented}
"""
SHAPES = "◆▒├┤┬┴┼─│┌┐└┘"
FRESH = "fresh: [unguard, unprotect, plain, graphics-off, clear]"


@functools.cache
def with_fields(edge="skip"):
    """Return the profile with protected fields and more that no circuit is simulated of."""
    text = special_text().replace(TAIL, "").replace("options:\n", f"{FIELDS}options:\n")
    text = text.replace("fresh: [clear]", FRESH).replace("edge: skip", f"edge: {edge}")
    graphics = f"  graphics: {{first: 60h, shows: '{SHAPES}', source: invented}}\n"
    return parse(text.replace("  rows: 24\n", f"{graphics}  rows: 24\n", 1), "fields.yaml")


@functools.cache
def special():
    """Return the profile; its keyboard is that of the shipped club terminal."""
    return parse(special_text(), "special.yaml")


@functools.cache
def special_text():
    """Return the text of the profile."""
    club = (ROOT / "profiles" / "club-16x64.yaml").read_text(encoding="utf-8")
    keyboard = club[club.index("keyboard:") : club.index("# Chips are numbered")]
    return HEAD + keyboard + TAIL
