"""A simulated board: bytes and keys go in, light and bytes come out.

All of it goes through the tables of its wiring.
"""

import random
from collections.abc import Iterable, Sequence
from dataclasses import replace
from functools import cached_property
from typing import NamedTuple

from termprobe.board import decoder
from termprobe.board.base import BREAK, NO_MODIFIERS, Emitted, TubePicture
from termprobe.board.counters import Counted, Counters
from termprobe.board.faults.catalogue import fault as fault_named
from termprobe.board.faults.model import Fault
from termprobe.board.functions import FUNCTIONS
from termprobe.board.generator import Misdrawn, Tube
from termprobe.board.hands import KeyHands, keys_of
from termprobe.board.memory import Memory, rows_of
from termprobe.board.sequencer import AT_REST, Decoding, Sequencer
from termprobe.board.wiring import Wiring, circuit_of, wire
from termprobe.errors import UsageError
from termprobe.findings import nearest
from termprobe.profile.model import Option, Profile
from termprobe.profile.positions import is_halved, variant_at
from termprobe.profile.variants import NO_VARIANT


class BoardState(NamedTuple):
    """What a board holds at one moment; all but the positions of its switches."""

    offset: int
    """How far the screen is scrolled."""
    cells: bytes
    """What the cells of both banks hold."""
    counts: Counted
    decoding: Decoding


