"""The hands on the board's keyboard: presses and spelt text become key codes."""

from termprobe.board.keyboard import KeyScan
from termprobe.errors import UsageError
from termprobe.findings import nearest
from termprobe.notation import visible
from termprobe.profile.key_codes import presses


def keys_of(profile, wiring):
    """Return what presses keys on a board of `profile`."""
    return _Keys(profile.keyboard, wiring) if profile.keyboard else _CodesAlone(profile.id, wiring)


class _Keys:
    """A keyboard as the profile describes it, its matrix and code lines as the wiring has them."""

    def __init__(self, described, wiring):
        self._scan = KeyScan(described, wiring)
        self._names = [str(key.name) for key in described.keys]
        self._press_of = {}
        for name, modifiers, code in presses(described):
            self._press_of.setdefault(code, (name, modifiers))

    def press(self, key_name, modifiers=frozenset(), hold_s=0.0):
        """Return ((delay in seconds, bytes), ...) of one press, b"" for a break; raise UsageError where there is no such key."""
        self._refuse_unknown(key_name)
        return self._scan.press(key_name, modifiers, hold_s)

    def chord(self, key_names):
        """Return what comes of keys held together, as press; raise UsageError where there is no such key."""
        for name in key_names:
            self._refuse_unknown(name)
        return self._scan.chord(key_names)

    def type(self, character):
        """Return what comes of pressing the key that should send `character`; raise UsageError where none does."""
        press = self._press_of.get(character.encode("utf-8"))
        if press is None:
            raise UsageError(
                f"a character to be typed must be one that a key of this keyboard sends, not {character!r}"
            )
        return self.press(*press)

    def _refuse_unknown(self, name):
        if name not in self._names:
            raise UsageError(
                f'key must be one of {", ".join(self._names)}, not "{visible(name)}"{nearest(name, self._names)}'
            )


class _CodesAlone:
    """A keyboard of which nothing is known but that it sends codes."""

    def __init__(self, profile_id, wiring):
        self._profile_id, self._wiring = profile_id, wiring

    def press(self, key_name, modifiers=frozenset(), hold_s=0.0):
        """Raise UsageError: no key has a name."""
        raise UsageError(
            f"{self._profile_id}: a key can be pressed only where the profile has a keyboard, not "
            f'"{visible(key_name)}"'
        )

    def chord(self, key_names):
        """Raise UsageError, as press; keys held together are none without one."""
        for name in key_names:
            self.press(name)
        return ()

    def type(self, character):
        """Return the code of `character`; raise UsageError where it is not one of seven bits."""
        if ord(character) > 0x7F:
            raise UsageError(
                f"a character to be typed must have a code of seven bits, not {character!r}"
            )
        return ((0.0, bytes([self._wiring.buses["keyboard-code"][ord(character)]])),)
