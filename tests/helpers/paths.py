"""Where things are in the checkout."""

import pathlib

TESTS = pathlib.Path(__file__).resolve().parents[1]
ROOT = TESTS.parent
TRANSCRIBED = TESTS / "golden" / "transcribed"
RECORDED = TESTS / "golden" / "recorded"
