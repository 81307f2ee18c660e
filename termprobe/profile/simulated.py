"""What of a terminal can be simulated, in words."""

from termprobe.profile.model import Profile


def lack_in_words(profile: Profile) -> str:
    """Return what a profile without a circuit cannot do, in one sentence; else nothing."""
    if profile.circuit is not None:
        return ""
    lack = "no circuit, so no simulated board and no practice with --port sim:"
    if profile.keyboard is None:
        return lack
    return f"{lack}; its keyboard alone can be simulated (termprobe keys --port sim:)"
