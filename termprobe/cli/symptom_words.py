"""`termprobe explain --words`: all words that are understood of what somebody noticed."""

from termprobe.folding import folded

WIDTH = 80


def print_symptom_words() -> None:
    """Print them, by option."""
    from termprobe.diagnosis.area_words import AREA_WORDS
    from termprobe.diagnosis.dot_symptom_words import DOT_WORDS
    from termprobe.diagnosis.noticed_words import BELL_WORDS
    from termprobe.diagnosis.unmodelled import UNMODELLED

    _part("--noticed: dots, the light of the screen, the bell", (*DOT_WORDS, BELL_WORDS))
    print("  Dot columns and rows count from 0.\n")
    not_modelled = [f"{one.name}: {one.symptom}" for one in UNMODELLED]
    _part("--noticed: what no simulated fault explains; told is where to look", not_modelled)
    print()
    _part("--where", AREA_WORDS)
    print('  Rows and columns count from 0 if you do not add "counting from 1".\n')
    print("Most words that mean the same are understood as well.")


def _part(heading: str, phrases: "tuple[str, ...] | list[str]") -> None:
    """Print a heading and what stands under it."""
    print(heading)
    for phrase in phrases:
        print("\n".join(folded("  ", phrase, WIDTH, 4)))
