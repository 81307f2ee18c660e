"""A simulated board: bytes and keys go in, light and bytes come out, all of it through the tables of its wiring."""

import random
import re
from dataclasses import dataclass
from functools import cached_property, partial

from termprobe.board import decoder, hands
from termprobe.board.faults.catalogue import fault
from termprobe.board.functions import FUNCTIONS, Counters, carry_out
from termprobe.board.keyboard import BREAK
from termprobe.board.memory import Memory
from termprobe.board.wiring import wire
from termprobe.errors import UsageError
from termprobe.findings import nearest


@dataclass(frozen=True)
class Screen:
    """What a person in front of the board sees and hears."""

    rows: tuple[str, ...]
    """One string for each row, each as long as the screen is wide."""
    cursor: tuple[int, int]
    """Row and column; outside the screen where the cursor is not to be seen."""
    bells: int
    """How often the bell has sounded since power-up."""


class Board:
    """A board of `profile` with the faults named, or given as Fault records; raise UsageError where there can be none.

    The same seed gives the same power-up screen.
    """

    def __init__(self, profile, fault_names=(), seed=1):
        self.profile = profile
        self.wiring = wire(profile)
        for name in fault_names:
            (fault(profile, name) if isinstance(name, str) else name).apply(self.wiring)
        _refuse_actions(profile)
        self._positions = {str(option.name): str(option.normal) for option in profile.options}
        self._seed = seed
        self._connect()
        self.power_up()

    def _connect(self):
        self._received = self._around_seven_lines("receiver-data")
        self._sent_as = self._around_seven_lines("transmitter-data")
        self._decoder = decoder.build(self.profile, self.wiring)
        plain = bytes(
            code for code, line in enumerate(self._decoder[decoder.IDLE]) if line is decoder.STORED
        )
        self._plain_run = re.compile(b"[" + re.escape(plain) + b"]+" if plain else b"(?!)").match

    def _around_seven_lines(self, bus):
        """Return what becomes of each byte: an eighth bit, where the frame has one, goes past the bus."""
        seven = bytes(self.wiring.buses[bus])
        return seven + (
            seven if self.profile.link.data_bits == 7 else bytes(code | 0x80 for code in seven)
        )

    def power_up(self):
        """Switch off and on: what RAM and counters hold is lost, switches keep their positions."""
        memory = Memory(self.profile, self.wiring, self._seed)
        self._counters = Counters(
            self.profile, self.wiring, memory, *self._cursor_at_power_up(), self._transmit
        )
        self._lone = [
            partial(carry_out, self._counters, line.command, {})
            if line.command is not None and not line.wanted and not line.stores
            else None
            for line in self._decoder[decoder.IDLE]
        ]
        self._state, self._busy = decoder.IDLE, False
        self._command, self._wanted, self._latched = None, (), {}
        self._outgoing = []

    def _cursor_at_power_up(self):
        display, chance = self.profile.display, random.Random(self._seed + 1)
        if display.power_up == "blank":
            return 0, 0
        return chance.randrange(display.rows), chance.randrange(display.columns)

    def set_option(self, name, position):
        """Move the switch `name` to `position`; raise UsageError where the profile has no such switch or position."""
        option = next((option for option in self.profile.options if option.name == name), None)
        if option is None:
            raise UsageError(
                f'option must be one of {", ".join(self._positions) or "none"}, not "{name}"'
                + nearest(name, self._positions)
            )
        if position not in option.positions:
            raise UsageError(
                f'{name} must be set to one of {", ".join(option.positions)}, not "{position}"'
                + nearest(position, option.positions)
            )
        self._positions[name] = position

    def receive(self, data):
        """Take bytes from the line, as many bits of each as the profile's frame has. In local mode none reaches the board."""
        if not self._is_local():
            self._decode(bytes(data))

    def _decode(self, data):
        codes = data.translate(self._received)
        lone, place, end = self._lone, 0, len(codes)
        while place < end:
            if self._busy:
                self._take(codes[place])
            elif (perform := lone[codes[place]]) is not None:
                perform()
            elif run := self._plain_run(codes, place):
                self._counters.store(run.group())
                place = run.end()
                continue
            else:
                self._take(codes[place])
            place += 1

    def _take(self, code):
        """Let the decoder see one code."""
        if self._command is not None:
            self._latch(code)
        else:
            line = self._decoder[self._state][code]
            self._state = line.next_state
            if line.stores:
                self._counters.store(bytes([code]))
            if line.command is not None:
                self._command, self._wanted, self._latched = line.command, line.wanted, {}
                self._go_on()
        self._busy = self._command is not None or self._state != decoder.IDLE

    def _latch(self, code):
        """Take one code that belongs to the command under way."""
        expected, self._wanted = self._wanted[0], self._wanted[1:]
        if isinstance(expected, str):
            self._latched[expected] = code
        elif expected != code:
            self._command = None
            return
        self._go_on()

    def _go_on(self):
        if not self._wanted:
            command, self._command = self._command, None
            carry_out(self._counters, command, self._latched)

    def sent(self):
        """Return the bytes that the transmitter has sent since the last call, and forget them."""
        return b"".join(data for _, data in self.take_sent())

    def take_sent(self):
        """Return (seconds after the press, byte) for all sent since the last call, b"" for a break, and forget them."""
        taken, self._outgoing = self._outgoing, []
        return taken

    def press(self, key_name, modifiers=frozenset(), hold_s=0.0):
        """Press a key of the keyboard, release it after `hold_s`; raise UsageError where it has no such key."""
        self._send(self._keyboard.press(key_name, frozenset(modifiers), hold_s))

    def chord(self, key_names):
        """Press keys one after another, holding them until all are down; raise UsageError where there is no such key."""
        self._send(self._keyboard.chord(key_names))

    def type(self, text):
        """Press the keys whose codes spell `text`, \\r being RETURN; raise UsageError where no key sends a character."""
        for character in text:
            self._send(self._keyboard.type(character))

    @cached_property
    def _keyboard(self):
        return hands.keys_of(self.profile, self.wiring)

    def _send(self, events):
        """Send what comes from the keyboard, and show it where the echo gate is closed. A break goes on the line alone."""
        for delay_s, data in events:
            if data == BREAK and not self._is_local():
                self._outgoing.append((delay_s, BREAK))
            self._transmit(data, delay_s)
            if self._is_local() or self._echoes():
                self._decode(data.translate(self._sent_as))

    def _transmit(self, data, delay_s=0.0):
        if not self._is_local():
            self._outgoing += [(delay_s, bytes([code])) for code in data.translate(self._sent_as)]

    def _is_local(self):
        circuit = self.profile.circuit
        return (
            bool(circuit.local_option)
            and self._positions.get(circuit.local_option) == circuit.local_position
        )

    def _echoes(self):
        if self.wiring.echo_gate:
            return self.wiring.echo_gate == "stuck-closed"
        circuit = self.profile.circuit
        return (
            bool(circuit.echo_option)
            and self._positions.get(circuit.echo_option) == circuit.echo_position
        )

    def screen(self):
        """Return the Screen as it is now."""
        counters = self._counters
        return Screen(
            counters.memory.screen(),
            counters.memory.cursor(counters.row, counters.column),
            counters.bells,
        )


def _refuse_actions(profile):
    for command in profile.commands:
        if command.action not in FUNCTIONS:
            raise UsageError(
                f"{profile.id}: a simulated board has no circuit for the action {command.action} "
                f"of {command.name}; it has {', '.join(FUNCTIONS)}"
            )
