"""The hands on the board's keyboard: presses and spelt text become key codes."""

from collections.abc import Iterable, Sequence
from typing import Protocol

from termprobe.board.base import NO_MODIFIERS, Emitted
from termprobe.board.keyboard import KeyScan
from termprobe.board.wiring import KEYBOARD_CODE, Wiring
from termprobe.errors import UsageError
from termprobe.findings import nearest
from termprobe.notation import visible
from termprobe.profile.key_codes import presses
from termprobe.profile.model import Keyboard, Profile


class KeyHands(Protocol):
    """What presses keys; every call raises UsageError where there is no such key."""

    def press(
        self, key_name: str, modifiers: Iterable[str] = NO_MODIFIERS, hold_s: float = 0.0
    ) -> tuple[Emitted, ...]:
        """Return what comes of one press, released after `hold_s`."""

    def chord(self, key_names: Sequence[str]) -> tuple[Emitted, ...]:
        """Return what comes of keys held together."""

    def type(self, character: str) -> tuple[Emitted, ...]:
        """Return what comes of pressing the key that should send `character`."""


def keys_of(profile: Profile, wiring: Wiring) -> KeyHands:
    """Return what presses keys on a board of `profile`."""
    if profile.keyboard is None:
        return _CodesAlone(profile.id, wiring)
    return _Keys(profile.keyboard, wiring)


class _Keys:
    """A keyboard as the profile describes it; its matrix and code lines are as wired."""

    def __init__(self, described: Keyboard, wiring: Wiring) -> None:
        self._scan = KeyScan(described, wiring)
        self._names = [str(key.name) for key in described.keys]
        self._press_of: dict[bytes, tuple[str, frozenset[str]]] = {}
        for name, modifiers, code in presses(described):
            self._press_of.setdefault(code, (name, modifiers))

    def press(
        self, key_name: str, modifiers: Iterable[str] = NO_MODIFIERS, hold_s: float = 0.0
    ) -> tuple[Emitted, ...]:
        self._refuse_unknown(key_name)
        return self._scan.press(key_name, modifiers, hold_s)

    def chord(self, key_names: Sequence[str]) -> tuple[Emitted, ...]:
        for name in key_names:
            self._refuse_unknown(name)
        return self._scan.chord(key_names)

    def type(self, character: str) -> tuple[Emitted, ...]:
        press = self._press_of.get(character.encode("utf-8"))
        if press is None:
            raise UsageError(
                "a character to be typed must be one that a key of this keyboard sends, "
                f"not {character!r}"
            )
        return self.press(*press)

    def _refuse_unknown(self, name: str) -> None:
        if name not in self._names:
            raise UsageError(
                f'key must be one of {", ".join(self._names)}, not "{visible(name)}"'
                f"{nearest(name, self._names)}"
            )


class _CodesAlone:
    """A keyboard of which nothing is known but that it sends codes."""

    def __init__(self, profile_id: str, wiring: Wiring) -> None:
        self._profile_id, self._wiring = profile_id, wiring

    def press(
        self, key_name: str, modifiers: Iterable[str] = NO_MODIFIERS, hold_s: float = 0.0
    ) -> tuple[Emitted, ...]:
        """Raise UsageError: no key has a name."""
        raise UsageError(
            f"{self._profile_id}: a key can be pressed only where the profile has a keyboard, not "
            f'"{visible(key_name)}"'
        )

    def chord(self, key_names: Sequence[str]) -> tuple[Emitted, ...]:
        """Raise UsageError, as press; keys held together are none without one."""
        for name in key_names:
            self.press(name)
        return ()

    def type(self, character: str) -> tuple[Emitted, ...]:
        """Return the code of `character`; raise UsageError where it is not one of seven bits."""
        if ord(character) > 0x7F:
            raise UsageError(
                f"a character to be typed must have a code of seven bits, not {character!r}"
            )
        code = self._wiring.buses[KEYBOARD_CODE.where][ord(character)]
        return (Emitted(0.0, bytes([code])),)
