"""The hands on the board's keyboard: presses and spelt text become key codes."""

from termprobe.errors import UsageError
from termprobe.profile import keyboard
from termprobe.findings import nearest


def keys_of(profile, wiring):
    """Return what presses keys on a board of `profile`."""
    return _Keys(profile.keyboard) if profile.keyboard else _CodesAlone(profile.id)


class _Keys:
    """A keyboard as the profile describes it."""

    def __init__(self, described):
        self._keyboard = described
        self._key = {str(key.name): key for key in described.keys}
        self._press_of = {}
        for name, modifiers, code in keyboard.presses(described):
            self._press_of.setdefault(code, (name, modifiers))

    def press(self, key_name, modifiers=frozenset()):
        """Return [(delay in seconds, code)] of one press; raise UsageError where there is no such key."""
        if key_name not in self._key:
            raise UsageError(f'key must be one of {", ".join(self._key)}, not "{key_name}"{nearest(key_name, self._key)}')
        return [(0.0, code) for code in keyboard.code_of(self._keyboard, self._key[key_name], modifiers) or b""]

    def type(self, character):
        """Return what comes of pressing the key that should send `character`; raise UsageError where none does."""
        press = self._press_of.get(character.encode("utf-8"))
        if press is None:
            raise UsageError(f"a character to be typed must be one that a key of this keyboard sends, not {character!r}")
        return self.press(*press)


class _CodesAlone:
    """A keyboard of which nothing is known but that it sends codes."""

    def __init__(self, profile_id):
        self._profile_id = profile_id

    def press(self, key_name, modifiers=frozenset()):
        """Raise UsageError: no key has a name."""
        raise UsageError(f'{self._profile_id}: a key can be pressed only where the profile has a keyboard, not "{key_name}"')

    def type(self, character):
        """Return the code of `character`; raise UsageError where it is not one of seven bits."""
        if ord(character) > 0x7F:
            raise UsageError(f"a character to be typed must have a code of seven bits, not {character!r}")
        return [(0.0, ord(character))]