class Board:
    """A whole board of `profile` with the faults named, or given; a SimulatedBoard.

    Raise UsageError where there can be none. The same seed gives the same power-up screen.
    `wiring` is what the faults are added to, a healthy one by default; `memory` is what it keeps
    its screen in, one wired so by default.
    """

    def __init__(
        self,
        profile: Profile,
        faults: Iterable[str | Fault] = (),
        seed: int = 1,
        wiring: Wiring | None = None,
        memory: Memory | None = None,
    ) -> None:
        self.profile, self.wiring = profile, wiring or wire(profile)
        for fault in faults:
            if isinstance(fault, str):
                fault = fault_named(profile, fault)
            fault.apply(self.wiring)
        _refuse_actions(profile)
        self._circuit, self._seed = circuit_of(profile), seed
        self._positions = {str(option.name): str(option.normal) for option in profile.options}
        self._received_as = self._around_seven_lines("receiver-data")
        self._sent_as = self._around_seven_lines("transmitter-data")
        self._at_power_up = self._counts_at_power_up()
        self._memory = memory or Memory(profile, self.wiring, seed)
        self._counters = Counters(
            profile, self.wiring, self._memory, self._at_power_up, self._transmit
        )
        self._sequencer = Sequencer(decoder.build(profile, self.wiring), self._counters)
        self._outgoing: list[Emitted] = []
        self._variant = NO_VARIANT
        for option in profile.options:
            self._show_as(option)

    def _around_seven_lines(self, bus: str) -> bytes:
        """Return what becomes of each byte: an eighth bit, where there is one, goes past `bus`."""
        seven = bytes(self.wiring.buses[bus])
        if self.profile.link.data_bits == 7:
            return seven + seven
        return seven + bytes(code | 0x80 for code in seven)

    def power_up(self) -> None:
        """Switch off and on: what RAM and counters hold is lost, switches keep their positions."""
        self._memory.power_up()
        self._counters.counts = self._at_power_up
        self._sequencer.decoding = AT_REST
        self._outgoing = []

    def _counts_at_power_up(self) -> Counted:
        display, chance = self.profile.display, random.Random(self._seed + 1)
        if display.power_up == "blank":
            return Counted(0, 0)
        return Counted(chance.randrange(display.rows), chance.randrange(display.columns))

    @property
    def state(self) -> BoardState:
        """What it holds now; it can be set, on a board that is wired alike."""
        memory = self._memory
        return BoardState(
            memory.offset, memory.cells, self._counters.counts, self._sequencer.decoding
        )

    @state.setter
    def state(self, state: BoardState) -> None:
        self._memory.restore(state.offset, state.cells)
        self._counters.counts = state.counts
        self._sequencer.decoding = state.decoding

    def set_option(self, name: str, position: str) -> None:
        """Move the switch `name` to `position`.

        Raise UsageError where the profile has no such switch or position.
        """
        option = self._option(name)
        if position not in option.positions:
            raise UsageError(
                f'{name} must be set to one of {", ".join(option.positions)}, not "{position}"'
                + nearest(position, option.positions)
            )
        self._positions[name] = position
        self._show_as(option)

    def _show_as(self, option: Option) -> None:
        """Let the display follow the switch `option`, where it has to do with it.

        Where only some rows are lit, the cursor counts no further than there are.
        """
        if option.variants:
            self._variant = variant_at(self.profile, self._positions)
        if option.rows:
            step = 1 + is_halved(self.profile, self._positions)
            self._memory.light(step)
            self._counters.last_row = self.profile.display.rows // step - 1

    def _option(self, name: str) -> Option:
        for option in self.profile.options:
            if option.name == name:
                return option
        raise UsageError(
            f'option must be one of {", ".join(self._positions) or "none"}, not "{name}"'
            + nearest(name, self._positions)
        )

    def receive(self, data: bytes) -> None:
        """Take bytes from the line, as many bits of each as the profile's frame has.

        In local mode none reaches the board.
        """
        if not self._is_local():
            self._decode(data)

    def _decode(self, data: bytes) -> None:
        self._sequencer.take(data.translate(self._received_as))

    def take_sent(self) -> list[Emitted]:
        """Return all that has been sent since the last call, byte by byte, and forget it."""
        taken, self._outgoing = self._outgoing, []
        return taken

    def press(
        self, key_name: str, modifiers: Iterable[str] = NO_MODIFIERS, hold_s: float = 0.0
    ) -> None:
        self._send(self._keys.press(key_name, modifiers, hold_s))

    def chord(self, key_names: Sequence[str]) -> None:
        self._send(self._keys.chord(key_names))

    def type(self, text: str) -> None:
        for character in text:
            self._send(self._keys.type(character))

    @cached_property
    def _keys(self) -> KeyHands:
        return keys_of(self.profile, self.wiring)

    def _send(self, sent: Iterable[Emitted]) -> None:
        """Send what comes from the keyboard, and show it where the echo gate is closed.

        A break goes on the line alone.
        """
        for delay_s, data in sent:
            if data == BREAK and not self._is_local():
                self._outgoing.append(Emitted(delay_s, BREAK))
            self._transmit(data, delay_s)
            if self._is_local() or self._echoes():
                self._decode(data.translate(self._sent_as))

    def _transmit(self, data: bytes, delay_s: float = 0.0) -> None:
        if self._is_local():
            return
        for code in data.translate(self._sent_as):
            self._outgoing.append(Emitted(delay_s, bytes([code])))

    def _is_local(self) -> bool:
        return self._stands(self._circuit.local_option, self._circuit.local_position)

    def _echoes(self) -> bool:
        if self.wiring.echo_gate:
            return self.wiring.echo_gate == "stuck-closed"
        return self._stands(self._circuit.echo_option, self._circuit.echo_position)

    def _stands(self, option: str, position: str) -> bool:
        """Tell whether the switch `option` stands at `position`; no name is no switch."""
        return bool(option) and self._positions.get(option) == position

    def screen(self) -> TubePicture:
        rows = rows_of(self.drawn(), self.profile.display.columns, self._variant)
        picture = TubePicture(rows, self.cursor, self.bells)
        if self.profile.display.dots is None:
            return picture
        return replace(picture, misdrawn=self.misdrawn(self.drawn()))

    def misdrawn(self, codes: bytes) -> tuple[Misdrawn, ...]:
        """Return what has not the dots that it should have, where `codes` are drawn."""
        return self._tube.misdrawn(codes, self._variant)

    @cached_property
    def _tube(self) -> Tube:
        return Tube(self.profile.display.dots, self.wiring)

    @property
    def cursor(self) -> tuple[int, int]:
        """Where the cursor is seen, as in a TubePicture."""
        return self._memory.cursor(*self._counters.cursor)

    @property
    def counted(self) -> tuple[int, int]:
        """What the counters of row and column hold."""
        return self._counters.cursor

    @property
    def bells(self) -> int:
        """How often the bell has sounded since power-up."""
        return self._counters.bells

    def drawn(self) -> bytes:
        """Return the codes that the character generator draws, row after row.

        screen() shows a character for each.
        """
        return self._memory.drawn()

    def read(self) -> bytes:
        """Return the codes that the RAM gives to the display, one physical row after the other."""
        return self._memory.read()


def _refuse_actions(profile: Profile) -> None:
    for command in profile.commands:
        if command.action not in FUNCTIONS:
            raise UsageError(
                f"{profile.id}: a simulated board has no circuit for the action {command.action} "
                f"of {command.name}; it has {', '.join(FUNCTIONS)}"
            )
