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

    `characters` are ASCII. Where a national variant shows others in their places, those are
    enlarged. None is of which the set has no drawing; so it is with all where the profile tells
    nothing of dots.
    """
    dots = profile.display.dots
    if dots is None or shown is None:
        return ()
    drawn = character_set(str(dots.characters))
    text = "".join(shown.rows)
    seen = shown_as("".join(characters), shown.variant)

    def enlarged() -> Iterator[Enlarged]:
        for character in seen:
            glyph = drawn.glyph_of(character)
            if character in text and glyph is not None:
                yield Enlarged(character, art_of(glyph, drawn.columns))

    return tuple(enlarged())
