"""The characters of a look whose dots are to be compared, as a good board draws them."""

from collections.abc import Iterable, Iterator

from termprobe.profile.characters import art_of, character_set
from termprobe.profile.model import Profile
from termprobe.profile.variants import shown_as
from termprobe.terminal.dots import Enlarged
from termprobe.terminal.screen import Screen


def enlarged_of(
    profile: Profile, characters: Iterable[str], shown: Screen | None
) -> tuple[Enlarged, ...]:
    """Return those of `characters` that stand on the screen, enlarged.

    There are none where the profile tells nothing of dots, nor of what a national variant shows in
    the place of an ASCII character: the sets of characters have no drawing of those.
    """
    dots = profile.display.dots
    if dots is None or shown is None:
        return ()
    drawn = character_set(str(dots.characters))
    text, variant = "".join(shown.rows), shown.variant

    def enlarged() -> Iterator[Enlarged]:
        for character in characters:
            if character in text and shown_as(character, variant) == character:
                yield Enlarged(character, art_of(drawn.glyphs[ord(character)], drawn.columns))

    return tuple(enlarged())
