"""What a display shows by where the options of its board stand."""

from collections.abc import Mapping

from termprobe.profile.model import Option, Profile
from termprobe.profile.variants import NO_VARIANT
from termprobe.yamlvalues import Text

Standing = Mapping[str, str]
"""Option: the position in which it stands; one that is not in it stands in its normal one."""


def variant_at(profile: Profile, standing: Standing) -> str:
    """Return the id of the national variant that is shown, NO_VARIANT for plain ASCII."""
    for option in profile.options:
        if option.variants:
            return str(option.variants.get(_position(option, standing), NO_VARIANT))
    return NO_VARIANT


def is_halved(profile: Profile, standing: Standing) -> bool:
    """Return whether only every second row is lit."""
    for option in profile.options:
        lit = option.rows.get(_position(option, standing), profile.display.rows)
        if lit < profile.display.rows:
            return True
    return False


def _position(option: Option, standing: Standing) -> Text:
    return Text(standing.get(str(option.name), option.normal))
