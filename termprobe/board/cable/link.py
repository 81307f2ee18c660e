"""The link to a simulated board over a cable: speeds, lines, breaks and buffers as they are."""

from termprobe.board.base import SimulatedBoard
from termprobe.board.cable.board_side import BoardSide, CabledBoard
from termprobe.board.cable.cable import Cable
from termprobe.board.cable.host_side import DRIVEN, CabledHost, HostAdapter
from termprobe.board.link import LISTEN_S, board_format
from termprobe.clock import Clock
from termprobe.errors import LinkError, LinkLostError, LinkSettingsError
from termprobe.link.base import LineFormat, Received
from termprobe.link.settings import refuse_impossible

HELD_LIMIT_S = 5.0
"""A line that takes no character for this long is held."""
PERFECT = HostAdapter()


class CableLink:
    """A Link to `board` over a cable, in the time of `clock`.

    `side` says how the board's line is built, by default as its profile has it, `adapter` what the
    computer's end is like. `cable` can be unplugged and plugged at any moment; `plan_pull()` pulls
    the adapter itself.
    """

    note = ""

    def __init__(
        self,
        board: SimulatedBoard,
        clock: Clock,
        format: LineFormat | None = None,
        name: str = "sim:",
        wiring: str = "crossed",
        side: BoardSide | None = None,
        adapter: HostAdapter = PERFECT,
    ) -> None:
        side = side or side_of(board)
        self.board, self.name, self.format = board, name, format or side.format
        self._clock, self._is_open, self._is_pulled = clock, True, False
        host = CabledHost(adapter, self.format)
        self.cable = Cable(host, CabledBoard(board, side), wiring, clock.now_s())
        self._host, self._adapter = host, adapter
        for line in DRIVEN:
            host.end.drive(clock.now_s(), line, True)

    @property
    def abilities(self) -> frozenset[str]:
        return self._adapter.abilities

    def set_format(self, format: LineFormat) -> None:
        refuse_impossible(self.name, format)
        self._come_to_now()
        try:
            self._host.set_format(format)
        except LinkSettingsError as error:
            raise LinkSettingsError(f"{self.name}: {error}") from None
        self.format = format

    def write(self, data: bytes) -> None:
        self._come_to_now()
        held_until_s = self._clock.now_s() + HELD_LIMIT_S
        while data:
            now_s = self._clock.now_s()
            room = self._host.room(now_s)
            self._host.end.transmitter.put(now_s, data[:room])
            data = data[room:]
            if room:
                held_until_s = now_s + HELD_LIMIT_S
            elif now_s >= held_until_s:
                raise LinkError(
                    f"{self.name}: the line must take characters, but it takes no more; "
                    "see that nothing holds it"
                )
            else:
                self._come_to(min(now_s + LISTEN_S, held_until_s))
            self._refuse_pulled()

    def read(self, wait_s: float) -> tuple[Received, ...]:
        self._come_to_now(reads=True)
        deadline_s = self._clock.now_s() + wait_s
        arrived = self._host.take()
        while not arrived:
            self._refuse_pulled()
            if self._clock.now_s() >= deadline_s:
                break
            self._come_to(min(deadline_s, self._next_s()))
            arrived = self._host.take()
        return arrived

    def drain(self, limit_s: float) -> bool:
        self._come_to_now()
        deadline_s = self._clock.now_s() + limit_s
        while self._unsent():
            now_s = self._clock.now_s()
            if now_s >= deadline_s:
                return False
            left_s = self._host.end.transmitter.free_s(now_s)
            self._come_to(min(deadline_s, left_s, now_s + LISTEN_S))
            self._refuse_pulled()
        return True

    def unsent(self) -> int | None:
        self._come_to_now()
        if "unsent" not in self.abilities:
            return None
        return self._unsent()

    def _unsent(self) -> int:
        return self._host.end.transmitter.unsent(self._clock.now_s())

    def break_s(self) -> float | None:
        self._come_to_now()
        if "break-length" not in self.abilities:
            return None
        return self._host.end.receiver.break_s(self._clock.now_s())

    def counters(self) -> dict[str, int]:
        self._come_to_now()
        if "counters" not in self.abilities:
            return {}
        return dict(self._host.errors)

    def lines(self) -> dict[str, bool] | None:
        self._come_to_now()
        if "lines" not in self.abilities:
            return None
        return self._host.lines(self._clock.now_s())

    def set_line(self, line: str, on: bool) -> None:
        self._come_to_now()
        needed = {"break": "break", "rts": "lines", "dtr": "lines"}.get(line)
        if needed not in self.abilities:
            raise LinkSettingsError(
                f'{self.name}: the line to drive must be one that the adapter has, not "{line}"'
            )
        if line == "break":
            self._host.end.transmitter.set_break(self._clock.now_s(), on)
        else:
            self._host.end.drive(self._clock.now_s(), line, on)

    def plan_pull(self, at_s: float) -> None:
        """Have the adapter pulled out of the computer at a moment that has not come yet."""
        self.cable.plan(at_s, self._pull)

    def _pull(self, at_s: float) -> None:
        self._is_pulled = True
        self.cable.unplug(at_s)
        self._host.end.transmitter.forget()

    def close(self) -> None:
        """Let go of the line."""
        self._is_open = False

    def _next_s(self) -> float:
        """When to look again: at what is due, and now and then at keys that may be pressed."""
        return min(self.cable.next_s, self._clock.now_s() + LISTEN_S)

    def _come_to(self, at_s: float) -> None:
        self._clock.sleep_until(at_s)
        self.cable.advance(self._clock.now_s())

    def _come_to_now(self, reads: bool = False) -> None:
        if not self._is_open:
            raise LinkLostError(
                f"{self.name}: the link must be open, but it has been closed; open it again"
            )
        self.cable.advance(self._clock.now_s())
        if not reads:
            self._refuse_pulled()

    def _refuse_pulled(self) -> None:
        if self._is_pulled:
            raise LinkLostError(
                f"{self.name}: the adapter must stay plugged in, but it is gone; plug it in again"
            )


def side_of(board: SimulatedBoard, speed_baud: int | None = None) -> BoardSide:
    """Return a board's line as its profile has it, its speed switch as in board_format()."""
    profile = board.profile
    return BoardSide(board_format(profile, speed_baud), str(profile.link.handshake))
